// Damage as a mark on a tape from 0 to 100 %: low values get half of the tape, since that is where decisions are made.
import { h, s } from "../dom.js";
import { between, percent } from "../words.js";

// The square root spreads 0..25 % over the first half.
const place = share => 8 + 284 * Math.sqrt(Math.min(1, Math.max(0, share)));

/** The tape alone; its words are said beside it. */
export function tape(share, low, high) {
  const marks = [0, 0.02, 0.05, 0.1, 0.25, 0.5, 1];
  return s("svg", { class: "tape", viewBox: "0 0 300 34", "aria-hidden": "true", focusable: "false", preserveAspectRatio: "xMinYMid meet" },
    s("line", { class: "axis", x1: 8, x2: 292, y1: 14, y2: 14 }),
    marks.map(value => s("line", { class: "axis", x1: place(value), x2: place(value), y1: 9, y2: 19 })),
    [0, 0.05, 0.25, 1].map(value => s("text", { x: place(value), y: 32, "font-size": 12, "text-anchor": value === 0 ? "start" : value === 1 ? "end" : "middle", fill: "currentColor" }, `${value * 100}`)),
    typeof low === "number" && typeof high === "number" ? s("line", { class: "span", x1: place(low), x2: Math.max(place(high), place(low) + 2), y1: 14, y2: 14 }) : null,
    typeof share === "number" ? s("path", { class: "dot", d: `M${place(share)} 5l8 9l-8 9l-8 -9z` }) : null);
}

/** Number, interval and tape. */
export function damage(thing, extra) {
  if (typeof thing?.damage !== "number") return h("div", null, h("span", { class: "small" }, "no damage measured yet"));
  const range = between(thing.damageLow, thing.damageHigh);
  return h("div", null,
    h("span", { class: "figure" }, percent(thing.damage)), " damage ",
    range ? h("span", { class: "small between" }, `(${range})`) : null,
    extra ? h("div", { class: "small" }, extra) : null,
    tape(thing.damage, thing.damageLow, thing.damageHigh));
}

/** A word with its sign, so that colour is never alone. */
export function word([words, kind, sign]) {
  return h("span", { class: `word ${kind}`, "data-sign": sign }, words);
}
