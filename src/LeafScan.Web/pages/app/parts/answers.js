// A list of photos that fills itself as answers come.
import { h, put } from "../dom.js";
import { get } from "../api.js";
import { listen } from "../live.js";
import { photoCard } from "./photocard.js";
import { photoWord } from "../words.js";
import { say } from "../say.js";

/** Shows the photos of walks as they come. `walks` gives the ids that count at that moment, `first` is a walk as it stands. */
export function answers({ walks, place, first, tick }) {
  const list = h("ul", { class: "cards" });
  const summary = h("p", { class: "lead" });
  const node = h("div", null, summary, list);
  let photos = [];

  // A photo is known by its print while it waits, by its number once it is on record; a refused one may be known by its file name only.
  const find = photo => photos.find(one => (photo.photoId && one.photoId === photo.photoId) || (photo.sha256 && one.sha256 === photo.sha256))
    ?? photos.find(one => photo.state === "refused" && one.state === "refused" && one.file === photo.file);
  const take = photo => {
    const known = find(photo);
    if (known) return Object.assign(known, Object.fromEntries(Object.entries(photo).filter(([, value]) => value !== undefined)));
    photos.push(photo);
    return photo;
  };

  const card = photo => {
    const made = photoCard(photo, { place, again: refresh, tick });
    photo.card = made;
    return made;
  };

  const draw = () => {
    put(list, photos.map(card));
    sum();
  };

  // One card is changed, not the list: a finger on its way to a button must not miss it.
  const drawOne = photo => {
    const old = photo.card;
    if (!old?.isConnected) list.append(card(photo));
    else if (!old.contains(document.activeElement)) old.replaceWith(card(photo));
    sum();
  };

  const sum = () => {
    const of = state => photos.filter(photo => photo.state === state).length;
    const retake = photos.filter(photo => photo.state === "measured" && photoWord(photo)[1] === "bad").length;
    const open = of("waiting") + of("measuring");
    const words = photos.length === 0 ? "" : [
      open ? `${photos.length - open} of ${photos.length} answered.` : `All ${photos.length} answered.`,
      retake ? `${retake} to look at: a new photo may help.` : "", of("refused") ? `${of("refused")} not measured.` : "",
    ].filter(Boolean).join(" ");
    if (summary.textContent !== words) summary.textContent = words;
  };

  const takeWalk = walk => {
    for (const photo of walk.photos) take({ ...photo, photoId: photo.id, state: "measured" });
    for (const photo of walk.refused) take({ ...photo, state: "refused" });
    for (const photo of walk.waiting) take({ ...photo, state: "waiting" });
  };

  // What is told while a walk is being fetched may be newer than what comes back: it is taken once more on top.
  const fetching = new Set();

  async function refresh() {
    const told = [];
    fetching.add(told);
    try {
      const found = await Promise.all(walks().map(id => get(`/api/walks/${id}`)));
      photos = [];
      found.forEach(takeWalk);
      told.forEach(take);
      draw();
    } finally {
      fetching.delete(told);
    }
  }

  if (first) {
    takeWalk(first);
    draw();
  }

  const end = listen((kind, content) => {
    if (kind === "gap") refresh().catch(() => {});
    if (kind !== "photo" || !walks().includes(content.walkId)) return;
    const photo = take(content);
    for (const told of fetching) told.push(content);
    drawOne(photo);
    if (content.state === "measured" || content.state === "refused") {
      const [words] = photoWord(content);
      if (words !== "Good") say(`${content.file}: ${words}`);
    }
  });
  return { node, end, refresh, photos: () => photos };
}
