// Two photos of the white sheet, some seconds apart: what moved between them is counted, shown, and put right by touch.
import { h, put } from "../dom.js";
import { post, read, Trouble } from "../api.js";
import { digest } from "../upload/hash.js";
import { troubleNote } from "../say.js";
import { tapCount, tapLegend } from "./tapcount.js";
import { tapStage } from "./tapstage.js";

const NAMES = ["First photo of the sheet", "Second photo, 5 to 15 seconds later"];

/** The part of a tap's form that counts from photos. `told` gets the sheet whenever its count changes. */
export function tapPhotos(told) {
  const sent = [null, null];
  const result = h("div", { role: "status" });
  const place = h("div");
  let sheet = null;

  const take = async (which, file, button) => {
    put(result, h("p", null, "Sending …"));
    try {
      const sha256 = await digest(file);
      await read(await fetch(`/api/taps/photos/${sha256}`, { method: "PUT", headers: { "X-LeafScan": "1", "Content-Type": "application/octet-stream" }, body: file })
        .catch(() => { throw new Trouble("The photo could not be sent.", "Nothing is lost. Try again.", 0); }));
      sent[which] = sha256;
      button.textContent = `${NAMES[which]}: here ✓`;
      put(result, sent[0] && sent[1] ? h("p", null, "Counting …") : h("p", null, `Now the ${sent[0] ? "second" : "first"} one.`));
      if (sent[0] && sent[1]) show(await post("/api/taps/read", { first: sent[0], second: sent[1] }));
    } catch (error) {
      put(result, troubleNote(error));
      put(place);
    }
  };

  const changed = now => {
    sheet = now;
    put(result, tapCount(now));
    told(now);
  };
  const show = now => {
    put(place, tapStage(now, changed).node, tapLegend());
    changed(now);
  };

  const node = h("div", null, NAMES.map((words, which) => {
    const input = h("input", { type: "file", accept: "image/*", capture: "environment", tabindex: "-1", "aria-hidden": "true", name: `tap${which + 1}`, onchange: () => { if (input.files[0]) take(which, input.files[0], button); } });
    const button = h("button", { type: "button", onclick: () => input.click() }, words);
    return h("div", { class: "row" }, button, input);
  }), result, place);
  return { node, sheet: () => sheet };
}
