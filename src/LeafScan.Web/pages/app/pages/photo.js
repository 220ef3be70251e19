// One photo: the picture with its marks, the figures of each leaf, why, and ways to put it right.
import { h, put, wide } from "../dom.js";
import { get } from "../api.js";
import { stage } from "../parts/stage.js";
import { corrections } from "../parts/correct.js";
import { legend } from "../parts/legend.js";
import { damage } from "../parts/tape.js";
import { TISSUES, cause, count, day, flags, percent, sureness } from "../words.js";

export async function draw(page, { id, again, go }) {
  const photo = await get(`/api/photos/${id}`);
  const leaves = photo.leaves ?? [];
  const view = stage(photo);
  // Most photos have no scale, and shares need none: no reason to shout.
  const loud = flags(photo.flags).filter(flag => flag.name !== "noScale");
  const isBare = loud.length < flags(photo.flags).length;
  put(page,
    h("p", { class: "row noprint" },
      photo.walkId ? h("a", { class: "button", href: `/walk/${photo.walkId}` }, "The walk") : null,
      photo.plantId ? h("a", { class: "button", href: `/plant/${photo.plantId}` }, `Plant ${photo.plantCode}`) : null,
      photo.previousId ? h("a", { class: "button", href: `/photo/${photo.previousId}` }, "‹ Before") : null,
      photo.nextId ? h("a", { class: "button", href: `/photo/${photo.nextId}` }, "Next ›") : null),
    h("h1", null, photo.file),
    photo.inBin ? h("div", { class: "note warn" }, h("p", null, "This photo lies in the bin and counts nowhere.")) : null,
    photo.willBeMeasuredAgain ? h("div", { class: "note" }, h("p", null, "It will be measured again; the figures are those from before.")) : null,
    h("p", { class: "small" }, [day(photo.date), photo.plantCode ? `plant ${photo.plantCode}` : "no plant", count(leaves.length, "leaf", "leaves"), isBare ? "no scale in the photo: shares, but no millimetres" : ""].filter(Boolean).join(" · ")),
    loud.map(flag => h("div", { class: "note warn" }, h("p", null, h("strong", null, flag.meaning)), h("p", null, flag.advice))),
    h("div", { class: "two" },
      h("div", null, view.node, legend()),
      h("div", null,
        leaves.length === 0 ? h("p", { class: "lead" }, "No leaf was found on this photo.") : leaves.map(leaf => about(leaf, leaves.length, view)),
        corrections(photo, view, { again, go }))));
}

function about(leaf, of, view) {
  const title = of > 1 ? `Leaf ${leaf.index + 1} of ${of}` : "The leaf";
  return h("section", { "aria-label": title },
    h("div", { class: "row ends" }, h("h2", null, title), of > 1 ? h("button", { onclick: () => view.showLeaf(leaf.index) }, "Show", h("span", { class: "unseen" }, ` leaf ${leaf.index + 1}`)) : null),
    leaf.corrected ? h("p", { class: "note" }, leaf.corrected === "outline" ? "Measured in the outline that you drew." : "You said: not mites.") : null,
    damage(leaf),
    h("p", { class: "small" }, [
      typeof leaf.speckCount === "number" ? `${count(leaf.speckCount, "speck")} counted` : "specks too fine to count",
      typeof leaf.speckDensityPerCm2 === "number" ? `${leaf.speckDensityPerCm2.toFixed(0)} per cm²` : "",
      typeof leaf.areaMm2 === "number" ? `leaf of ${(leaf.areaMm2 / 100).toFixed(1)} cm²` : "",
    ].filter(Boolean).join(", ")),
    wide("Shares of the leaf", h("table", null, h("caption", null, "Shares of the leaf as it was before it was chewed"),
      h("tbody", null, TISSUES.map(([key, words]) => h("tr", null, h("th", { scope: "row" }, words), h("td", { class: "n" }, percent(leaf.shares?.[key]))))))),
    causes(leaf),
    flags(leaf.flags).map(flag => h("div", { class: "note" }, h("p", null, flag.meaning), flag.advice ? h("p", null, flag.advice) : null)));
}

function causes(leaf) {
  const found = (leaf.causes ?? []).filter(one => one.score >= 0.1);
  return h("div", null, h("h3", null, "What it may be"),
    found.length === 0 ? h("p", null, "Nothing stands out.") : h("ul", { class: "lines" }, found.map(one => h("li", null,
      h("strong", null, cause(one.cause)), `, ${sureness(one.score)}`,
      one.because?.length ? h("ul", null, one.because.map(because => h("li", null, because))) : null))),
    h("p", { class: "small" }, "A photo shows damage, not mites: marks stay when the mites have gone. A tap over white paper tells whether they are there now."));
}
