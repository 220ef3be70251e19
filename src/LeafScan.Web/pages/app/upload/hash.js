// The digest of a file, from the worker beside the page.

let worker = null;
let last = 0;
const open = new Map();

/** SHA-256 in hex; rejects when the file cannot be read any more. */
export function digest(file) {
  if (!worker) {
    worker = new Worker("/app/upload/hash-worker.js", { type: "module" });
    worker.onmessage = ({ data }) => {
      const { resolve, reject } = open.get(data.id);
      open.delete(data.id);
      if (data.sha256) resolve(data.sha256);
      else reject(new Error("unreadable"));
    };
    worker.onerror = () => {
      for (const { reject } of open.values()) reject(new Error("no worker"));
      open.clear();
      worker = null;
    };
  }

  const id = ++last;
  return new Promise((resolve, reject) => {
    open.set(id, { resolve, reject });
    worker.postMessage({ id, file });
  });
}
