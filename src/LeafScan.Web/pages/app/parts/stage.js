// The photo with its marks: a slider between both, zoom by buttons, from speck to speck, outlines, and drawing by touch or keys.
import { h, put, s } from "../dom.js";
import { say } from "../say.js";
import { zooming } from "./zoom.js";

/** The stage of a photo: {node, showLeaf, drawOutline}. */
export function stage(photo) {
  const { width, height } = photo;
  const picture = h("img", { src: `/api/photos/${photo.id}/picture?edge=1600`, alt: `Photo ${photo.file}${photo.plantCode ? ` of plant ${photo.plantCode}` : ""}`, width, height });
  const marks = h("img", { class: "marks", src: `/api/photos/${photo.id}/overlay?edge=1600`, alt: "", width, height });
  const drawing = h("p", { class: "small", role: "status" }, "The marks are being drawn …");
  marks.addEventListener("load", () => put(drawing, photo.marksAreNewer
    ? `The figures were measured by another version of LeafScan, ${photo.measuredBy}, or with other settings. The marks are drawn anew and may differ from them a little.` : ""), { once: true });
  marks.addEventListener("error", () => {
    marks.hidden = true;
    put(drawing, photo.hasOverlay ? "The marks cannot be drawn again for this photo. The figures are safe." : "");
  });
  picture.addEventListener("error", () => put(frame, h("p", { class: "note warn" }, "The photo file is no longer where it was. Its figures are safe.")), { once: true });
  const lines = s("g");
  const specks = s("g");
  const drawn = s("g");
  const sheet = s("svg", { viewBox: `0 0 ${width} ${height}`, preserveAspectRatio: "none", "aria-hidden": "true" }, lines, specks, drawn);
  const edge = h("div", { class: "edge" });
  const pane = h("div", { class: "pane" }, picture, marks, sheet, edge);
  const frame = h("div", { class: "stage", tabindex: "0", role: "group", "aria-label": "Photo with marks; arrow keys move it when it is enlarged" }, pane);

  let speck = -1;
  const all = (photo.leaves ?? []).flatMap(leaf => leaf.specks ?? []);

  const setShown = percent => {
    frame.style.setProperty("--shown", `${percent}%`);
    edge.hidden = percent <= 0 || percent >= 100;
  };
  const zoom = zooming(frame, pane, {
    fine: () => {
      const fine = Math.max(width, height);
      picture.src = `/api/photos/${photo.id}/picture?edge=${fine}`;
      marks.src = `/api/photos/${photo.id}/overlay?edge=${fine}`;
    },
    changed: (isWhole, isMost) => {
      smaller.disabled = isWhole;
      larger.disabled = isMost;
    },
  });
  const setLines = is => put(lines, is ? (photo.leaves ?? []).map(leaf => leaf.outline?.length ? [
    s("polygon", { class: "halo", points: text(leaf.outline) }), s("polygon", { class: "rim", "data-leaf": leaf.index, points: text(leaf.outline) })] : null) : null);
  const setSpecks = is => put(specks, is ? all.map(([x, y, d]) => [
    s("circle", { class: "speck", cx: x, cy: y, r: Math.max(3, d) }), s("circle", { class: "speck over", cx: x, cy: y, r: Math.max(3, d) })]) : null,
    speck >= 0 && all[speck] ? s("circle", { class: "speck now", cx: all[speck][0], cy: all[speck][1], r: Math.max(6, all[speck][2] * 2) }) : null);
  const nextSpeck = by => {
    speck = (speck + by + all.length) % all.length;
    zoom.set(zoom.most - 1, [all[speck][0] / width, all[speck][1] / height]);
    setSpecks(ring.checked);
    say(`Speck ${speck + 1} of ${all.length}`);
  };

  const slider = h("input", { type: "range", min: 0, max: 100, value: 100, step: 5, "aria-label": "How much of the photo shows its marks", oninput: () => setShown(Number(slider.value)) });
  const smaller = h("button", { onclick: () => zoom.by(-1), "aria-label": "Smaller" }, "−");
  const larger = h("button", { onclick: () => zoom.by(1), "aria-label": "Larger" }, "+");
  const outline = h("input", { type: "checkbox", onchange: () => setLines(outline.checked) });
  const ring = h("input", { type: "checkbox", onchange: () => setSpecks(ring.checked) });
  setShown(100);
  zoom.whole();

  const tools = h("div", { class: "noprint" },
    drawing,
    h("label", { class: "slide" }, "Photo", slider, "Marks"),
    h("div", { class: "row" }, smaller, larger, h("button", { onclick: () => zoom.whole() }, "Whole photo"),
      all.length ? [h("button", { onclick: () => nextSpeck(-1) }, "Speck before"), h("button", { onclick: () => nextSpeck(1) }, "Next speck")] : null),
    h("div", { class: "row" }, h("label", { class: "tick" }, outline, "Outline"), all.length ? h("label", { class: "tick" }, ring, `Circle each of ${all.length} specks`) : null));

  return {
    node: h("div", null, frame, tools),
    showLeaf(index) {
      outline.checked = true;
      setLines(true);
      for (const rim of lines.querySelectorAll(".rim")) rim.classList.toggle("chosen", rim.dataset.leaf === String(index));
      const points = photo.leaves.find(leaf => leaf.index === index)?.outline ?? [];
      if (points.length) {
        const xs = points.map(point => point[0]), ys = points.map(point => point[1]);
        zoom.set(1, [(Math.min(...xs) + Math.max(...xs)) / 2 / width, (Math.min(...ys) + Math.max(...ys)) / 2 / height]);
      }
      frame.focus();
    },
    drawOutline: told => outlineDrawing({ frame, sheet, drawn, width, height, told, zoomOf: () => zoom.factor }),
  };
}

