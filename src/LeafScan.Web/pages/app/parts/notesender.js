// Who writes the notes, and in which form; the same for every note.
import { choice, field, h, put } from "../dom.js";
import { change } from "../api.js";
import { done, troubleNote } from "../say.js";

/** The form of the sender. */
export function noteSender(sender, note, { show, again }) {
  const by = h("input", { name: "by", value: sender.by ?? "", maxlength: 80, autocomplete: "name" });
  const contact = h("input", { name: "contact", value: sender.contact ?? "", maxlength: 200, autocomplete: "off" });
  const country = h("input", { name: "country", value: sender.country ?? "", maxlength: 2, size: 4, autocomplete: "off", autocapitalize: "characters" });
  const units = choice([["", "as the country"], ["metric", "metric"], ["us", "US"]], sender.units ?? "");
  const paper = choice([["", "as the country"], ["a4", "A4"], ["letter", "Letter"]], sender.paper ?? "");
  const client = note.client ? h("input", { name: "clientCountry", maxlength: 2, size: 4, autocomplete: "off", autocapitalize: "characters" }) : null;
  const trouble = h("div");
  const old = { by: sender.by ?? "", contact: sender.contact ?? "", country: sender.country ?? "", units: sender.units ?? "", paper: sender.paper ?? "" };
  return h("details", null, h("summary", null, "Who writes it, and in which form"), h("form", {
    onsubmit: async event => {
      event.preventDefault();
      put(trouble);
      try {
        if (client?.value.trim()) await change("/api/notes/sender", { client: note.client, country: client.value.trim() });
        await change("/api/notes/sender", { by: by.value.trim(), contact: contact.value.trim(), country: country.value.trim(), units: units.value, paper: paper.value });
        done("Sender kept.", again, async () => {
          await change("/api/notes/sender", old);
          return "the sender is as before.";
        });
        await show();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  }, h("div", { class: "fields" },
    field("Your name", by), field("How to reach you", contact, "telephone or mail"),
    field("Country", country, "two letters, such as US or DE: the form of days"),
    client ? field(`Country of ${note.client}`, client, "only if it is another one") : null,
    field("Units", units), field("Paper", paper)),
  h("div", { class: "row" }, h("button", { type: "submit" }, "Keep sender")), trouble));
}
