// The line under the head that says how sending goes, on every page.
import { h, put } from "../dom.js";
import { say } from "../say.js";
import { ready } from "./hash.js";
import { changes, clearDone, counts, giveUp, isWaiting, items, takeUp, tryAgain } from "./queue.js";

let said = "";

/** Begins to watch, and takes up what was left. */
export function startSending() {
  changes.addEventListener("change", draw);
  changes.addEventListener("end", draw);
  ready();
  takeUp();
}

/** The sentence: how many, and whether it is safe to go. */
export function sentence({ total, here, twice, stuck, left }) {
  const again = twice ? ` ${twice} ${twice === 1 ? "was" : "were"} here already.` : "";
  if (left > 0 && isWaiting()) return `${here} of ${total} here. The program does not answer; trying again by itself. Nothing is lost.`;
  if (left > 0) return `${here} of ${total} here, sending the rest.${again} Keep this page open a little longer.`;
  if (stuck > 0) return `${here} of ${total} here, ${stuck} could not be sent.${again}`;
  return `All ${total} here.${again} Safe to walk away: measuring goes on by itself.`;
}

function draw() {
  const place = document.getElementById("sending");
  const now = counts();
  if (now.total === 0) {
    place.hidden = true;
    return;
  }

  const words = sentence(now);
  place.hidden = false;
  put(place, h("div", { class: "inner" },
    h("p", null, words),
    now.left > 0 ? h("progress", { max: now.total, value: now.here, "aria-label": "Photos sent" }) : null,
    stuckOnes(),
    twiceOnes(),
    now.left === 0 ? h("div", { class: "row" },
      now.stuck > 0 ? h("button", { onclick: tryAgain }, "Try again") : null,
      h("button", { class: "quiet", onclick: clearDone }, "Put this line away")) : null));

  // Said at each quarter, not at each photo: a voice that never stops helps nobody.
  const step = now.left > 0 ? `${Math.floor((4 * now.here) / now.total)}${isWaiting()}` : words;
  if (step !== said) {
    said = step;
    say(words);
  }
}

function stuckOnes() {
  const stuck = items.filter(item => item.state === "stuck");
  return stuck.length === 0 ? null : h("ul", { class: "lines" }, stuck.map(item => h("li", null,
    h("strong", null, item.name), ` ${item.trouble} `, h("button", { class: "quiet", onclick: () => giveUp(item) }, `Leave out ${item.name}`))));
}

function twiceOnes() {
  const twice = items.filter(item => item.state === "twice");
  return twice.length === 0 ? null : h("details", null, h("summary", null, `${twice.length} already here`),
    h("ul", { class: "lines" }, twice.map(item => h("li", null, `${item.name} is the same as ${item.sameAs}`))));
}
