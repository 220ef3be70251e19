// Which readings are shown where a plant has several kinds: they are never mixed.
import { h } from "../dom.js";
import { thing } from "../words.js";

export function kinds(one, at, also = {}) {
  if (!one.kinds || one.kinds.length < 2) return null;
  return h("p", { class: "row noprint kinds" }, one.kinds.map(kind =>
    h("a", { class: "button", href: `${at}?${new URLSearchParams({ ...also, kind })}`, "aria-current": kind === one.kind ? "true" : null }, thing(kind).head)));
}
