// What to do next with a plant: the same lines as the command gives, each with its reason and where that is from.
import { h } from "../dom.js";
import { count, day, sentence } from "../words.js";

/** The lines of one plant of /api/next. */
export function advice(plant) {
  return h("div", { class: "advice" },
    h("ol", { class: "plain" }, plant.steps.map(step)),
    plant.taps ? taps(plant.taps) : null,
    plant.cautions.length ? h("section", null,
      h("h2", null, "Mind before you spray", h("span", { class: "unseen" }, ` ${plant.code}`)),
      h("ul", { class: "plain cautions" }, plant.cautions.map(step))) : null);
}

/** When to look again, in words. */
export const lookAgain = plant => plant.rest ? `Rest until ${day(plant.lookAgainOn)}` : `Look again ${day(plant.lookAgainOn)}`;

function step(one) {
  return h("li", null, h("strong", null, sentence(one.words)), h("div", null, sentence(one.reason)), h("div", { class: "small" }, `Source: ${one.source}`));
}

function taps(plan) {
  const stops = plan.stopWhenMitesReach;
  const same = new Set(stops.map(stop => stop.mites)).size === 1;
  return h("section", null,
    h("h2", null, `Taps: ${count(plan.branches, "branch", "branches")}`),
    h("p", null, plan.because),
    stops.length ? h("p", null, `Or tap until all taps together make ${same ? `${stops[0].mites} mites` : stops.map(stop => `${stop.mites} after ${stop.taps}`).join(", ")}. ${plan.stopBecause}`) : null);
}
