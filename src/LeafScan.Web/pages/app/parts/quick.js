// Care and taps for several plants in two touches.
import { h, put } from "../dom.js";
import { careButtons, tapForm } from "./care.js";
import { day } from "../words.js";

/** Touch the plant, then what was done; `on` is the day, today when left out. */
export function quick(plants, again, on) {
  if (plants.length === 0) return null;
  const place = h("div");
  const open = (plant, button) => {
    for (const other of row.children) other.setAttribute("aria-pressed", "false");
    button.setAttribute("aria-pressed", "true");
    put(place, h("div", { class: "sheet" }, h("p", null, h("strong", null, plant.code), ` · ${plant.place}`), careButtons(plant, again, on), tapForm(plant, again, on)));
  };
  const row = h("div", { class: "row" }, plants.slice(0, 60).map(plant => {
    const button = h("button", { "aria-pressed": "false", onclick: () => open(plant, button) }, plant.code);
    return button;
  }));
  return h("section", { class: "noprint", "aria-labelledby": "quick-title" }, h("h2", { id: "quick-title" }, "Enter care or a tap"), h("p", { class: "small" }, `Touch the plant, then what was done${on ? ` on ${day(on)}` : ""}.`), row, place);
}
