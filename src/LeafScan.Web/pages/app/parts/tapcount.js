// The count of a sheet: by the photos, and as the person put it right; what the marks mean.
import { h } from "../dom.js";
import { count, flags } from "../words.js";

/** The figures of a sheet in words. */
export function tapCount(sheet) {
  const isSaid = sheet.specks.some(speck => speck.said);
  return [
    typeof sheet.crawling === "number"
      ? h("p", null, h("span", { class: "figure" }, count(sheet.mites, "mite")), isSaid ? ` on the photos as you put it right. By the photos alone ${sheet.crawling} walked (90\u00a0% range ${sheet.low} to ${sheet.high}).` : ` walked on the photos (90\u00a0% range ${sheet.low} to ${sheet.high}).`)
      : h("p", null, typeof sheet.mites === "number" ? `${count(sheet.mites, "mite")}, as you say.` : `No count: ${count(sheet.candidates, "speck")} of a mite's size, but the photos do not show which of them walk.`),
    sheet.predators ? h("p", null, `${count(sheet.predators, "possible predator")}: say of each whether it is one.`) : null,
    flags(sheet.flags).filter(flag => flag.name !== "noScale").map(flag => h("div", { class: "note warn" }, h("p", null, flag.meaning), h("p", null, flag.advice)))];
}

/** What the marks mean. */
export const tapLegend = () => h("p", { class: "small" }, "Ring: walked, from here to the small circle. Square: walked fast. Crossed ring: you say, no mite. Triangle: on one of the photos only. Small cross: lay still or was blown.");
