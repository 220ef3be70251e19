// One tap sheet: what crawled on it, and single specks put right.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { KINDS } from "../parts/speckwords.js";
import { tapCount, tapLegend } from "../parts/tapcount.js";
import { tapStage } from "../parts/tapstage.js";
import { day } from "../words.js";

export async function draw(page, { id }) {
  const sheet = await get(`/api/taps/sheets/${id}`);
  const figures = h("div", { role: "status" });
  const said = h("div");
  const changed = now => {
    put(figures, now.tap ? beside(now) : null, tapCount(now));
    put(said, now.said.length ? [h("h2", null, "What you said"), h("ul", { class: "lines" }, now.said.map(one => h("li", null,
      `${day(one.when)}: ${KINDS.find(([word]) => word === one.said)[1].toLowerCase()}${one.who ? `, ${one.who}` : ""}${one.takenBack ? " (taken back)" : ""}`)))] : null);
  };
  changed(sheet);
  put(page,
    h("p", { class: "row noprint" }, sheet.plantId ? h("a", { class: "button", href: `/plant/${sheet.plantId}` }, `Plant ${sheet.plantCode}`) : h("a", { class: "button", href: "/plants" }, "Plants")),
    h("h1", null, sheet.plantCode ? `Tap sheet of ${sheet.plantCode}` : "Tap sheet"),
    h("div", { class: "two" }, h("div", null, tapStage(sheet, changed).node, tapLegend()),
      h("div", null, figures, said, h("p", { class: "noprint" }, h("a", { class: "button", href: sheet.overlay, download: "tap-sheet.jpg" }, "Marked photo")))));
}

// The count with the lens beside that of the photos, and how the tap was done.
function beside({ tap, mites, crawling, low, high, specks }) {
  const isNumber = value => typeof value === "number";
  const rows = [
    ["With the lens", isNumber(tap.mitesByLens) ? `${tap.mitesByLens} mites` : "not counted"],
    ["By the photos alone", isNumber(crawling) ? `${crawling} (${low} to ${high})` : "no count"],
    specks.some(speck => speck.said) ? ["As you put it right", `${mites}`] : null,
    ["Strikes", isNumber(tap.strikes) ? tap.strikes : "not noted"],
    tap.branches ? ["Branches", tap.branches] : null,
    ["Predators", isNumber(tap.predators) ? tap.predators : "not looked for"],
    ["Hours since rinse or rain", isNumber(tap.hoursSinceRinse) ? tap.hoursSinceRinse : "not noted"],
  ].filter(Boolean);
  return h("table", null, h("caption", null, `Tap of ${day(tap.date)}`), h("tbody", null, rows.map(([words, value]) => h("tr", null, h("th", { scope: "row" }, words), h("td", { class: "n" }, value)))));
}
