// The digest of a file, from the worker beside the page.
import { Trouble } from "../api.js";

let worker = null;
let last = 0;
const open = new Map();

/** Starts the worker early: its script must be here before the line breaks. */
export function ready() {
  if (worker) return;
  worker = new Worker("/app/upload/hash-worker.js", { type: "module" });
  worker.onmessage = ({ data }) => {
    const { resolve, reject } = open.get(data.id);
    open.delete(data.id);
    if (data.sha256) resolve(data.sha256);
    else reject(new Error("unreadable"));
  };
  // Its script did not come: that is the line's fault and not the photo's, so it is tried again.
  worker.onerror = () => {
    worker = null;
    for (const { reject } of open.values()) reject(new Trouble("No answer.", "", 0));
    open.clear();
  };
}

/** SHA-256 in hex; rejects when the file cannot be read any more. */
export function digest(file) {
  ready();
  const id = ++last;
  return new Promise((resolve, reject) => {
    open.set(id, { resolve, reject });
    worker.postMessage({ id, file });
  });
}
