// What the marks mean, with the same colours and patterns as on the photo.
import { h, s } from "../dom.js";

const MARKS = [
  ["stippled", "#56b4e9", () => [s("circle", { cx: 12, cy: 13, r: 5 }), s("circle", { cx: 26, cy: 8, r: 4 }), s("circle", { cx: 36, cy: 17, r: 5 })]],
  ["yellowed", "#f0e442", () => [0, 10, 20, 30, 40].map(x => s("line", { x1: x - 4, y1: 28, x2: x + 14, y2: 0 }))],
  ["browned", "#d55e00", () => [0, 12, 24, 36, 48].map(x => [s("line", { x1: x - 6, y1: 28, x2: x + 12, y2: 0 }), s("line", { x1: x - 6, y1: 0, x2: x + 12, y2: 28 })])],
  ["chewed away", "#cc79a7", () => [5, 13, 21].map(y => s("line", { x1: 0, y1: y, x2: 48, y2: y }))],
  ["not judged", "#dcdcdc", () => [6, 18, 30, 42].map(x => [7, 19].map(y => s("circle", { cx: x, cy: y, r: 1.5 })))],
];

/** The list of marks. */
export function legend() {
  return h("ul", { class: "legend" }, MARKS.map(([words, colour, draw]) => h("li", null,
    s("svg", { class: "swatch", viewBox: "0 0 48 28", "aria-hidden": "true" },
      s("rect", { width: 48, height: 28, fill: "#3d5a35" }),
      s("g", { stroke: colour, "stroke-width": 2.5, fill: "none" }, draw())),
    words)));
}
