// One plant: the verdict first, then why, the series, the figures, the same leaves through the season, care and taps.
import { field, h, put, wide } from "../dom.js";
import { change, get, remove } from "../api.js";
import { advice, lookAgain } from "../parts/advice.js";
import { chart } from "../parts/chart.js";
import { careButtons, tapForm } from "../parts/care.js";
import { changeForm } from "../parts/changeentry.js";
import { healthyPart } from "../parts/healthy.js";
import { picture } from "../parts/picture.js";
import { damage, word } from "../parts/tape.js";
import { done, tell, troubleNote } from "../say.js";
import { kinds } from "../parts/kinds.js";
import { viewsPart } from "../parts/views.js";
import { between, care, count, day, percent, sentence, thing, verdict } from "../words.js";

export async function draw(page, { id, query, again }) {
  const asked = query.get("kind");
  const [plant, [next]] = await Promise.all([get(`/api/plants/${id}${asked ? `?kind=${encodeURIComponent(asked)}` : ""}`), get(`/api/next?plant=${id}`)]);
  const judged = plant.verdict ?? {};
  const last = plant.series?.at(-1);
  const series = chart(plant);
  put(page,
    h("h1", null, plant.code + (plant.name ? ` · ${plant.name}` : "")),
    h("p", { class: "small" }, [plant.species, plant.cultivar, plant.place, plant.block, plant.row ? `row ${plant.row}` : "", plant.position ? `position ${plant.position}` : "", plant.isCheck ? "left untreated to compare" : "", plant.healthyPhoto ? `in health as on ${plant.healthyPhoto}` : ""].filter(Boolean).join(" · ")),
    kinds(plant, `/plant/${plant.id}`),
    h("p", { class: "lead", id: "verdict" }, word(verdict(judged.word))),
    h("p", { class: "row noprint" }, [["care-title", "Enter care"], ["tap-title", "Enter a tap"], ["series-title", "Series"], ["leaves-title", "Leaves"]].map(([at, words]) => h("a", { class: "button", href: `#${at}` }, words)), h("a", { class: "button", href: `/notes/plant/${plant.id}${asked ? `?kind=${encodeURIComponent(asked)}` : ""}` }, "Client note")),
    h("div", { class: "two" },
      h("div", null,
        judged.because?.length ? h("ul", null, judged.because.map(because => h("li", null, sentence(because)))) : null,
        judged.mitesTaken ? h("details", null, h("summary", null, "What it took of the mites"), h("p", null, taken(judged.mitesTaken)), h("p", null, sentence(judged.mitesTaken.because))) : null,
        judged.rivals?.length ? h("details", null, h("summary", null, "What else may explain it"), h("ul", null, judged.rivals.map(rival => h("li", null, sentence(rival.sentence ?? rival))))) : null),
      h("div", null,
        h("div", { class: "note" }, h("p", null, h("strong", null, "Next: "), sentence(next.steps[0].words)), h("p", null, `${lookAgain(next)}.`),
          h("details", null, h("summary", null, "Why, and what to mind"), advice(next))),
        last ? damage(last, `${count(last.leaves, thing(plant.kind).one, thing(plant.kind).many)}, ${day(last.date)}`) : null)),
    h("h2", { id: "series-title", tabindex: "-1" }, "Series"),
    series ?? h("p", { id: "no-series" }, unmeasured(plant)),
    series ? h("p", { class: "small" }, `Dots are the mean damage of the ${thing(plant.kind).many} of a visit, bars their 90 % range. Triangles mark care, rings the mites of a tap. Damage does not heal: a fall comes from ${plant.kind && plant.kind !== "leaf" ? "new shoots or from needle drop" : "new leaves or from leaf drop"}.`) : null,
    plant.trend ? h("p", { id: "direction" }, sentence(plant.trend.words)) : null,
    table(plant),
    careButtons(plant, again),
    done1(plant, again),
    tapForm(plant, again),
    viewsPart(plant),
    leaves(plant),
    healthyPart(plant, again),
    facts(plant, again),
    h("div", { class: "row noprint" }, h("button", { onclick: () => print() }, "Print this page")));
}

function unmeasured(plant) {
  if (!plant.photos?.length) return "No photo of this plant is on record yet.";
  if (!plant.series?.length) return "Nothing on the photos of this plant is measured yet.";
  return `No ${thing(plant.kind).one} of this plant could be judged yet: all were left out.`;
}

