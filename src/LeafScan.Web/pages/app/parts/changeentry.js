// Puts a care entry or a tap right that is on record. The old values stay there and come back with undo.
import { choice, field, h, put } from "../dom.js";
import { change } from "../api.js";
import { done, troubleNote } from "../say.js";
import { CARE, care, today } from "../words.js";

/** A form with what an entry says; `entry.path` is its address. */
export function changeForm(entry, plant, again) {
  return entry.path.startsWith("/api/care/") ? careForm(entry, plant, again) : tapForm(entry, plant, again);
}

function careForm(entry, plant, again) {
  const what = choice(CARE, entry.what);
  what.name = "changeWhat";
  const day = h("input", { type: "date", value: entry.date, max: today(), name: "changeDay", required: true });
  const at = h("input", { type: "time", value: entry.at ?? "", name: "changeAt" });
  const text = (name, value, most = 300) => h("input", { value: value ?? "", maxlength: most, autocomplete: "off", name });
  const note = text("changeNote", entry.note), active = text("changeActive", entry.active), group = text("changeGroup", entry.modeGroup, 20);
  const label = text("changeLabel", entry.labelNumber), against = text("changeAgainst", entry.against), conditions = text("changeConditions", entry.conditions);
  return form(entry, plant, again, () => ({
    date: day.value, what: what.value, note: note.value, at: at.value, active: active.value, modeGroup: group.value, labelNumber: label.value, against: against.value, conditions: conditions.value,
  }), made => `${care(made.what)} of ${plant.code} is changed.`,
  [field("What was done", what), field("Day", day), field("Time", at), field("Note", note), field("Active ingredient", active), field("Mode-of-action group", group, "IRAC, such as 10A"),
    field("Label number", label), field("Against", against), field("Weather and circumstances", conditions)]);
}

function tapForm(entry, plant, again) {
  const number = (name, value, most, least = 0) => h("input", { type: "number", min: least, max: most, step: name === "changeHours" ? "any" : 1, value: value ?? "", name, inputmode: "decimal" });
  const day = h("input", { type: "date", value: entry.date, max: today(), name: "changeDay", required: true });
  const mites = number("changeMites", entry.mitesByLens, 9999), strikes = number("changeStrikes", entry.strikes, 50, 1), branches = number("changeBranches", entry.branches, 50, 1);
  const predators = number("changePredators", entry.predators, 999), hours = number("changeHours", entry.hoursSinceRinse, 99999);
  const note = h("input", { value: entry.note ?? "", maxlength: 300, autocomplete: "off", name: "changeNote" });
  const told = input => input.value === "" ? null : Number(input.value);
  return form(entry, plant, again, () => ({
    date: day.value, mites: told(mites), mitesByPhoto: entry.mitesByPhoto ?? null, strikes: told(strikes), branches: told(branches), predators: told(predators), hoursSinceRinse: told(hours), note: note.value,
  }), made => `Tap of ${plant.code} is changed: ${made.mites} mites.`,
  [field("Mites, with the lens", mites, "empty: not counted with a lens"), field("Day", day), field("Strikes", strikes), field("Branches", branches),
    field("Predators", predators, "empty: not looked for"), field("Hours since rinse or rain", hours), field("Note", note)]);
}

function form(entry, plant, again, told, words, fields) {
  const trouble = h("div");
  return h("form", {
    class: "sheet noprint",
    onsubmit: async event => {
      event.preventDefault();
      put(trouble);
      try {
        const made = await change(entry.path, told());
        done(words(made), again);
        await again?.();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  }, h("div", { class: "fields" }, fields), h("div", { class: "row" }, h("button", { type: "submit", class: "main" }, "Keep the change")), trouble);
}
