// The tap sheet with what crawls circled on it; touching a speck, or a place where none was found, puts it right.
import { h, put, s } from "../dom.js";
import { post } from "../api.js";
import { done, say, troubleNote } from "../say.js";
import { who } from "../words.js";
import { zooming } from "./zoom.js";
import { KINDS, kindOf, speckWords } from "./speckwords.js";

// What is gone through with the keys, the most telling first; what lay still comes only when asked for.
const ORDER = ["mite", "predator", "said", "gone", "come", "candidate", "blown", "still"];

/** The stage of a sheet: {node}. `changed` is told the sheet as it is after each word. */
export function tapStage(first, changed) {
  let sheet = first;
  let chosen = null;
  let cross = null;
  const { width, height } = sheet;
  const at = which => `/api/taps/sheets/${sheet.id}/${which}`;
  const picture = h("img", { src: `${at("first")}?edge=1600`, alt: "The first photo of the tap sheet", width, height });
  const second = h("img", { class: "marks", src: `${at("second")}?edge=1600`, alt: "", width, height, loading: "lazy" });
  const drawing = h("p", { class: "small", role: "status" }, "The photo is being drawn …");
  picture.addEventListener("load", () => put(drawing), { once: true });
  picture.addEventListener("error", () => put(frame, h("p", { class: "note warn" }, "The photos of this sheet are no longer here. Its counts are safe.")), { once: true });
  const rings = s("g");
  const above = s("g");
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, preserveAspectRatio: "none", "aria-hidden": "true" }, rings, above);
  const edge = h("div", { class: "edge", hidden: true });
  const pane = h("div", { class: "pane" }, picture, second, svg, edge);
  const frame = h("div", { class: "stage taps", tabindex: "0", role: "group", "aria-label": "Tap sheet; arrow keys move a cross, Enter chooses what lies under it" }, pane);
  const panel = h("div", { class: "note speckpanel" });
  const still = h("input", { type: "checkbox", onchange: () => draw() });

  const zoom = zooming(frame, pane, {
    fine: () => {
      const fine = Math.max(width, height);
      if (fine <= 1600) return;
      picture.src = `${at("first")}?edge=${fine}`;
      second.src = `${at("second")}?edge=${fine}`;
    },
    changed: (isWhole, isMost) => {
      smaller.disabled = isWhole;
      larger.disabled = isMost;
      draw();
    },
  });
  // A ring stays large enough to be seen and touched, whatever the photo's size.
  const least = () => width / Math.max(60, frame.clientWidth * zoom.factor) * 9;
  const radius = speck => Math.max(speck.d * 1.4, least());
  const shown = () => sheet.specks.filter(speck => still.checked || kindOf(speck) !== "still");
  const list = () => ORDER.flatMap(kind => shown().filter(speck => kindOf(speck) === kind));

  const draw = () => {
    put(rings, shown().map(speck => mark(speck, radius(speck))));
    put(above,
      chosen ? s("circle", { class: "speck now", cx: chosen.x, cy: chosen.y, r: radius(chosen) * 1.9 }) : null,
      cross ? ["under", ""].map(kind => s("path", { class: `cross ${kind}`, d: `M${cross[0] - 2 * least()} ${cross[1]}h${4 * least()}M${cross[0]} ${cross[1] - 2 * least()}v${4 * least()}` })) : null);
  };

  const choose = (speck, isQuiet) => {
    chosen = speck;
    draw();
    const all = list();
    const number = all.indexOf(speck);
    const words = speck.isNothing ? "Nothing was found here." : `${number >= 0 ? `${number + 1} of ${all.length}: ` : ""}${speckWords(speck)}`;
    put(panel, h("p", null, words), h("div", { class: "row" }, KINDS.map(([said, label]) => h("button", {
      type: "button", "aria-pressed": speck.isNothing ? "false" : String(isNow(speck, said)), hidden: speck.isNothing && said === "notMite", onclick: () => tellIt(speck, said, label),
    }, label))));
    if (!isQuiet) say(words);
  };

  const tellIt = async (speck, said, label) => {
    try {
      const now = await post(`/api/taps/sheets/${sheet.id}/specks`, { x: speck.x, y: speck.y, said, who: who() });
      take(now);
      const same = sheet.specks.reduce((best, one) => Math.hypot(one.x - speck.x, one.y - speck.y) < Math.hypot(best.x - speck.x, best.y - speck.y) ? one : best);
      choose(same, true);
      panel.querySelector("[aria-pressed=true]")?.focus();
      done(`${label}. ${sheet.mites ?? 0} mites on the photos now.`, async () => {
        const { get } = await import("../api.js");
        take(await get(`/api/taps/sheets/${sheet.id}`));
        start();
      });
    } catch (error) {
      put(panel, troubleNote(error));
    }
  };

  const take = now => {
    sheet = now;
    chosen = null;
    draw();
    changed(now);
  };

  const step = by => {
    const all = list();
    if (all.length === 0) return;
    const now = chosen ? all.indexOf(chosen) : -1;
    const next = all[(now + by + all.length) % all.length] ?? all[0];
    zoom.near([next.x / width, next.y / height], 4);
    choose(next);
  };

  // The nearest that a finger can have meant; else the place itself, for one that the photos did not show.
  const pick = (x, y) => {
    const reach = Math.max(least() * 2.6, 1);
    const near = shown().map(speck => [speck, Math.min(Math.hypot(speck.x - x, speck.y - y), Math.hypot(speck.toX - x, speck.toY - y))]).filter(([, away]) => away <= reach).sort((a, b) => a[1] - b[1])[0];
    choose(near ? near[0] : { x: Math.round(x * 10) / 10, y: Math.round(y * 10) / 10, toX: x, toY: y, d: 0, isNothing: true });
  };

  svg.addEventListener("click", event => {
    const box = svg.getBoundingClientRect();
    cross = null;
    pick((event.clientX - box.left) / box.width * width, (event.clientY - box.top) / box.height * height);
  });
  frame.addEventListener("keydown", event => {
    const by = Math.max(width, height) / (event.shiftKey ? 400 : 60) / Math.sqrt(zoom.factor);
    const move = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[event.key];
    if (move) {
      cross ??= chosen ? [chosen.x, chosen.y] : [width / 2, height / 2];
      cross = [Math.min(width, Math.max(0, cross[0] + move[0])), Math.min(height, Math.max(0, cross[1] + move[1]))];
      draw();
      frame.scrollTo(cross[0] / width * pane.clientWidth - frame.clientWidth / 2, cross[1] / height * pane.clientHeight - frame.clientHeight / 2);
    } else if ((event.key === "Enter" || event.key === " ") && cross) pick(cross[0], cross[1]);
    else return;
    event.preventDefault();
  });

  const slider = h("input", {
    type: "range", min: 0, max: 100, value: 0, step: 5, "aria-label": "From the first photo to the second", oninput: () => {
      frame.style.setProperty("--shown", `${slider.value}%`);
      edge.hidden = slider.value === "0" || slider.value === "100";
    },
  });
  frame.style.setProperty("--shown", "0%");
  const button = (words, press, label) => h("button", { type: "button", onclick: press, "aria-label": label }, words);
  const smaller = button("−", () => zoom.by(-1), "Smaller");
  const larger = button("+", () => zoom.by(1), "Larger");
  const start = () => put(panel, h("p", null, list().length ? "Touch a speck, or go from one to the next, and say what it is. Touch an empty place to add one that was missed." : "Touch a place to add a mite that was missed."));
  start();
  zoom.whole();
  // The ring's size follows the frame's, which is known once it stands on the page.
  if ("ResizeObserver" in globalThis) new ResizeObserver(draw).observe(frame);

  return {
    node: h("div", null, frame,
      h("div", { class: "noprint" },
        drawing,
        h("div", { class: "row" }, button("Speck before", () => step(-1)), button("Next speck", () => step(1)), smaller, larger, button("Whole sheet", () => zoom.whole())),
        panel,
        h("label", { class: "slide" }, "First", slider, "Second"),
        h("label", { class: "tick" }, still, `Also what lay still (${sheet.specks.filter(speck => kindOf(speck) === "still").length})`))),
  };
}

