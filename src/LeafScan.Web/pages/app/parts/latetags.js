// Photos that a tag gave to another plant because it was sent after them: each named with its reason, and one button that takes it back.
import { h } from "../dom.js";
import { post } from "../api.js";
import { tell } from "../say.js";
import { count } from "../words.js";

/** A note for each late tag of a walk that still stands; null when there is none. */
export function lateTags(walk, again) {
  const standing = (walk.movedByTag ?? []).filter(move => !move.takenBack);
  const changes = [...new Set(standing.map(move => move.changeId))];
  return changes.map(change => {
    const moves = standing.filter(move => move.changeId === change);
    return h("div", { class: "note", role: "status" },
      h("p", null, h("strong", null, `A tag came after its leaves: ${count(moves.length, "photo")} now ${moves.length === 1 ? "has" : "have"} another plant.`)),
      h("details", null, h("summary", null, "Which, and why"), h("ul", null, moves.map(move => h("li", null,
        h("a", { href: `/photo/${move.photoId}` }, move.file), `: ${move.after ?? "no plant"} in place of ${move.before ?? "no plant"}. ${move.because}`)))),
      h("div", { class: "row noprint" }, h("button", {
        onclick: async event => {
          event.target.disabled = true;
          try {
            await post(`/api/undo?change=${change}`);
            tell("Taken back: the photos have their plants of before, and no tag moves them again.");
            await again();
          } catch (error) {
            event.target.disabled = false;
            tell(error.words ?? String(error));
          }
        },
      }, "Take this back")));
  });
}
