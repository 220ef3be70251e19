// A list of photos that fills itself as answers come.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { listen } from "../live.js";
import { photoCard } from "./photocard.js";
import { photoWord } from "../words.js";
import { say } from "../say.js";

/** Shows the photos of walks as they come. `walks` gives the ids that count at that moment. */
export function answers({ walks, place, first, onwhole, tick }) {
  const photos = new Map();
  const list = h("ul", { class: "cards" });
  const summary = h("p", { class: "lead" });
  const node = h("div", null, summary, list);
  let order = [];

  const key = photo => photo.sha256 ?? `id-${photo.photoId}`;
  const put1 = photo => {
    const k = key(photo);
    if (!photos.has(k)) order.push(k);
    photos.set(k, { ...photos.get(k), ...photo });
  };

  const draw = () => {
    put(list, order.map(k => photoCard(photos.get(k), { place, again: refresh, tick })));
    sum();
  };

  // One card is changed, not the list: a finger on its way to a button must not miss it.
  const draw1 = photo => {
    const old = Array.from(list.children).find(card => card.dataset.sha === photo.sha256);
    const fresh = photoCard(photos.get(key(photo)), { place, again: refresh, tick });
    if (old && !old.contains(document.activeElement)) old.replaceWith(fresh);
    else if (!old) list.append(fresh);
    sum();
  };

  const sum = () => {
    const all = [...photos.values()];
    const of = state => all.filter(photo => photo.state === state).length;
    const retake = all.filter(photo => photo.state === "measured" && photoWord(photo)[1] === "bad").length;
    const open = of("waiting") + of("measuring");
    const words = all.length === 0 ? "" : [
      open ? `${all.length - open} of ${all.length} answered.` : `All ${all.length} answered.`,
      retake ? `${retake} to look at: a new photo may help.` : "", of("refused") ? `${of("refused")} not measured.` : "",
    ].filter(Boolean).join(" ");
    if (summary.textContent !== words) summary.textContent = words;
    onwhole?.({ total: all.length, open });
  };

  async function refresh() {
    for (const id of walks()) {
      const walk = await get(`/api/walks/${id}`);
      for (const photo of walk.photos ?? []) put1({ ...photo, state: photo.state ?? "measured" });
      for (const photo of walk.refused ?? []) put1({ ...photo, state: "refused" });
    }
    draw();
  }

  for (const photo of first ?? []) put1(photo);
  if (first) draw();

  const end = listen((kind, content) => {
    if (kind === "gap") refresh().catch(() => {});
    if (kind !== "photo" || !walks().includes(content.walkId)) return;
    put1(content);
    draw1(content);
    if (content.state === "measured" || content.state === "refused") {
      const [words] = photoWord(content);
      if (words !== "Good") say(`${content.file}: ${words}`);
    }
  });
  return { node, end, refresh, photos: () => order.map(k => photos.get(k)) };
}
