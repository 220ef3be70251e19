// Clients' notes: which plant or place.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { count } from "../words.js";

export async function draw(page) {
  const [state, plants] = await Promise.all([get("/api/state"), get("/api/plants")]);
  const places = state.places ?? [];
  put(page, h("h1", null, "Client notes"),
    h("p", null, "One page for the client: what was seen, done and comes next. Choose a whole place or one plant."),
    places.length === 0 ? h("p", null, "Nothing yet: bring in the photos of a first walk.") : places.map(place => h("section", null,
      h("h2", null, place.name),
      h("p", { class: "row" }, h("a", { class: "button main", href: `/notes/place/${place.id}` }, "The whole place", h("span", { class: "unseen" }, ` ${place.name}`)),
        h("span", { class: "small" }, [place.client ? `for ${place.client}` : "", count(place.plants, "plant")].filter(Boolean).join(" · "))),
      h("p", { class: "row" }, plants.filter(plant => plant.place === place.name).map(plant => h("a", { class: "button", href: `/notes/plant/${plant.id}` }, plant.code))))));
}
