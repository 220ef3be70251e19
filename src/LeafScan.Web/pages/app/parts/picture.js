// Pictures come two at a time. A browser opens six lines to a program; pictures that are still being drawn must not hold
// them all, or a button pressed meanwhile would wait for its answer.
import { h } from "../dom.js";

const AT_ONCE = 2;
const waiting = [];
const coming = new Set();
const seen = "IntersectionObserver" in globalThis
  ? new IntersectionObserver(entries => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) {
        seen.unobserve(target);
        ask(target);
      }
    }
  }, { rootMargin: "300px" })
  : null;

/** An image that is asked for when it is nearly in sight, or at once when `isEarly`. */
export function picture(address, props, isEarly) {
  const image = h("img", props);
  image.dataset.address = address;
  if (isEarly || !seen) ask(image);
  else seen.observe(image);
  return image;
}

/** Lets go of pictures that are no longer on the page. */
export function letGoOfPictures() {
  for (let i = waiting.length - 1; i >= 0; i--) {
    if (!waiting[i].isConnected) waiting.splice(i, 1);
  }
  for (const image of coming) {
    if (!image.isConnected) {
      image.removeAttribute("src");
      coming.delete(image);
    }
  }
  next();
}

function ask(image) {
  waiting.push(image);
  // After the page is in place: an image that is made and never shown is not asked for.
  setTimeout(next);
}

function next() {
  while (coming.size < AT_ONCE && waiting.length > 0) {
    const image = waiting.shift();
    if (!image.isConnected) {
      seen?.observe(image);
      continue;
    }
    coming.add(image);
    const end = () => {
      coming.delete(image);
      next();
    };
    image.addEventListener("load", end, { once: true });
    image.addEventListener("error", end, { once: true });
    image.src = image.dataset.address;
  }
}
