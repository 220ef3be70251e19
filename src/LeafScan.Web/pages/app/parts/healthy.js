// A photo of the plant in health: one of its own photos of a twig or of the whole plant. What is measured later is held against its colour.
import { h, put } from "../dom.js";
import { change, remove } from "../api.js";
import { picture } from "./picture.js";
import { done, say, troubleNote } from "../say.js";
import { day, percent } from "../words.js";

const CAN_BE = ["twig", "plant"];

/** The part of the plant's page; null where there is nothing to choose and nothing chosen. */
export function healthyPart(plant, again) {
  const photos = (plant.photos ?? []).filter(photo => CAN_BE.includes(photo.kind)).sort((a, b) => a.date < b.date ? -1 : 1);
  if (photos.length === 0 && !plant.healthyPhoto) return null;
  const trouble = h("div");
  const buttons = [];
  const run = async (button, words, work) => {
    put(trouble);
    buttons.forEach(one => { one.disabled = true; });
    button.textContent = words;
    say(words);
    try {
      await work();
    } catch (error) {
      // Drawn anew the buttons stand as they were, and what went wrong would be gone: only put them back.
      buttons.forEach(one => { one.disabled = false; });
      button.replaceChildren(...button.kept);
      put(trouble, troubleNote(error));
    }
  };
  const made = (words, unseen, props, pressed) => {
    const button = h("button", { ...props, onclick: () => pressed(button) }, words, h("span", { class: "unseen" }, ` ${unseen}`));
    button.kept = [...button.childNodes];
    buttons.push(button);
    return button;
  };
  const take = photo => made("Take as healthy", `: ${photo.file} of ${day(photo.date)}`, {}, button => run(button, "Looking at the photo …", async () => {
    const answer = await change(`/api/plants/${plant.id}/healthy`, { photoId: photo.id });
    done([`${plant.code} is measured against ${answer.healthyPhoto} from now on.`, ...answer.remarks].join(" "), again);
    await again();
  }));
  const drop = () => made("Take it away", "as healthy photo", { class: "quiet" }, button => run(button, "Taking it away …", async () => {
    const answer = await remove(`/api/plants/${plant.id}/healthy`);
    done([`${plant.code} has no healthy photo any more.`, ...answer.remarks].join(" "), again);
    await again();
  }));
  return h("details", { class: "noprint", open: Boolean(plant.healthyPhoto) }, h("summary", null, "A photo of it in health"),
    plant.healthyPhoto
      ? h("p", { class: "row" }, h("span", null, "Twigs and whole plants are measured against the colour on ", h("strong", null, plant.healthyPhoto), "."), drop())
      : h("p", null, "Choose a photo from when it was sound: where the plant has lost its green all over, later photos are measured against that colour. As long as it has its green, nothing changes."),
    trouble,
    photos.length ? h("ul", { class: "strip", tabindex: "0", "aria-label": "Photos of twigs and of the whole plant" }, photos.map(photo => h("li", null, h("figure", null,
      picture(`/api/photos/${photo.id}/thumb`, { alt: `${photo.file}, ${day(photo.date)}` }),
      h("figcaption", null, h("strong", null, day(photo.date)), h("br"), typeof photo.damage === "number" ? `${percent(photo.damage)} damage` : "not measured"),
      photo.sha256 === plant.healthySha256 ? h("p", null, h("strong", null, "Healthy photo")) : h("p", null, take(photo)))))) : null);
}
