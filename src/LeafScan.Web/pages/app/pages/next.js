// What to do next, plant by plant; those with something to do first.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { advice, lookAgain } from "../parts/advice.js";
import { day, percent, sentence } from "../words.js";

export async function draw(page) {
  const plants = await get("/api/next");
  put(page, h("h1", null, "What to do next"),
    plants.length === 0 ? h("p", null, "Nothing yet: bring in the photos of a first walk.") : [
      h("ul", { class: "cards wideones" }, plants.map(card)),
      h("p", { class: "small" }, "Advice names no rates: the label is the law, and so are the rules where you are."),
      h("div", { class: "row noprint" }, h("button", { onclick: () => print() }, "Print this page"))]);
}

function card(plant) {
  const first = plant.steps[0];
  return h("li", { class: "card" },
    h("a", { class: "big", href: `/plant/${plant.plantId}` }, plant.code + (plant.name ? ` · ${plant.name}` : "")),
    h("span", { class: "small" }, [plant.place, plant.block, plant.species, typeof plant.damage === "number" ? `${percent(plant.damage)} damage` : "", plant.lastWalk ? `seen ${day(plant.lastWalk)}` : ""].filter(Boolean).join(" · ")),
    h("p", null, h("strong", null, sentence(first.words))),
    h("p", null, lookAgain(plant)),
    h("details", null, h("summary", null, "Why, and what to mind", h("span", { class: "unseen" }, ` for ${plant.code}`)), advice(plant)));
}
