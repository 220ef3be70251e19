// The same plant on two days: whole-plant photos lined up, and what has changed in each part of it.
import { choice, field, h, put, wide } from "../dom.js";
import { get } from "../api.js";
import { say, troubleNote } from "../say.js";
import { day, points } from "../words.js";

const CHANGES = { worse: "worse", better: "better", same: "the same" };

/** The part of the plant's page; null with whole-plant photos of fewer than two days. */
export function viewsPart(plant) {
  const days = [...new Set((plant.photos ?? []).filter(photo => photo.kind === "plant").map(photo => photo.date))].sort();
  if (days.length < 2) return null;
  const options = days.map(one => [one, day(one)]);
  const from = choice(options, days.at(-2)), to = choice(options, days.at(-1));
  from.name = "viewsFrom";
  to.name = "viewsTo";
  const result = h("div", { id: "views-result" });
  const button = h("button", { type: "submit" }, "Line up");
  const part = h("section", { class: "noprint", "aria-labelledby": "views-title" }, h("h2", { id: "views-title", tabindex: "-1" }, "The same plant on two days"),
    h("p", { class: "small" }, "Photos from the same place are laid over each other: what is worse and what is better, part by part."),
    h("form", {
      class: "noprint",
      onsubmit: async event => {
        event.preventDefault();
        button.disabled = true;
        put(result, h("p", null, "Both photos are measured and lined up; this takes some seconds."));
        say("Both photos are measured and lined up.");
        try {
          const asked = new URLSearchParams({ from: from.value, to: to.value });
          const views = await get(`/api/plants/${plant.id}/views?${asked}`);
          part.classList.toggle("noprint", !views.linedUp);
          put(result, views.linedUp ? shown(views, `/api/plants/${plant.id}/views/picture?${asked}`) : h("div", { class: "note" }, h("p", null, h("strong", null, views.reason)), h("p", null, views.advice)));
          say(views.linedUp ? `Lined up: ${day(views.earlierDay)} and ${day(views.laterDay)}.` : `${views.reason} ${views.advice}`);
        } catch (error) {
          put(result, troubleNote(error));
        } finally {
          button.disabled = false;
        }
      },
    }, h("div", { class: "fields" }, field("Earlier", from), field("Later", to)), h("div", { class: "row" }, button)),
    result);
  return part;
}

function shown(views, address) {
  const rows = [...views.sectors.map(one => [`${one.side} ${one.height}`, one, CHANGES[one.change] ?? one.change]), ["all", views, ""]];
  return [
    h("figure", { class: "views" },
      wide("Both photos and where it changed", h("a", { href: address }, h("img", { src: address, alt: `${views.earlier} of ${day(views.earlierDay)} and ${views.later} of ${day(views.laterDay)}, lined up, and where it changed. The table below says the same.` }))),
      h("figcaption", { class: "small" }, `${views.earlier} and ${views.later}, lined up by ${views.agreeingPlaces} places. Slanted hatching where it is worse, level lines where it is better.`)),
    wide("Change of each part", h("table", null,
      h("caption", null, `${day(views.earlierDay)} to ${day(views.laterDay)}, change in points`),
      h("thead", null, h("tr", null, ["Part", "It is", "Discoloured", "Gaps", "Greenness"].map((words, i) => h("th", { scope: "col", class: i > 1 ? "n" : null }, words)))),
      h("tbody", null, rows.map(([part, one, word]) => h("tr", null, h("th", { scope: "row" }, part), h("td", null, word),
        [bare(one.discoloured), bare(one.thinning), green(one.greenness)].map(words => h("td", { class: "n" }, words))))))),
    h("p", { class: "small" }, `The same: within ${points(views.sameWithin).replace("+", "")}, by which two photos of an unchanged plant differ. Left and right are those of the photos.`),
  ];
}

// The head of the table says that they are points.
const bare = change => points(change).replace(" points", "");

const green = change => typeof change === "number" ? `${change > 0 ? "+" : change < 0 ? "−" : ""}${Math.abs(change).toFixed(2)}` : "–";
