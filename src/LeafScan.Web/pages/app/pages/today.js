// Today: bring photos in, see the answers, enter care and taps, see where to look.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { dropPlace } from "../parts/drop.js";
import { answers } from "../parts/answers.js";
import { damage, word } from "../parts/tape.js";
import { quick } from "../parts/quick.js";
import { changes, items } from "../upload/queue.js";
import { count, day, today, verdict } from "../words.js";

const WORST = 3;

export async function draw(page, { again }) {
  const [state, walks, plants] = await Promise.all([get("/api/state"), get("/api/walks"), get("/api/plants")]);
  const isEmpty = state.photos === 0 && walks.every(walk => !walk.waiting) && plants.length === 0;
  const list = answers({ walks: () => mine(), place: items[0]?.place });
  const answered = h("section", { hidden: true, "aria-labelledby": "answers-title" }, h("h2", { id: "answers-title" }, "Answers"), list.node);

  const mine = () => [...new Set(items.map(item => item.walkId).filter(Boolean))];
  let asked = "";
  const look = () => {
    answered.hidden = items.length === 0;
    const walksNow = mine().join();
    if (walksNow && walksNow !== asked) {
      asked = walksNow;
      list.refresh().catch(() => {});
    }
  };
  changes.addEventListener("change", look);
  look();

  const drop = dropPlace({ places: state.places ?? [], plants });
  put(page,
    h("h1", null, isEmpty ? "Welcome. Start with one leaf." : `Today, ${day(today())}`),
    (state.problems ?? []).map(problem => h("div", { class: "note warn" }, h("p", null, problem))),
    isEmpty ? welcome(drop) : drop,
    answered,
    isEmpty ? null : quick(plants, again),
    isEmpty ? null : worst(plants),
    isEmpty ? null : recent(walks));
  return () => {
    list.end();
    changes.removeEventListener("change", look);
  };
}

function welcome(drop) {
  return h("div", { class: "welcome" },
    h("div", null,
      h("ol", { class: "steps" },
        h("li", null, "Pick a leaf, lay it flat on white paper in the shade, and fill the frame with it."),
        h("li", null, "Say the place below, then take the photo, or drop photos you have. Five leaves a plant tell much more than one."),
        h("li", null, "In a few seconds the answer is here: how much of the leaf is stippled, yellowed, browned or chewed.")),
      drop),
    h("figure", null,
      h("img", { src: "/app/sample-leaf.jpg", alt: "A drawn sample leaf; blue rings mark pale specks, lines mark yellowed parts.", width: 720, height: 506 }),
      h("figcaption", { class: "small" }, "A drawn sample leaf with its marks. ", h("a", { href: "/help" }, "How to take photos that measure well"))));
}

function worst(plants) {
  const found = plants.filter(plant => typeof plant.damage === "number").sort((a, b) => b.damage - a.damage).slice(0, WORST);
  return found.length === 0 ? null : h("section", { "aria-labelledby": "worst-title" },
    h("h2", { id: "worst-title" }, "Most damage"),
    h("ul", { class: "cards" }, found.map(plant => h("li", { class: "card" },
      h("a", { class: "big", href: `/plant/${plant.id}` }, plant.code), word(verdict(plant.verdict)), damage(plant, plant.lastWalk ? day(plant.lastWalk) : null)))));
}

function recent(walks) {
  return h("section", { "aria-labelledby": "walks-title" },
    h("h2", { id: "walks-title" }, "Walks"),
    walks.length === 0 ? h("p", null, "None yet.") : h("ul", { class: "lines" }, [...walks].sort((a, b) => a.date < b.date ? 1 : -1).slice(0, 30).map(walk => h("li", null,
      h("a", { class: "big", href: `/walk/${walk.id}` }, `${day(walk.date)}, ${walk.place}`),
      h("span", { class: "small" }, [count(walk.photos, "photo"), walk.waiting ? `${walk.waiting} waiting` : "", walk.refused ? `${walk.refused} refused` : ""].filter(Boolean).join(", "))))));
}
