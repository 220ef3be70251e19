// Where photos come in: dropped, chosen, a whole folder, or taken now.
import { choice, field, h, put } from "../dom.js";
import { add } from "../upload/queue.js";
import { fromDrop, fromField, sort } from "../upload/gather.js";
import { placeField } from "./choose.js";
import { say } from "../say.js";
import { count, day, today } from "../words.js";

/** The drop place. `sent` is told {place, day} after photos were put in line. */
export function dropPlace({ places, place, plants, sent }) {
  const where = placeField(places, place ?? lastPlace() ?? places[0]?.name);
  const when = h("input", { type: "date", name: "day", value: today(), max: today() });
  const plant = plants?.length ? choice([["", "from the folder or the tag"], ...plants.map(one => [one.id, one.code])], "") : null;
  const word = h("p", { class: "trouble", role: "alert" });

  const take = async found => {
    const { photos, others } = sort(found);
    if (!where.input.value.trim()) {
      put(word, "Say the place first; then take or drop the photos again.");
      where.input.focus();
      return;
    }
    put(word, photos.length === 0 ? "There was no photo among these. LeafScan takes JPEG, PNG and HEIC." : others.length ? `${count(others.length, "file")} left out, not a photo: ${others.slice(0, 5).join(", ")}${others.length > 5 ? " …" : ""}` : "");
    if (photos.length === 0) return;
    const chosen = { place: where.input.value.trim(), day: when.value || today(), plantId: plant?.value || null };
    rememberPlace(chosen.place);
    say(`${count(photos.length, "photo")} taken in.`);
    await add(photos, chosen);
    sent?.(chosen);
  };

  const picker = (words, props, isMain) => {
    const input = h("input", { type: "file", tabindex: "-1", "aria-hidden": "true", ...props, onchange: () => { const list = fromField(input.files); input.value = ""; take(list); } });
    return [h("button", { type: "button", class: isMain ? "main" : "", onclick: () => input.click() }, words), input];
  };

  const fields = h("div", { class: "fields" }, where.node, field("Day", when, "for photos that do not tell their own"), plant ? field("Plant", plant) : null);
  const summary = h("summary");
  const sum = () => put(summary, `For ${where.input.value || "which place?"}, ${when.value === today() ? "today" : day(when.value || today())}, ${plant?.value ? `plant ${plant.selectedOptions[0].text}` : "plant from the folder or the tag"}`);
  fields.addEventListener("input", sum);
  sum();
  const node = h("section", { class: "drop", "aria-labelledby": "drop-title" },
    h("h2", { id: "drop-title" }, "Photos of a walk"),
    where.input.value ? null : fields,
    h("div", { class: "row" },
      picker("Take a photo", { accept: "image/*", capture: "environment", name: "camera" }, true),
      picker("Choose photos", { accept: "image/*,.heic,.heif", multiple: true, name: "photos" }, true),
      picker("Choose a folder", { webkitdirectory: true, multiple: true, name: "folder" }, false)),
    h("p", { class: "small" }, "Or drop photos or a whole folder here. A folder named with a plant's code gives its photos to that plant."),
    where.input.value ? h("details", null, summary, fields) : null,
    word);

  const over = is => event => {
    if (!Array.from(event.dataTransfer?.types ?? []).includes("Files")) return;
    event.preventDefault();
    node.classList.toggle("over", is);
  };
  node.addEventListener("dragenter", over(true));
  node.addEventListener("dragover", over(true));
  node.addEventListener("dragleave", over(false));
  node.addEventListener("drop", async event => {
    event.preventDefault();
    node.classList.remove("over");
    take(await fromDrop(event.dataTransfer));
  });
  return node;
}

// A browser that keeps nothing has neither: the place is then typed each time.
function lastPlace() {
  try {
    return localStorage.getItem("leafscan-place");
  } catch {
    return null;
  }
}

function rememberPlace(place) {
  try {
    localStorage.setItem("leafscan-place", place);
  } catch {
    // Nothing to do.
  }
}

// A photo dropped beside the place must not make the browser leave the page.
addEventListener("dragover", event => event.preventDefault());
addEventListener("drop", event => event.preventDefault());
