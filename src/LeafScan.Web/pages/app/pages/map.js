// Blocks with their rows and positions; the more dots, the more damage, and the number in every spot.
import { choice, field, h, put, wide } from "../dom.js";
import { get } from "../api.js";
import { damage } from "../parts/tape.js";
import { count, percent } from "../words.js";

// Upper ends of the steps; our own choice, finer where decisions are made.
const STEPS = [[0.02, "under 2 %"], [0.05, "2 to 5 %"], [0.15, "5 to 15 %"], [0.3, "15 to 30 %"], [1.01, "30 % and more"]];

const step = share => STEPS.findIndex(([end]) => share < end);

export async function draw(page, { query }) {
  const walks = await get("/api/walks");
  const places = [...new Set(walks.map(walk => walk.place))];
  const place = query.get("place") ?? places[0] ?? "";
  const result = h("div");
  const where = choice(places.map(one => [one, one]), place, () => show());
  const show = async () => {
    const blocks = await get(`/api/blocks?place=${encodeURIComponent(where.value)}`);
    history.replaceState(null, "", `/block?place=${encodeURIComponent(where.value)}`);
    put(result, blocks.length === 0 ? h("p", null, "No plant is on record there.") : blocks.map(drawBlock));
  };
  put(page, h("h1", null, "Map"),
    places.length === 0 ? h("p", null, "No walk is on record yet.") : [
      h("div", { class: "fields noprint" }, field("Place", where)),
      h("ul", { class: "key", "aria-label": "Damage of a spot" }, STEPS.map(([, words], n) => h("li", null, h("span", { class: `spot s${n}` }, h("b", null, words)))), h("li", null, h("span", { class: "spot none" }, h("b", null, "not measured")))),
      result]);
  if (places.length) await show();
}

function drawBlock(block) {
  const placed = block.plants.filter(plant => plant.row && plant.position);
  const loose = block.plants.filter(plant => !plant.row || !plant.position);
  const sorted = [...block.plants].filter(plant => typeof plant.damage === "number").sort((a, b) => b.damage - a.damage);
  const title = block.block || "Without a block";
  const same = (a, b) => String(a).toLowerCase() === String(b).toLowerCase();
  const { rows, positions } = block;
  return h("section", null, h("h2", null, title),
    placed.length ? wide(`Map of ${title}`, h("table", { class: "map" },
      h("thead", null, h("tr", null, h("td"), positions.map(position => h("th", { scope: "col" }, position)))),
      h("tbody", null, rows.map(row => h("tr", null, h("th", { scope: "row" }, `Row ${row}`),
        positions.map(position => h("td", null, placed.filter(plant => same(plant.row, row) && same(plant.position, position)).map(spot)))))))) : null,
    loose.length ? [h("h3", null, placed.length ? "Not placed yet" : "Plants without row and position"), h("div", { class: "row" }, loose.map(spot)),
      h("p", { class: "small" }, "Say block, row and position on the plant's page.")] : null,
    sorted.length ? [h("h3", null, "Start here"), h("ol", { class: "lines" }, sorted.slice(0, 10).map(plant => h("li", null, h("a", { class: "big", href: `/plant/${plant.id}` }, plant.code), damage(plant, count(plant.leaves, "leaf", "leaves")))))] : null);
}

function spot(plant) {
  const has = typeof plant.damage === "number";
  return h("a", { class: `spot ${has ? `s${step(plant.damage)}` : "none"}`, href: `/plant/${plant.id}` }, h("b", null, plant.code), h("span", null, has ? percent(plant.damage) : "–"));
}
