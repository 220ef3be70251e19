// Enlarging a picture in its frame: by buttons, towards a place, and finer detail only when it can be seen.

const ZOOMS = [1, 1.5, 2, 3, 4, 6, 8, 12];

/** How far `frame` with its `pane` is enlarged. `fine` is told once when fine detail can be seen, `changed` each time. */
export function zooming(frame, pane, { fine, changed }) {
  let at = 0;
  let isFine = false;
  const set = (to, centre) => {
    const seen = centre ?? [(frame.scrollLeft + frame.clientWidth / 2) / pane.clientWidth, (frame.scrollTop + frame.clientHeight / 2) / pane.clientHeight];
    at = Math.min(ZOOMS.length - 1, Math.max(0, to));
    pane.style.setProperty("--zoom", ZOOMS[at]);
    if (at >= 2 && !isFine) {
      isFine = true;
      fine?.();
    }
    frame.scrollTo(seen[0] * pane.clientWidth - frame.clientWidth / 2, seen[1] * pane.clientHeight - frame.clientHeight / 2);
    changed?.(at === 0, at === ZOOMS.length - 1);
  };
  return {
    set, by: step => set(at + step), whole: () => set(0),
    /** To a place as shares of width and height, at least so near. */
    near: (centre, least) => set(Math.max(at, least), centre),
    get factor() { return ZOOMS[at]; },
    most: ZOOMS.length - 1,
  };
}
