// What a speck of a tap sheet is, in words.

/** What a person may say: [word, label]. */
export const KINDS = [["mite", "Mite"], ["notMite", "Not a mite"], ["predator", "Predator"]];

/** How a speck is shown: mite, predator, said (a person says: no mite), gone, come, candidate, blown, still. */
export function kindOf(speck) {
  if (speck.said) return speck.said === "notMite" ? "said" : speck.said;
  return { crawling: "mite", possiblePredator: "predator", debris: "still" }[speck.fate] ?? speck.fate;
}

const FATES = {
  crawling: "walked like a mite", possiblePredator: "walked fast: possibly a predator", debris: "lay still", blown: "moved with the wind",
  gone: "on the first photo only", come: "on the second photo only", candidate: "mite or dust: one photo cannot tell",
};

const SAID = { mite: "you say: a mite", notMite: "you say: not a mite", predator: "you say: a predator" };

/** A speck in a sentence. */
export function speckWords(speck) {
  const size = typeof speck.diameterMm === "number" ? `${speck.diameterMm.toFixed(2)} mm across` : "";
  const way = typeof speck.movedMm === "number" && speck.movedMm > 0 ? `${speck.movedMm.toFixed(1)} mm between the photos` : "";
  return [speck.added ? "added by hand" : FATES[speck.fate] ?? speck.fate, way, size, SAID[speck.said] ?? ""].filter(Boolean).join(", ") + ".";
}
