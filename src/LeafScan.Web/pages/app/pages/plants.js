// All plants, the most damaged first.
import { choice, field, h, put } from "../dom.js";
import { get, post } from "../api.js";
import { damage, word } from "../parts/tape.js";
import { placeField } from "../parts/choose.js";
import { tell, troubleNote } from "../say.js";
import { count, day, verdict } from "../words.js";

export async function draw(page, { go }) {
  const [plants, state] = await Promise.all([get("/api/plants"), get("/api/state")]);
  const list = h("ul", { class: "cards" });
  const said = h("p", { class: "small", role: "status" });
  const text = h("input", { type: "search", name: "find", autocomplete: "off", oninput: () => show() });
  const places = [...new Set(plants.map(plant => plant.place))];
  const where = choice([["", "all places"], ...places.map(place => [place, place])], "", () => show());
  const order = choice([["worst", "most damage first"], ["code", "by code"], ["last", "longest not seen first"]], "worst", () => show());

  const show = () => {
    const wanted = text.value.trim().toLowerCase();
    const found = plants
      .filter(plant => (!where.value || plant.place === where.value)
        && (!wanted || [plant.code, plant.name, plant.species, plant.cultivar, plant.block].some(part => part?.toLowerCase().includes(wanted))))
      .sort(ORDERS[order.value]);
    put(list, found.map(card));
    put(said, `${count(found.length, "plant")} shown.`);
  };

  put(page,
    h("h1", null, "Plants"),
    plants.length === 0 ? h("p", null, "None yet. Photos in a folder named with a plant's code make one, or make it here.") : [
      h("div", { class: "fields noprint" }, field("Find", text), places.length > 1 ? field("Place", where) : null, field("Order", order)), said, list],
    newPlant(state, go),
    plants.length ? h("p", { class: "noprint" }, h("a", { href: "/api/series.csv", download: "leafscan-series.csv" }, "All series as a table (CSV)")) : null);
  show();
}

const ORDERS = {
  worst: (a, b) => (b.damage ?? -1) - (a.damage ?? -1) || compare(a, b),
  code: (a, b) => compare(a, b),
  last: (a, b) => String(a.lastWalk ?? "").localeCompare(String(b.lastWalk ?? "")) || compare(a, b),
};

const compare = (a, b) => a.code.localeCompare(b.code, "en", { numeric: true });

function card(plant) {
  return h("li", { class: "card" },
    h("a", { class: "big", href: `/plant/${plant.id}` }, plant.code + (plant.name ? ` · ${plant.name}` : "")),
    h("span", { class: "small" }, [plant.species, plant.place, plant.block, plant.isCheck ? "left untreated to compare" : ""].filter(Boolean).join(" · ")),
    word(verdict(plant.verdict)),
    damage(plant, [plant.leaves ? count(plant.leaves, "leaf", "leaves") : "", plant.lastWalk ? day(plant.lastWalk) : ""].filter(Boolean).join(", ")));
}

function newPlant(state, go) {
  const code = h("input", { name: "code", required: true, maxlength: 40, autocomplete: "off" });
  const species = h("input", { name: "species", maxlength: 120, autocomplete: "off" });
  const where = placeField(state.places ?? [], state.places?.[0]?.name, "newPlace");
  const trouble = h("div");
  return h("details", { class: "noprint" }, h("summary", null, "A new plant"), h("form", {
    onsubmit: async event => {
      event.preventDefault();
      try {
        const made = await post("/api/plants", { code: code.value.trim(), place: where.input.value.trim(), species: species.value.trim() || null });
        await go(`/plant/${made.id}`);
        tell(`Plant ${made.code} made.`);
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  }, h("div", { class: "fields" }, field("Code", code, "short, as on its tag"), where.node, field("Species", species, "botanical name, if known"), h("button", { type: "submit", class: "main" }, "Make it")), trouble));
}
