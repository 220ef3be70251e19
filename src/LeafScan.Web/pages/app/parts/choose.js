// Asks for a plant by touch: one tap on its code. A new one is made from its code alone.
import { field, h, put } from "../dom.js";
import { get, post } from "../api.js";
import { troubleNote } from "../say.js";

/** Opens the choice; resolves to {id, code}, {id: null} for "no plant", or null when closed. */
export async function choosePlant({ title, place, none }) {
  const plants = await get("/api/plants" + (place ? `?place=${encodeURIComponent(place)}` : ""));
  return new Promise(resolve => {
    let chosen = null;
    const dialog = h("dialog", { "aria-label": title, onclose: () => { dialog.remove(); resolve(chosen); } });
    const take = plant => { chosen = plant; dialog.close(); };
    const code = h("input", { name: "code", autocomplete: "off", maxlength: 40, required: true });
    const trouble = h("div");
    const makeNew = h("form", {
      onsubmit: async event => {
        event.preventDefault();
        try {
          const made = await post("/api/plants", { code: code.value.trim(), place });
          take({ id: made.id, code: code.value.trim() });
        } catch (error) {
          put(trouble, troubleNote(error));
        }
      },
    }, h("div", { class: "fields" }, field("A new plant's code", code), h("button", { type: "submit" }, "Make it")), trouble);
    dialog.append(
      h("h2", null, title),
      plants.length ? h("div", { class: "choices" }, plants.map(plant => h("button", { onclick: () => take(plant) }, plant.code))) : h("p", null, "No plant is on record there yet."),
      place ? makeNew : null,
      h("div", { class: "row" }, none ? h("button", { onclick: () => take({ id: null, code: null }) }, "No plant") : null, h("button", { onclick: () => dialog.close() }, "Close")));
    document.body.append(dialog);
    dialog.showModal();
  });
}

/** Fields of {place} known to the state, or free text. */
export function placeField(places, chosen, name = "place") {
  const list = `${name}-known`;
  const input = h("input", { name, list, value: chosen ?? "", required: true, autocomplete: "off", maxlength: 80 });
  return { input, node: [field("Place", input, "a client's garden or the nursery"), h("datalist", { id: list }, places.map(place => h("option", { value: place.name })))] };
}