// Live mites only: damage cannot fall, so that no formula may be laid over it.
function taken(one) {
  const shares = [["Henderson-Tilton and Sun-Shepard", one.byHendersonTilton], ["Abbott", one.byAbbott]].filter(([, share]) => typeof share === "number");
  return shares.length ? `${shares.map(([name, share]) => `${name}: ${percent(share)}`).join("; ")} of the live mites.` : "No formula gives a figure.";
}

function table(plant) {
  if (!plant.series?.length) return null;
  // One view of the whole plant is the whole plant: how many of them have 5 % says nothing.
  const affected = plant.kind === "plant" ? [] : [{ head: "5 % or more", cell: one => `${one.affected} of ${one.leaves}` }];
  const columns = [...figures(plant), ...foliage(plant.series), ...affected];
  const notes = columns.map(column => column.note).filter(Boolean);
  return [
    wide("Figures of each visit", h("table", null,
      h("caption", null, `Every visit, shares of ${thing(plant.kind).area}`),
      h("thead", null, h("tr", null, ["Visit", thing(plant.kind).counted, ...columns.map(column => column.head)].map((words, i) => h("th", { scope: "col", class: i ? "n" : null }, words)))),
      h("tbody", null, [...plant.series].reverse().map(one => h("tr", null,
        h("th", { scope: "row" }, one.walkId ? h("a", { href: `/walk/${one.walkId}` }, day(one.date)) : day(one.date)),
        h("td", { class: "n" }, one.leaves, one.leavesLeftOut ? ` (${one.leavesLeftOut} left out)` : ""),
        columns.map(column => h("td", { class: "n" }, column.cell(one)))))))),
    notes.length ? h("p", { class: "small" }, notes.join(" ")) : null,
  ];
}

// Of twigs and whole plants nothing is ever chewed, and from afar no specks are seen: columns of zeros would only take room.
function figures(plant) {
  const shares = [["Stippled", "stippled", plant.kind !== "plant"], ["Yellowed", "yellowed", true], ["Browned", "browned", true], ["Chewed", "chewed", plant.kind !== "twig" && plant.kind !== "plant"]];
  return [
    { head: "Damage", cell: one => percent(one.damage) },
    { head: "90 % range", cell: one => between(one.damageLow, one.damageHigh) },
    ...shares.filter(([, , isThere]) => isThere).map(([head, key]) => ({ head, cell: one => percent(one[key]) })),
  ];
}

// What only twigs and whole plants have: columns where any visit has it.
function foliage(series) {
  const isKnown = one => typeof one.specksPerCmOfNeedle === "number";
  return [
    ...series.some(one => one.crown) ? [
      { head: "Gaps", cell: one => one.crown ? `${percent(one.crown.thinning)} (${between(one.crown.thinningLow, one.crown.thinningHigh)})` : "–", note: "Gaps are of the crown, with their 90 % range; left and right are those of the photo." },
      { head: "Worst side", cell: one => one.crown?.worstSide ?? "–" },
    ] : [],
    ...series.some(isKnown) ? [{ head: "Specks per cm", cell: one => isKnown(one) ? one.specksPerCmOfNeedle.toFixed(1) : "–", note: "Specks per cm of needle are at least so many: touching ones count once." }] : [],
  ];
}

function done1(plant, again) {
  const rows = [
    ...(plant.care ?? []).map(one => ({ ...one, words: care(one.what) + (one.note ? `: ${one.note}` : ""), path: `/api/care/${one.id}` })),
    ...(plant.taps ?? []).map(one => ({ ...one, words: tapWords(one), path: `/api/taps/${one.id}` })),
  ].sort((a, b) => a.date < b.date ? 1 : -1);
  if (rows.length === 0) return null;
  const take = async row => {
    try {
      await remove(row.path);
      done(`${row.words} of ${day(row.date)} is in the bin.`, again);
      await again();
    } catch (error) {
      tell(error.words ?? String(error));
    }
  };
  return h("section", { "aria-labelledby": "done-title" }, h("h2", { id: "done-title" }, "What was done"),
    h("ul", { class: "lines" }, rows.map(row => {
      const unseen = () => h("span", { class: "unseen" }, ` ${row.words} of ${day(row.date)}`);
      const place = h("div");
      const open = h("button", { class: "quiet", "aria-expanded": "false", onclick: () => {
        const isOpen = open.getAttribute("aria-expanded") === "true";
        open.setAttribute("aria-expanded", String(!isOpen));
        put(place, isOpen ? null : changeForm(row, plant, again));
        if (!isOpen) place.querySelector("input, select")?.focus();
      } }, "Change", unseen());
      return h("li", null,
        h("div", { class: "row ends" }, h("span", null, h("strong", null, day(row.date)), " ", row.words),
          row.sheetId ? h("a", { class: "button", href: `/tap/${row.sheetId}` }, "The sheet", h("span", { class: "unseen" }, ` of ${day(row.date)}`)) : null,
          h("span", { class: "row noprint" }, open, h("button", { class: "quiet", onclick: () => take(row) }, "Remove", unseen()))),
        place);
    })));
}

