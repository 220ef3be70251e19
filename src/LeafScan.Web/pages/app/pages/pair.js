// A phone that comes by the local network shows its code once.
import { field, h, put } from "../dom.js";
import { post } from "../api.js";
import { troubleNote } from "../say.js";

export async function draw(page, { query }) {
  const then = query.get("then");
  // Only an address of this page: a link must not lead elsewhere.
  const target = then && /^\/(?![/\\])/.test(then) ? then : "/";
  const code = h("input", { name: "code", autocomplete: "one-time-code", autocapitalize: "characters", spellcheck: "false", required: true, maxlength: 20 });
  const trouble = h("div");
  const pair = async value => {
    put(trouble);
    try {
      await post("/api/pair", { code: value });
      location.replace(target);
    } catch (error) {
      put(trouble, troubleNote(error));
      code.focus();
    }
  };
  put(page, h("h1", null, "Pair this phone"),
    h("p", null, "The machine that runs LeafScan shows a code under Settings, and in its window. Enter it once; this phone is then known."),
    h("form", { onsubmit: event => { event.preventDefault(); pair(code.value.trim()); } }, h("div", { class: "fields" }, field("Code", code), h("button", { type: "submit", class: "main" }, "Pair"))), trouble);
  // The part behind # of a scanned link never leaves this device by itself. Scanned again on this very page, only that part changes.
  const scanned = async () => {
    const value = location.hash.slice(1);
    if (!value) return;
    history.replaceState(null, "", "/pair" + location.search);
    await pair(decodeURIComponent(value));
  };
  addEventListener("hashchange", scanned);
  await scanned();
  return () => removeEventListener("hashchange", scanned);
}
