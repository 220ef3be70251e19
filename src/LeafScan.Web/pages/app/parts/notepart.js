// A part of a note: its words, whether they are the person's own, and until when they stand.
import { field, h, put } from "../dom.js";
import { change } from "../api.js";
import { done, troubleNote } from "../say.js";
import { day } from "../words.js";

const NAMES = { greeting: "Greeting", closing: "Closing" };
const HINTS = { greeting: "before all else; nothing is composed here", closing: "after all else; nothing is composed here" };

/** The form of one part. `show` draws the paper anew, `again` the whole page. */
export function notePart(at, first, note, { show, again }) {
  const box = h("div");
  const trouble = h("div");
  const name = NAMES[first.part] ?? first.heading;

  const draw = part => {
    const text = h("textarea", { name: part.part, rows: Math.min(8, 1 + part.words.split("\n").length), maxlength: 4000 });
    text.value = part.words;
    const forWalk = h("input", { type: "checkbox", name: `${part.part}Walk`, checked: part.forWalk !== null });
    const keep = async (words, walk) => {
      put(trouble);
      try {
        const now = await change(`${at}/parts/${part.part}`, { words, forWalk: walk });
        draw(now.parts.find(one => one.part === part.part));
        done(words ? `${name}: kept.` : `${name}: your text is taken away.`, again);
        await show();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    };
    put(box, h("form", { class: "part", onsubmit: event => { event.preventDefault(); keep(text.value.trim(), forWalk.checked ? note.walk : null); } },
      field(`${name}${part.isOwn ? " · your words" : ""}`, text, HINTS[part.part] ?? (part.isOwn ? "" : "composed; change it to make it yours")),
      note.walk ? h("label", { class: "tick" }, forWalk, `Only for the walk of ${day(note.walk)}`) : null,
      h("div", { class: "row" },
        h("button", { type: "submit" }, "Keep", h("span", { class: "unseen" }, ` ${name}`)),
        part.isOwn ? h("button", { type: "button", class: "quiet", onclick: () => keep("", part.forWalk) }, "Take my words away", h("span", { class: "unseen" }, `: ${name}`)) : null)));
  };

  draw(first);
  return h("div", null, box, trouble);
}