const isNow = (speck, said) => (speck.said ?? (speck.fate === "crawling" ? "mite" : speck.fate === "possiblePredator" ? "predator" : "notMite")) === said;

// Shape first, so that grey print and colour-blind eyes tell them apart: ring with a way, square, crossed ring, triangle, small cross.
function mark(speck, r) {
  const { x, y, toX, toY } = speck;
  // From the ring's edge, so that nothing lies over the speck itself; its new place is a dot.
  const away = Math.hypot(toX - x, toY - y);
  const way = away > 1 ? `${away > r ? `M${x + (toX - x) * r / away} ${y + (toY - y) * r / away}L${toX} ${toY}` : ""}M${toX - r / 5} ${toY}a${r / 5} ${r / 5} 0 1 0 ${r / 2.5} 0a${r / 5} ${r / 5} 0 1 0 ${-r / 2.5} 0` : null;
  const kind = kindOf(speck);
  const shapes = {
    mite: [["circle", { cx: x, cy: y, r }]],
    predator: [["rect", { x: x - r, y: y - r, width: 2 * r, height: 2 * r }]],
    said: [["circle", { cx: x, cy: y, r }], ["path", { d: `M${x - r} ${y - r}l${2 * r} ${2 * r}M${x + r} ${y - r}l${-2 * r} ${2 * r}` }]],
    gone: [["path", { d: `M${x - r} ${y - r}h${2 * r}L${x} ${y + r}z` }]],
    come: [["path", { d: `M${x - r} ${y + r}h${2 * r}L${x} ${y - r}z` }]],
    candidate: [["circle", { cx: x, cy: y, r: r * 0.8 }]],
  }[kind] ?? [["path", { d: `M${x - r / 3} ${y - r / 3}l${r / 1.5} ${r / 1.5}M${x + r / 3} ${y - r / 3}l${-r / 1.5} ${r / 1.5}` }]];
  const all = way && (kind === "mite" || kind === "predator") ? [["path", { d: way }], ...shapes] : shapes;
  return s("g", { class: `tapmark ${kind}${speck.said ? " byhand" : ""}` }, all.map(([name, props]) => s(name, { ...props, class: "under" })), all.map(([name, props]) => s(name, props)));
}
