// What to do next, plant by plant, the most damaged first.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { word } from "../parts/tape.js";
import { day, percent, verdict } from "../words.js";

export async function draw(page) {
  const plants = await get("/api/next");
  put(page, h("h1", null, "What to do next"),
    plants.length === 0 ? h("p", null, "Nothing yet: bring in the photos of a first walk.") : [
      h("ul", { class: "cards" }, plants.map(card)),
      h("p", { class: "small" }, "Advice names no rates: the label is the law, and so are the rules where you are."),
      h("div", { class: "row noprint" }, h("button", { onclick: () => print() }, "Print this page"))]);
}

function card(plant) {
  return h("li", { class: "card" },
    h("a", { class: "big", href: `/plant/${plant.plantId}` }, plant.code + (plant.name ? ` · ${plant.name}` : "")),
    h("span", { class: "small" }, [plant.place, plant.block, typeof plant.damage === "number" ? `${percent(plant.damage)} damage` : "", plant.lastWalk ? `seen ${day(plant.lastWalk)}` : ""].filter(Boolean).join(" · ")),
    word(verdict(plant.word)),
    h("p", null, h("strong", null, plant.next)),
    plant.because?.length ? h("details", null, h("summary", null, "Why", h("span", { class: "unseen" }, ` for ${plant.code}`)), h("ul", null, plant.because.map(because => h("li", null, because)))) : null);
}
