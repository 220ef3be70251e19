// One photo's answer: what it says, for which plant, and what can be done at once.
import { h } from "../dom.js";
import { flags, photoWord } from "../words.js";
import { picture } from "./picture.js";
import { damage, word } from "./tape.js";
import { change } from "../api.js";
import { choosePlant } from "./choose.js";
import { done, tell } from "../say.js";

/** A card; `place` narrows the choice of plants, `again` draws anew after a change, `tick` adds a box to choose it. */
export function photoCard(photo, { place, again, tick }) {
  const says = photoWord(photo);
  const isRetake = says[1] === "bad";
  const advice = [photo.advice, ...flags(photo.flags).map(flag => flag.advice)].filter(Boolean)[0];
  return h("li", { class: `card${isRetake ? " retake" : ""}`, "data-sha": photo.sha256 },
    h("div", { class: "head" },
      photo.photoId ? picture(`/api/photos/${photo.photoId}/thumb`, { class: "thumb", alt: "", width: 96, height: 72 }) : null,
      h("div", null,
        photo.photoId ? h("a", { class: "big", href: `/photo/${photo.photoId}` }, photo.file, photo.plantCode ? h("span", { class: "unseen" }, ` of ${photo.plantCode}`) : null) : h("span", { class: "name" }, photo.file),
        h("div", null, word(says)))),
    isRetake && advice ? h("p", null, advice) : null,
    photo.state === "measured" ? damage(photo, photo.leaves > 1 ? `${photo.leaves} leaves` : null) : null,
    photo.photoId ? h("div", { class: "acts" },
      h("button", { onclick: () => assign([photo], place, again) }, photo.plantCode ? `Plant ${photo.plantCode}` : "Which plant?"),
      tick ? h("label", { class: "tick" }, tick(photo), "Choose", h("span", { class: "unseen" }, ` ${photo.file}`)) : null) : null);
}

/** Gives photos to a plant by touch. */
export async function assign(photos, place, again) {
  const plant = await choosePlant({ title: photos.length === 1 ? `Plant of ${photos[0].file}` : `Plant of ${photos.length} photos`, place, none: true });
  if (!plant) return;
  try {
    for (const photo of photos) await change(`/api/photos/${photo.photoId}/plant`, { plantId: plant.id });
    done(plant.id ? `${photos.length === 1 ? photos[0].file : photos.length + " photos"} now with ${plant.code}.` : "Now without a plant.", again);
    await again();
  } catch (error) {
    tell(error.words ?? String(error));
  }
}