const text = points => points.map(([x, y]) => `${x},${y}`).join(" ");

// Points by touch or click; by keys a cross moves with the arrows (Shift for small steps), Enter sets, Backspace takes back.
function outlineDrawing({ frame, sheet, drawn, width, height, told, zoomOf }) {
  const points = [];
  let cross = [width / 2, height / 2];
  let isCrossShown = false;
  const unit = () => Math.max(width, height) / 160 / Math.sqrt(zoomOf());
  const draw = () => {
    put(drawn,
      s("polygon", { class: "drawn", points: text(points) }),
      points.map(([x, y]) => s("circle", { class: "tip", cx: x, cy: y, r: unit() })),
      isCrossShown ? ["under", ""].map(kind => s("path", { class: `cross ${kind}`, d: `M${cross[0] - 4 * unit()} ${cross[1]}h${8 * unit()}M${cross[0]} ${cross[1] - 4 * unit()}v${8 * unit()}` })) : null);
    told(points);
  };
  const add = (x, y) => {
    points.push([Math.round(Math.min(width - 1, Math.max(0, x))), Math.round(Math.min(height - 1, Math.max(0, y)))]);
    draw();
    say(`${points.length} points`);
  };
  const click = event => {
    const box = sheet.getBoundingClientRect();
    isCrossShown = false;
    add((event.clientX - box.left) / box.width * width, (event.clientY - box.top) / box.height * height);
  };
  const key = event => {
    const by = Math.max(width, height) / (event.shiftKey ? 400 : 50);
    const move = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[event.key];
    if (move) {
      cross = [Math.min(width, Math.max(0, cross[0] + move[0])), Math.min(height, Math.max(0, cross[1] + move[1]))];
      isCrossShown = true;
      draw();
    } else if (event.key === "Enter" || event.key === " ") add(cross[0], cross[1]);
    else if (event.key === "Backspace") back();
    else return;
    event.preventDefault();
  };
  const back = () => { points.pop(); draw(); };
  frame.classList.add("drawing");
  sheet.addEventListener("click", click);
  frame.addEventListener("keydown", key);
  frame.focus();
  draw();
  return {
    points, back,
    clear() { points.length = 0; draw(); },
    end() {
      frame.classList.remove("drawing");
      sheet.removeEventListener("click", click);
      frame.removeEventListener("keydown", key);
      put(drawn);
    },
  };
}
