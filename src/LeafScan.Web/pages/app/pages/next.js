// What to do next, plant by plant; those where something is due first.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { day } from "../words.js";

export async function draw(page) {
  const plants = await get("/api/next");
  const now = plants.filter(plant => !plant.isRest), rest = plants.filter(plant => plant.isRest);
  put(page, h("h1", null, "What to do next"),
    plants.length === 0 ? h("p", null, "Nothing yet: bring in the photos of a first walk.") : null,
    now.length ? h("ul", { class: "cards" }, now.map(card)) : null,
    rest.length ? [h("h2", null, "Nothing to do but look again"), h("ul", { class: "cards" }, rest.map(card))] : null,
    h("p", { class: "small" }, "Advice names no rates: the label is the law, and so are the rules of your country."),
    h("div", { class: "row noprint" }, h("button", { onclick: () => print() }, "Print this page")));
}

function card(plant) {
  const lines = plant.lines ?? (plant.next ? [{ words: plant.next }] : []);
  return h("li", { class: "card" },
    h("a", { class: "big", href: `/plant/${plant.plantId ?? plant.id}` }, plant.code, plant.place ? h("span", { class: "small" }, ` · ${plant.place}`) : null),
    plant.recheckOn ? h("p", null, "Look again ", h("strong", null, day(plant.recheckOn))) : null,
    h("ul", null, lines.map(line => h("li", null, h("strong", null, line.words), line.reason ? h("p", null, line.reason) : null))),
    plant.cautions?.length ? h("details", null, h("summary", null, "Before anything is sprayed"), h("ul", null, plant.cautions.map(line => h("li", null, line.words, line.reason ? h("p", { class: "small" }, line.reason) : null)))) : null,
    lines.some(line => line.source) ? h("details", null, h("summary", null, "Where this is from"), h("ul", null, [...new Set([...lines, ...(plant.cautions ?? [])].map(line => line.source).filter(Boolean))].map(source => h("li", null, source)))) : null);
}
