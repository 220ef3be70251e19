// The series of a plant: dots with interval bars over time, care named at the foot, taps as rings under the line.
import { s } from "../dom.js";
import { care, count, percent, shortDay } from "../words.js";

const LEFT = 58, RIGHT = 18, TOP = 16, FOOT = 112, HEIGHT = 400;

const dayNumber = iso => Date.parse(`${String(iso).slice(0, 10)}T00:00:00Z`) / 86_400_000;

/** An SVG of the series; null when there is nothing to draw. */
export function chart(plant, wide = innerWidth >= 700) {
  // Letters keep their size on a phone: the drawing is narrower there, not smaller.
  const WIDTH = wide ? 760 : 430;
  const series = (plant.series ?? []).filter(one => typeof one.damage === "number");
  if (series.length === 0) return null;
  const days = [...series.map(one => one.date), ...(plant.care ?? []).map(one => one.date), ...(plant.taps ?? []).map(one => one.date)].map(dayNumber);
  const first = Math.min(...days), span = Math.max(1, Math.max(...days) - first);
  const most = top(Math.max(...series.map(one => one.damageHigh ?? one.damage)));
  const base = HEIGHT - FOOT;
  const x = iso => LEFT + 24 + (WIDTH - LEFT - RIGHT - 48) * (dayNumber(iso) - first) / span;
  const y = share => base - (base - TOP) * Math.min(share, most) / most;
  const ticks = [0, 0.25, 0.5, 0.75, 1].map(part => part * most);

  const side = at => at < LEFT + 50 ? "start" : at > WIDTH - RIGHT - 60 ? "end" : "middle";
  const lanes1 = lanes(plant.care ?? [], x);
  return s("svg", { class: "chart", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": words(plant, series) },
    ticks.map(value => [
      s("line", { class: value === 0 ? "base" : "grid", x1: LEFT, x2: WIDTH - RIGHT, y1: y(value), y2: y(value) }),
      s("text", { x: LEFT - 8, y: y(value) + 5, "text-anchor": "end" }, `${trim(value * 100)} %`)]),
    lanes1.map(({ entry, at, lane }) => [
      s("line", { class: "care", x1: at, x2: at, y1: TOP, y2: base }),
      s("path", { class: "care-sign", d: `M${at} ${base + 25}l7 12h-14z` }),
      lane < 0 ? null : s("text", { x: at, y: base + 58 + lane * 17, "text-anchor": side(at) }, `${care(entry.what)} ${shortDay(entry.date)}`)]),
    (plant.taps ?? []).map(tap => [
      s("circle", { class: "tap-sign", cx: x(tap.date), cy: base + 32, r: 11 }),
      s("text", { x: x(tap.date), y: base + 37, "text-anchor": "middle" }, String(tap.mites ?? "?"))]),
    series.length > 1 ? s("polyline", { class: "trail", points: series.map(one => `${x(one.date)},${y(one.damage)}`).join(" ") }) : null,
    series.map(one => [
      typeof one.damageLow === "number" ? [
        s("line", { class: "bar", x1: x(one.date), x2: x(one.date), y1: y(one.damageLow), y2: y(one.damageHigh) }),
        s("line", { class: "bar", x1: x(one.date) - 8, x2: x(one.date) + 8, y1: y(one.damageLow), y2: y(one.damageLow) }),
        s("line", { class: "bar", x1: x(one.date) - 8, x2: x(one.date) + 8, y1: y(one.damageHigh), y2: y(one.damageHigh) })] : null,
      s("circle", { class: "dot", cx: x(one.date), cy: y(one.damage), r: 7 }),
      s("text", { x: x(one.date) + 13, y: y(one.damage) - 8, "font-weight": 700, "text-anchor": x(one.date) > WIDTH - 120 ? "end" : "start", dx: x(one.date) > WIDTH - 120 ? -26 : 0 }, percent(one.damage))]),
    dayMarks(series, x).map(({ one, at }) => s("text", { x: at, y: base + 18, "text-anchor": side(at) }, shortDay(one.date))));
}

// Days of visits that would run into one another are left out, the last one never.
function dayMarks(series, x) {
  const marks = [];
  for (const one of [...series].reverse()) {
    const at = x(one.date);
    if (marks.every(mark => Math.abs(mark.at - at) > 64)) marks.push({ one, at });
  }
  return marks;
}

// Care words that would run into one another go to the next line; where all are taken the triangle stays without words (the list has them).
function lanes(entries, x) {
  const ends = [-1e9, -1e9, -1e9, -1e9];
  return [...entries].sort((a, b) => a.date < b.date ? -1 : 1).map(entry => {
    const at = x(entry.date);
    const lane = ends.findIndex(end => at - 62 > end);
    if (lane >= 0) ends[lane] = at + 62;
    return { entry, at, lane };
  });
}

function top(most) {
  return [0.04, 0.08, 0.12, 0.2, 0.4, 0.6, 0.8, 1].find(step => most <= step) ?? 1;
}

const trim = value => Number(value.toFixed(1)).toString();

function words(plant, series) {
  const from = series[0], to = series[series.length - 1];
  return `Damage of ${plant.code}: ${count(series.length, "visit")}, from ${percent(from.damage)} on ${shortDay(from.date)} to ${percent(to.damage)} on ${shortDay(to.date)}. `
    + `${count((plant.care ?? []).length, "care entry", "care entries")}. The table below has every figure.`;
}
