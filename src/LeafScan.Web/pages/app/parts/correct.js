// Puts a reading right. A correction is kept with its time and measured again at once; later runs leave it alone.
import { field, h, put } from "../dom.js";
import { change, post, remove } from "../api.js";
import { assign } from "./photocard.js";
import { done, say, tell, troubleNote } from "../say.js";
import { day, who } from "../words.js";

const SAID = { notALeaf: "not a leaf", notMites: "not mites", outline: "outline drawn" };

/** The part of a photo's page that puts it right. */
export function corrections(photo, view, { again, go }) {
  const trouble = h("div");
  const desk = h("div");
  const leaves = photo.leaves ?? [];
  const name = leaf => leaves.length > 1 ? ` (leaf ${leaf.index + 1})` : "";

  const send = async (leaf, body, words) => {
    put(trouble);
    try {
      say("Measuring again.");
      await post(`/api/photos/${photo.id}/leaves/${leaf.index}/correction`, { ...body, who: who() });
      done(words, again);
      await again();
    } catch (error) {
      put(trouble, troubleNote(error));
    }
  };

  const outline = leaf => {
    const number = h("span", { role: "status" });
    const use = h("button", { class: "main", disabled: true, onclick: () => { drawing.end(); put(desk); send(leaf, { what: "outline", outline: drawing.points }, "Measured with your outline."); } }, "Use this outline");
    put(desk, h("div", { class: "note" },
      h("p", null, "Touch the photo along the edge of the leaf, all around, ten points or more. With keys: arrows move the cross (with Shift in small steps), Enter sets a point, Backspace takes the last one back."),
      h("p", null, number),
      h("div", { class: "row" }, use, h("button", { onclick: () => drawing.back() }, "Last point back"), h("button", { onclick: () => drawing.clear() }, "Start over"), h("button", { onclick: () => { drawing.end(); put(desk); } }, "Leave it"))));
    const drawing = view.drawOutline(points => {
      use.disabled = points.length < 3;
      put(number, points.length < 3 ? `${points.length} points; three at least.` : `${points.length} points.`);
    });
  };

  const bin = async () => {
    try {
      await remove(`/api/photos/${photo.id}`);
      await go(photo.walkId ? `/walk/${photo.walkId}` : "/");
      done(`${photo.file} is in the bin and counts nowhere.`, () => go(`/photo/${photo.id}`));
    } catch (error) {
      tell(error.words ?? String(error));
    }
  };

  return h("section", { class: "noprint", "aria-labelledby": "right-title" },
    h("h2", { id: "right-title" }, "Put it right"),
    leaves.map(leaf => h("div", { class: "row" },
      h("button", { onclick: () => send(leaf, { what: "notALeaf" }, "Left out: not a leaf.") }, `Not a leaf${name(leaf)}`),
      h("button", { onclick: () => send(leaf, { what: "notMites" }, "Noted: not mites.") }, `Not mites${name(leaf)}`),
      h("button", { onclick: () => outline(leaf) }, `Draw the outline${name(leaf)}`))),
    h("div", { class: "row" },
      h("button", { onclick: () => assign([{ photoId: photo.id, file: photo.file }], photo.place, again) }, photo.plantCode ? "Wrong plant" : "Which plant?"),
      h("button", { onclick: bin }, "To the bin")),
    desk, label(photo, again), trouble,
    photo.corrections?.length ? [h("h3", null, "Put right before"), h("ul", { class: "lines" }, photo.corrections.map(one => h("li", null, `${day(one.when)}: ${SAID[one.what] ?? one.what}${one.who ? `, ${one.who}` : ""}${one.because ? `, by a tag that was sent later: ${one.because}` : ""}${one.takenBack ? " (taken back)" : ""}`)))] : null);
}

function label(photo, again) {
  const text = h("input", { name: "leafLabel", value: photo.leafLabel ?? "", maxlength: 20, autocomplete: "off" });
  const age = h("select", { name: "leafAge" }, [["", "not told"], ["old", "old growth"], ["new", "new growth"]].map(([value, words]) => h("option", { value, selected: (photo.leafAge ?? "") === value }, words)));
  const trouble = h("div");
  return h("details", null, h("summary", null, "Which leaf is it?"), h("form", {
    onsubmit: async event => {
      event.preventDefault();
      try {
        await change(`/api/photos/${photo.id}/leaf`, { label: text.value.trim() || null, age: age.value || null });
        done("Leaf noted.", again);
        await again();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  }, h("div", { class: "fields" }, field("Label on the leaf's tag", text), field("Age", age), h("button", { type: "submit" }, "Keep")), trouble));
}
