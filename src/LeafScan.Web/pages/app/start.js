// Opens first: shows the page that belongs to the address. Moving between pages keeps the document, so that sending goes on.
import { h, put } from "./dom.js";
import { get } from "./api.js";
import { say, troubleNote } from "./say.js";
import { useSettings } from "./words.js";
import { letGoOfPictures } from "./parts/picture.js";
import { startSending } from "./upload/bar.js";

const PAGES = [
  [/^\/$/, "today"],
  [/^\/walk\/(\d+)$/, "walk"],
  [/^\/plants$/, "plants"],
  [/^\/plant\/(\d+)$/, "plant"],
  [/^\/photo\/(\d+)$/, "photo"],
  [/^\/compare$/, "months"],
  [/^\/block$/, "map"],
  [/^\/next$/, "next"],
  [/^\/notes$/, "notes"],
  [/^\/notes\/(plant|place)\/(\d+)$/, "note"],
  [/^\/tap\/(\d+)$/, "tap"],
  [/^\/settings$/, "settings"],
  [/^\/pair$/, "pair"],
  [/^\/help$/, "help"],
];

let leave = null;
let turn = 0;
let shown = "";

/** Goes to another page. */
export function go(address) {
  history.pushState(null, "", address);
  return show(true);
}

async function show(moved) {
  const mine = ++turn;
  shown = location.pathname + location.search;
  const main = document.getElementById("main");
  leave?.();
  leave = null;
  mark();
  const found = PAGES.map(([form, name]) => ({ name, match: form.exec(location.pathname) })).find(page => page.match);
  put(main, h("p", { class: "small" }, "One moment …"));
  try {
    if (!found) throw new Error("no such page");
    const page = await import(`./pages/${found.name}.js`);
    const content = h("div");
    const draw = () => page.draw(content, { id: found.match.at(-1), kind: found.match[1], query: new URLSearchParams(location.search), go, again: draw });
    const left = await draw();
    if (mine !== turn) {
      left?.();
      return;
    }
    leave = left ?? null;
    put(main, content);
    letGoOfPictures();
  } catch (error) {
    if (mine !== turn) return;
    put(main, h("h1", { tabindex: "-1" }, found ? "That did not work" : "There is no such page"),
      found ? troubleNote(error, () => show(true)) : h("p", null, h("a", { href: "/" }, "To today")));
  }

  const title = main.querySelector("h1");
  document.title = title ? `${title.textContent} · LeafScan` : "LeafScan";
  if (moved) {
    scrollTo(0, 0);
    title?.setAttribute("tabindex", "-1");
    title?.focus();
    say(document.title);
  }
}

function mark() {
  for (const link of document.querySelectorAll("nav a")) {
    const here = new URL(link.href).pathname;
    const isHere = here === location.pathname
      || (here === "/" && location.pathname.startsWith("/walk/"))
      || (here === "/plants" && /^\/(plant|photo)\//.test(location.pathname));
    if (isHere) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

document.addEventListener("click", event => {
  const link = event.target.closest?.("a[href]");
  if (!link || event.defaultPrevented || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const target = new URL(link.href);
  if (link.target || link.hasAttribute("download") || target.origin !== location.origin || target.pathname.startsWith("/api/")) return;
  if (target.hash && target.pathname === location.pathname) return;
  event.preventDefault();
  go(target.pathname + target.search);
});
addEventListener("popstate", () => {
  // A jump within the page also comes by here.
  if (shown !== location.pathname + location.search) show(true);
});

if (location.pathname !== "/pair") {
  get("/api/settings").then(useSettings).catch(() => {}).finally(() => show(false));
  startSending();
} else {
  show(false);
}
