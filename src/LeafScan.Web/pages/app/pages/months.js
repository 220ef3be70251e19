// This month beside another, plant by plant.
import { choice, field, h, put, wide } from "../dom.js";
import { get } from "../api.js";
import { word } from "../parts/tape.js";
import { between, changed, month, percent, points } from "../words.js";

export async function draw(page, { query }) {
  const walks = await get("/api/walks");
  const months = [...new Set(walks.map(walk => walk.date.slice(0, 7)))].sort().reverse();
  if (months.length < 2) {
    put(page, h("h1", null, "Month against month"), h("p", null, months.length === 0 ? "No walk is on record yet." : `Only ${month(months[0])} has walks. Come back after a walk in another month.`));
    return;
  }

  const places = [...new Set(walks.map(walk => walk.place))];
  const result = h("div");
  const from = choice(months.map(one => [one, month(one)]), query.get("from") ?? months[1], () => show());
  const to = choice(months.map(one => [one, month(one)]), query.get("to") ?? months[0], () => show());
  const where = choice([["", "all places"], ...places.map(place => [place, place])], query.get("place") ?? "", () => show());
  const show = async () => {
    const asked = new URLSearchParams({ from: from.value, to: to.value });
    if (where.value) asked.set("place", where.value);
    history.replaceState(null, "", `/compare?${asked}`);
    put(result, table(await get(`/api/compare?${asked}`), from.value, to.value));
  };
  put(page, h("h1", null, "Month against month"),
    h("div", { class: "fields noprint" }, field("From", from), field("To", to), places.length > 1 ? field("Place", where) : null),
    result,
    h("div", { class: "row noprint" }, h("button", { onclick: () => print() }, "Print this page")));
  await show();
}

const WEIGHT = { worse: 0, cannotTell: 1, same: 2, better: 3 };

function table(rows, from, to) {
  if (rows.length === 0) return h("p", null, "No plant has leaves in both months.");
  const sorted = [...rows].sort((a, b) => (WEIGHT[a.word] ?? 1) - (WEIGHT[b.word] ?? 1) || (b.difference ?? 0) - (a.difference ?? 0));
  const cautions = [...new Set(rows.map(row => row.caution).filter(Boolean))];
  return h("div", null,
    h("ul", { class: "row plain" }, Object.keys(WEIGHT).map(key => [key, rows.filter(row => row.word === key).length]).filter(([, n]) => n).map(([key, n]) => h("li", null, word(changed(key)), `: ${n}`))),
    wide("Plants in both months", h("table", { class: "stack", role: "table" },
      h("caption", null, `${month(from)} beside ${month(to)}`),
      h("thead", { role: "rowgroup" }, h("tr", { role: "row" }, ["Plant", "On the leaves", month(from), month(to), "Change"].map((words, i) => h("th", { scope: "col", role: "columnheader", class: i > 1 ? "n" : null }, words)))),
      h("tbody", { role: "rowgroup" }, sorted.map(row => h("tr", { role: "row" },
        h("th", { scope: "row", role: "rowheader" }, h("a", { class: "big", href: `/plant/${row.plantId}` }, row.code)),
        h("td", { role: "cell", "data-head": "On the leaves" }, word(changed(row.word))),
        [[row.from, from], [row.to, to]].map(([side, when]) => h("td", { role: "cell", class: "n", "data-head": month(when) }, h("span", null, percent(side?.damage), h("br"), h("span", { class: "small" }, `${between(side?.damageLow, side?.damageHigh)} (${side?.leaves ?? 0} leaves)`)))),
        h("td", { role: "cell", class: "n", "data-head": "Change" }, h("span", null, h("strong", null, points(row.difference)), h("br"), h("span", { class: "small" }, typeof row.low === "number" ? `${points(row.low)} to ${points(row.high)}` : "")))))))),
    h("details", null, h("summary", null, "Why, plant by plant"), h("ul", null, sorted.filter(row => row.because).map(row => h("li", null, h("strong", null, row.code), `: ${row.because}`)))),
    h("div", { class: "note" }, (cautions.length ? cautions : ["Damage does not heal: a fall comes from new leaves, from leaf drop or from other leaves in the photos."]).map(words => h("p", null, words))));
}
