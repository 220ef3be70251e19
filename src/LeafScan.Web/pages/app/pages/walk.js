// One walk: every photo with its answer; more photos; plants by touch, one or many at once.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { dropPlace } from "../parts/drop.js";
import { lateTags } from "../parts/latetags.js";
import { listen } from "../live.js";
import { answers } from "../parts/answers.js";
import { quick } from "../parts/quick.js";
import { assign } from "../parts/photocard.js";
import { changes } from "../upload/queue.js";
import { day } from "../words.js";

export async function draw(page, { id, again }) {
  const [walk, state, plants] = await Promise.all([get(`/api/walks/${id}`), get("/api/state"), get("/api/plants")]);
  const chosen = new Set();
  const many = h("div", { class: "row noprint" });
  const tick = photo => h("input", {
    type: "checkbox", checked: chosen.has(photo.photoId),
    onchange: event => { event.target.checked ? chosen.add(photo.photoId) : chosen.delete(photo.photoId); offer(); },
  });
  const list = answers({
    walks: () => [Number(id)], place: walk.place, tick, first: walk,
  });
  const offer = () => put(many, h("button", {
    class: chosen.size ? "main" : "", disabled: chosen.size === 0,
    onclick: () => assign(list.photos().filter(photo => chosen.has(photo.photoId)), walk.place, async () => { chosen.clear(); offer(); await list.refresh(); }),
  }, chosen.size ? `Give ${chosen.size} to a plant` : "Give chosen photos to a plant"));
  offer();

  const moved = h("div");
  const showMoved = one => put(moved, lateTags(one, async () => { showMoved(await get(`/api/walks/${id}`)); await list.refresh(); }));
  showMoved(walk);
  const told = new Set(walk.photos.map(photo => photo.id));
  const end = listen((kind, content) => {
    if (kind !== "photo" || content.walkId !== Number(id) || content.state !== "measured") return;
    // A photo that is told again may have got another plant by a tag that came after it.
    if (told.has(content.photoId)) get(`/api/walks/${id}`).then(showMoved).catch(() => {});
    told.add(content.photoId);
  });
  const look = () => list.refresh().catch(() => {});
  changes.addEventListener("end", look);
  put(page,
    h("h1", null, `Walk of ${day(walk.date)}`), h("p", null, walk.place),
    moved, list.node, many,
    quick(plants.filter(plant => plant.place === walk.place), again, walk.date),
    h("details", { class: "noprint" }, h("summary", null, "Add photos to this place"), dropPlace({ places: state.places ?? [], place: walk.place, plants, sent: again })));
  return () => {
    list.end();
    end();
    changes.removeEventListener("end", look);
  };
}
