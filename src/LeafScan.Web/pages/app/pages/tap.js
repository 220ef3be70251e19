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
    put(figures, tapCount(now));
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
