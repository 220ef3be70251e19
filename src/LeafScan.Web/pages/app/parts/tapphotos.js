// Two photos of the white sheet, some seconds apart: what moved between them is counted.
import { h, put } from "../dom.js";
import { post, read, Trouble } from "../api.js";
import { digest } from "../upload/hash.js";
import { troubleNote } from "../say.js";
import { count, flags } from "../words.js";

const NAMES = ["First photo of the sheet", "Second photo, 5 to 15 seconds later"];

/** The part of a tap's form that counts from photos. `use` is told the count that the person takes over. */
export function tapPhotos(use) {
  const sent = [null, null];
  const result = h("div", { role: "status" });
  let isCounted = false;

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
    }
  };

  const show = tap => put(result,
    typeof tap.crawling === "number" ? [
      h("p", null, h("span", { class: "figure" }, count(tap.crawling, "speck")), ` walked (90 % range ${tap.low} to ${tap.high})`),
      h("button", { type: "button", class: "main", onclick: () => { isCounted = true; use(tap.crawling); } }, `Take ${tap.crawling} over`)]
      : h("p", null, `No count: ${count(tap.candidates, "speck")} of a mite's size, but the photos do not show which of them walk.`),
    flags(tap.flags).map(flag => h("div", { class: "note warn" }, h("p", null, flag.meaning), h("p", null, flag.advice))),
    h("a", { href: tap.overlay, target: "_blank" }, h("img", { class: "sheetphoto", src: tap.overlay, alt: "The first photo with every speck marked", loading: "lazy" })));

  const node = h("div", null, NAMES.map((words, which) => {
    const input = h("input", { type: "file", accept: "image/*", capture: "environment", tabindex: "-1", "aria-hidden": "true", name: `tap${which + 1}`, onchange: () => { if (input.files[0]) take(which, input.files[0], button); } });
    const button = h("button", { type: "button", onclick: () => input.click() }, words);
    return h("div", { class: "row" }, button, input);
  }), result);
  return { node, counted: () => isCounted };
}
