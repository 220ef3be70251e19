// Care and taps in two touches: the plant, then what was done; day and words can follow.
import { field, h, put } from "../dom.js";
import { post, remove } from "../api.js";
import { done, say, troubleNote } from "../say.js";
import { tapPhotos } from "./tapphotos.js";
import { CARE, care, shortDay, today } from "../words.js";

/** Buttons that enter care at once for the day `on`, today when left out, and a form for another day or a note. */
export function careButtons(plant, again, on) {
  const trouble = h("div");
  const day = h("input", { type: "date", value: on ?? today(), max: today(), name: "careDay" });
  const note = h("input", { maxlength: 300, autocomplete: "off", name: "careNote" });
  const enter = async what => {
    put(trouble);
    try {
      const made = await post(`/api/plants/${plant.id}/care`, { date: day.value || today(), what, note: note.value.trim() || null });
      done(`${care(what)} noted for ${plant.code}.`, again, () => remove(`/api/care/${made.id}`).then(() => `${care(what)} of ${plant.code}.`));
      await again?.();
    } catch (error) {
      put(trouble, troubleNote(error, () => enter(what)));
    }
  };
  return h("section", { class: "noprint", "aria-labelledby": "care-title" },
    h("h2", { id: "care-title", tabindex: "-1" }, on ? `Done on ${shortDay(on)}` : "Done today"),
    h("div", { class: "row" }, CARE.map(([what, words]) => h("button", { onclick: () => enter(what) }, words))),
    h("details", null, h("summary", null, "Another day, or a note"),
      h("div", { class: "fields" }, field("Day", day), field("Note", note, "used by the next button pressed above"))),
    trouble);
}

/** A tap: the lens count, and beside it the count of two photos. Nought is an answer too. */
export function tapForm(plant, again, on) {
  const mites = h("input", { type: "number", min: 0, max: 9999, value: 0, name: "mites", inputmode: "numeric", oninput: () => { isTouched = true; } });
  const strikes = h("input", { type: "number", min: 1, max: 50, value: 3, name: "strikes", inputmode: "numeric" });
  const branches = h("input", { type: "number", min: 1, max: 50, name: "branches", inputmode: "numeric" });
  const predators = h("input", { type: "number", min: 0, max: 999, name: "predators", inputmode: "numeric" });
  const hours = h("input", { type: "number", min: 0, max: 999, name: "hours", inputmode: "decimal", step: "any" });
  const day = h("input", { type: "date", value: on ?? today(), max: today(), name: "tapDay" });
  const first = day.value;
  const trouble = h("div");
  const byPhoto = h("output", { name: "byPhoto" }, "not counted");
  const lensHint = h("small", { hidden: true }, "empty: not counted with a lens");
  let isTouched = false;
  const step = by => () => { isTouched = true; mites.value = Math.max(0, Number(mites.value || 0) + by); say(`${mites.value} mites`); };
  const photos = tapPhotos(sheet => {
    byPhoto.textContent = typeof sheet.mites === "number" ? String(sheet.mites) : "no count";
    // The day of the photos, unless another one was chosen.
    if (sheet.day && sheet.day <= day.max && day.value === first) day.value = sheet.day;
    // A nought that nobody typed would say that the lens found none.
    if (!isTouched) mites.value = "";
    lensHint.hidden = false;
  });
  const number = input => input.value === "" ? null : Number(input.value);
  const form = h("form", {
    onsubmit: async event => {
      event.preventDefault();
      put(trouble);
      try {
        const sheet = photos.sheet();
        const made = await post(`/api/plants/${plant.id}/taps`, {
          date: day.value || today(), mites: number(mites), sheetId: sheet?.id ?? null,
          strikes: number(strikes), branches: number(branches), predators: number(predators), hoursSinceRinse: number(hours), note: null,
        });
        done(`Tap of ${plant.code}: ${made.mites} mites noted.`, again, () => remove(`/api/taps/${made.id}`).then(() => `tap of ${plant.code}.`));
        await again?.();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  },
  h("div", { class: "row low" },
    h("div", { class: "stepper" },
      h("button", { type: "button", onclick: step(-1), "aria-label": "One mite less" }, "−"),
      field("Mites, with the lens", mites),
      h("button", { type: "button", onclick: step(1), "aria-label": "One mite more" }, "+")),
    h("p", { class: "field" }, h("span", null, "On the photos"), byPhoto),
    h("button", { type: "submit", class: "main" }, "Enter tap")), lensHint,
  h("details", null, h("summary", null, "Count from two photos of the sheet"), photos.node),
  h("details", null, h("summary", null, "Strikes, predators, rinse"),
    h("div", { class: "fields" }, field("Day", day), field("Strikes", strikes), field("Branches", branches), field("Predators", predators, "empty: not looked for"), field("Hours since rinse or rain", hours))),
  trouble);
  return h("section", { class: "noprint", "aria-labelledby": "tap-title" }, h("h2", { id: "tap-title", tabindex: "-1" }, "Tap over white paper"), form);
}