// The count with the lens stands, for a person tells mites from other crawlers; that of the photos stands beside it.
function tapWords(tap) {
  const isNumber = value => typeof value === "number";
  const mites = isNumber(tap.mitesByLens) && isNumber(tap.mitesByPhoto) ? `${tap.mitesByLens} mites with the lens, ${tap.mitesByPhoto} on the photos`
    : `${tap.mites} mites${isNumber(tap.mitesByPhoto) ? " on the photos" : ""}`;
  const isSeveral = tap.branches > 1;
  return [`Tap: ${mites}${isSeveral ? ` from ${tap.branches} branches` : ""}`, tap.strikes ? count(tap.strikes, "strike") + (isSeveral ? " each" : "") : "",
    isNumber(tap.predators) ? count(tap.predators, "predator") : "", isNumber(tap.hoursSinceRinse) ? `${tap.hoursSinceRinse} hours after rinse or rain` : ""].filter(Boolean).join(", ");
}

// The first ones are there when the page is printed.
const EARLY = 8;

function leaves(plant) {
  const photos = [...(plant.photos ?? [])].sort((a, b) => a.date < b.date ? -1 : 1);
  if (photos.length === 0) return null;
  const labels = [...new Set(photos.map(photo => photo.leafLabel).filter(Boolean))].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const strip = (title, some) => [
    h("h3", null, title),
    h("ul", { class: "strip", tabindex: "0", "aria-label": title }, some.map((photo, i) => h("li", null, h("figure", null,
      h("a", { href: `/photo/${photo.id}` }, picture(photo.hasOverlay ? `/api/photos/${photo.id}/overlay?edge=320` : `/api/photos/${photo.id}/thumb`, { alt: `${photo.file}, ${day(photo.date)}` }, i < EARLY)),
      h("figcaption", null, h("strong", null, day(photo.date)), h("br"), typeof photo.damage === "number" ? `${percent(photo.damage)} damage` : "not measured")))))];
  const others = photos.filter(photo => !photo.leafLabel);
  return h("section", null, h("h2", { id: "leaves-title", tabindex: "-1" }, labels.length ? "The same leaves through the season" : "Photos"),
    labels.map(label => strip(`Leaf ${label}`, photos.filter(photo => photo.leafLabel === label))),
    others.length ? strip(labels.length ? "Other leaves" : photos.some(photo => photo.kind === "twig" || photo.kind === "plant") ? "All photos" : "All leaves", others) : null,
    labels.length || !photos.some(photo => photo.kind === "leaf") ? null : h("p", { class: "small" }, "Tag a few leaves and say their label on the photo's page: only the same leaves show whether new damage came."));
}

const FACTS = [["name", "Name"], ["species", "Species"], ["cultivar", "Cultivar"], ["block", "Block"], ["row", "Row"], ["position", "Position"], ["light", "Light"]];

function facts(plant, again) {
  const inputs = FACTS.map(([key, words]) => [key, words, h("input", { name: key, value: plant[key] ?? "", maxlength: 120, autocomplete: "off" })]);
  const check = h("input", { type: "checkbox", name: "isCheck", checked: plant.isCheck });
  const trouble = h("div");
  return h("details", { class: "noprint" }, h("summary", null, "What is known of this plant"), h("form", {
    onsubmit: async event => {
      event.preventDefault();
      try {
        await change(`/api/plants/${plant.id}`, { ...Object.fromEntries(inputs.map(([key, , input]) => [key, input.value.trim()])), isCheck: check.checked });
        done(`Facts of ${plant.code} changed.`, again);
        await again();
      } catch (error) {
        put(trouble, troubleNote(error));
      }
    },
  }, h("div", { class: "fields" }, inputs.map(([, words, input]) => field(words, input))),
  h("label", { class: "tick" }, check, "Left untreated, to compare others with"),
  h("div", { class: "row" }, h("button", { type: "submit", class: "main" }, "Keep")), trouble));
}
