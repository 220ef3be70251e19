// Photos that are not on the server yet are kept in the browser's own store, so that closing or reloading the page loses none.

const NAME = "leafscan-sending";
let opened = null;

function open() {
  opened ??= new Promise(resolve => {
    try {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("photos", { keyPath: "key" });
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => resolve(null);
    } catch {
      resolve(null);
    }
  });
  return opened;
}

function run(mode, work) {
  return open().then(store => store && new Promise(resolve => {
    try {
      const asked = work(store.transaction("photos", mode).objectStore("photos"));
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => resolve(null);
    } catch {
      resolve(null);
    }
  }));
}

/** Keeps one; null when the browser keeps nothing (private window, full disk): sending works all the same. */
export const keep = item => run("readwrite", photos => photos.put(item));

/** Lets one go. */
export const letGo = key => run("readwrite", photos => photos.delete(key));

/** All that is left from before. */
export const all = async () => (await run("readonly", photos => photos.getAll())) ?? [];
