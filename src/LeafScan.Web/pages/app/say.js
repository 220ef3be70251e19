// What the page says by itself: the live line for screen readers, and the bar that takes the last change back.
import { h, put } from "./dom.js";
import { post, Trouble } from "./api.js";

let hide = 0;

/** Says something without showing it. */
export function say(words) {
  const live = document.getElementById("live");
  live.textContent = "";
  // An empty moment makes the same sentence be said twice when it happens twice.
  setTimeout(() => { live.textContent = words; }, 60);
}

/** Shows what was done with a button that takes it back; `again` draws the page anew afterwards. `back` takes back what is no change of something old; it gives the words. */
export function done(words, again, back) {
  const bar = document.getElementById("undo");
  const button = h("button", {
    onclick: async () => {
      button.disabled = true;
      try {
        const undone = back ? await back() : (await post("/api/undo"))?.undone;
        close();
        tell(undone ? `Taken back: ${undone}` : "There was nothing left to take back.");
        await again?.();
      } catch (error) {
        tell(error instanceof Trouble ? error.words : String(error));
      }
    },
  }, "Undo");
  put(bar, h("div", { class: "inner" }, h("span", null, words), h("span", { class: "row" }, button, h("button", { onclick: close }, "Close"))));
  bar.hidden = false;
  say(`${words} Undo is at the end of the page.`);
  clearTimeout(hide);
  hide = setTimeout(close, 60_000);
}

/** Shows a sentence in the same bar, with nothing to take back. */
export function tell(words) {
  const bar = document.getElementById("undo");
  put(bar, h("div", { class: "inner" }, h("span", null, words), h("button", { onclick: close }, "Close")));
  bar.hidden = false;
  say(words);
  clearTimeout(hide);
  hide = setTimeout(close, 20_000);
}

/** A trouble in a place of the page, with a way to try again. */
export function troubleNote(error, again) {
  const known = error instanceof Trouble;
  if (!known) console.error(error);
  const words = known ? error.message : "Something in the page went wrong.";
  const detail = known ? error.detail : "Your record is not touched. Load the page again.";
  say(`${words} ${detail}`);
  return h("div", { class: "note warn" },
    h("p", null, h("strong", null, words)), detail ? h("p", null, detail) : null,
    again ? h("p", null, h("button", { onclick: again }, "Try again")) : null);
}

function close() {
  const bar = document.getElementById("undo");
  const hadFocus = bar.contains(document.activeElement);
  bar.hidden = true;
  put(bar);
  if (hadFocus) document.getElementById("main").focus();
}
