// One line of server-sent events for the whole page; each page listens while it is shown.

let source = null;
const listeners = new Set();

/** Hears what happens; gives back what ends it. `heard` gets (kind, content): "photo", "counts", or "gap" after a broken line. */
export function listen(heard) {
  listeners.add(heard);
  if (!source) open();
  return () => {
    listeners.delete(heard);
    if (listeners.size === 0) {
      source?.close();
      source = null;
    }
  };
}

function open() {
  source = new EventSource("/api/events");
  let isBroken = false;
  source.onerror = () => { isBroken = true; };
  source.onopen = () => {
    // The browser asks from where it was, but a program that was started anew may not remember.
    if (isBroken) tell("gap", null);
    isBroken = false;
  };
  for (const kind of ["photo", "counts"]) {
    source.addEventListener(kind, event => tell(kind, JSON.parse(event.data)));
  }
}

function tell(kind, content) {
  for (const heard of [...listeners]) heard(kind, content);
}
