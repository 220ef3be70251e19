// Sends photos one a request, tries again by itself, and goes on where it was after a reload.
import { post, read, Trouble } from "../api.js";
import { digest } from "./hash.js";
import { dayTaken } from "./taken.js";
import { all, keep, letGo } from "./kept.js";

const WAITS_MS = [1000, 2000, 4000, 8000, 15000, 30000];

/** Tells "change" whenever an item or the whole changes; "end" when nothing is left to send. */
export const changes = new EventTarget();

/** All photos of this sitting: {key, name, folder, size, place, day, walkId, sha256, state, sameAs, trouble}. State: ready, sending, here, twice, stuck. */
export const items = [];

let isRunning = false;
let isStill = false;

/** Puts photos in line. `day` counts for photos that do not tell their own; plantId for all of them. */
export async function add(photos, { place, day, plantId }) {
  for (const { file, folder } of photos) {
    const item = {
      key: `${Date.now()}-${Math.random().toString(36).slice(2)}`, file, name: file.name, folder, size: file.size, place, plantId: plantId ?? null,
      day: (await dayTaken(file)) ?? day, walkId: null, sha256: null, state: "ready", trouble: "",
    };
    items.push(item);
    await keep(stored(item));
  }
  tell();
  run();
}

/** Takes up what an earlier sitting left. */
export async function takeUp() {
  for (const old of await all()) {
    if (!items.some(item => item.key === old.key)) items.push({ ...old, state: "ready", trouble: "" });
  }
  if (items.length) {
    tell();
    run();
  }
}

/** Tries those again that could not be sent. */
export function tryAgain() {
  for (const item of items) {
    if (item.state === "stuck") Object.assign(item, { state: "ready", trouble: "" });
  }
  tell();
  run();
}

/** Gives one up. */
export async function giveUp(item) {
  items.splice(items.indexOf(item), 1);
  await letGo(item.key);
  tell();
}

/** Forgets what is done, so that the next drop is counted afresh. */
export function clearDone() {
  for (let i = items.length - 1; i >= 0; i--) {
    if (items[i].state === "here" || items[i].state === "twice") items.splice(i, 1);
  }
  tell();
}

/** How many of what. */
export function counts() {
  const of = (...states) => items.filter(item => states.includes(item.state)).length;
  return { total: items.length, here: of("here", "twice"), twice: of("twice"), stuck: of("stuck"), left: of("ready", "sending") };
}

const stored = ({ key, file, name, folder, size, place, plantId, day, walkId, sha256 }) => ({ key, file, name, folder, size, place, plantId, day, walkId, sha256 });

async function run() {
  if (isRunning) return;
  isRunning = true;
  try {
    for (let item; (item = items.find(one => one.state === "ready"));) {
      item.state = "sending";
      tell();
      await send(item);
      tell();
    }
  } finally {
    isRunning = false;
    changes.dispatchEvent(new Event("end"));
  }
}

async function send(item) {
  for (let round = 0; ; round++) {
    try {
      item.sha256 ??= await digest(item.file);
      item.walkId ??= (await post("/api/walks", { place: item.place, date: item.day })).id;
      await hand(item);
      await letGo(item.key);
      item.file = null;
      isStill = false;
      return;
    } catch (error) {
      // No answer, or a server that is just starting: the photo is fine, the line is not.
      const isLine = error instanceof Trouble && (error.status === 0 || error.status >= 500);
      if (isLine && round < WAITS_MS.length) {
        item.trouble = "no answer, trying again";
        isStill = true;
        tell();
        await new Promise(wait => setTimeout(wait, WAITS_MS[round]));
        continue;
      }

      item.state = "stuck";
      item.trouble = error instanceof Trouble ? error.words : "The file cannot be read any more. Choose it again.";
      return;
    }
  }
}

async function hand(item) {
  const address = `/api/walks/${item.walkId}/photos/${item.sha256}`;
  const asked = new URLSearchParams({ name: item.name });
  if (item.folder) asked.set("folder", item.folder);
  if (item.plantId) asked.set("plantId", item.plantId);
  let answer;
  try {
    answer = await fetch(`${address}?${asked}`, {
      method: "PUT", headers: { "X-LeafScan": "1", "Content-Type": "application/octet-stream", Accept: "application/json" }, body: item.file,
    });
  } catch {
    // A server that breaks off may have it already; asking is cheaper than sending again.
    const known = await fetch(address, { method: "HEAD" }).catch(() => null);
    if (known?.ok) {
      Object.assign(item, { state: "here", trouble: "" });
      return;
    }
    throw new Trouble("No answer.", "", 0);
  }

  const content = await read(answer);
  item.trouble = "";
  item.photoId = content?.photoId ?? null;
  if (content?.state === "alreadyHere") Object.assign(item, { state: "twice", sameAs: content.sameAs ?? "a photo on record" });
  else item.state = "here";
}

/** Whether sending waits for an answer. */
export const isWaiting = () => isStill;

function tell() {
  changes.dispatchEvent(new Event("change"));
}

// Closing loses nothing that the browser keeps; where it keeps nothing, ask.
addEventListener("beforeunload", event => {
  if (counts().left > 0 && !("indexedDB" in globalThis)) event.preventDefault();
});
