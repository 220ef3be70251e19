// One client's note: as it comes out on paper, its words to be changed, and the downloads.
import { field, h, put } from "../dom.js";
import { get } from "../api.js";
import { notePart } from "../parts/notepart.js";
import { kinds } from "../parts/kinds.js";
import { noteSender } from "../parts/notesender.js";
import { troubleNote } from "../say.js";
import { count, day } from "../words.js";

export async function draw(page, { kind, id, query, go, again }) {
  const at = `/api/${kind === "place" ? "places" : "plants"}/${id}/note`;
  const since = query.get("since") ?? "";
  const ofKind = query.get("kind") ?? "";
  const wish = (day, which) => {
    const all = new URLSearchParams(Object.entries({ since: day, kind: which }).filter(([, value]) => value)).toString();
    return all ? `?${all}` : "";
  };
  const asked = wish(since, ofKind);
  const [note, sender] = await Promise.all([get(at + asked), get("/api/notes/sender")]);
  const paper = h("div", { class: "paper" });
  let turn = 0;

  // Drawn anew after each change; an older drawing that comes late is left out.
  const show = async () => {
    const mine = ++turn;
    if (!paper.hasChildNodes()) put(paper, h("p", { role: "status" }, "The note is being drawn …"));
    paper.setAttribute("aria-busy", "true");
    try {
      const found = await get(`${at}/pages${asked}`);
      if (mine !== turn) return;
      const more = asked ? `&${asked.slice(1)}` : "";
      put(paper,
        [...Array(found.pages).keys()].map(i => h("img", { class: "sheetpage", src: `${at}/picture?page=${i + 1}${more}&drawn=${Date.now()}`, width: 1240, height: found.paper === "a4" ? 1754 : 1604, alt: `Page ${i + 1} of the note, as it is printed. Its words are in the fields.` })),
        h("p", { class: "small" }, [count(found.pages, "page"), found.paper === "a4" ? "A4" : "Letter", found.picture].filter(Boolean).join(" · ")),
        found.lettersMissing.length ? h("div", { class: "note warn" }, h("p", null, `Some letters cannot be set on paper here: ${found.lettersMissing.join(", ")}. The page for the browser has them all.`)) : null);
    } catch (error) {
      if (mine === turn) put(paper, troubleNote(error, show));
    } finally {
      if (mine === turn) paper.removeAttribute("aria-busy");
    }
  };

  const file = (what, words) => h("a", { class: "button", href: `${at}/${what}${asked}`, download: "" }, words);
  const beside = h("input", { type: "date", name: "since", value: since, max: note.walk ?? note.date, onchange: () => go(`/notes/${kind}/${id}${wish(beside.value, ofKind)}`) });
  put(page,
    h("h1", null, `Client note: ${note.code ?? note.place}`),
    h("p", { class: "small" }, [note.client ? `for ${note.client}` : "", note.walk ? `walk of ${day(note.walk)}` : "nothing measured yet", note.beside ? `beside ${day(note.beside)}` : ""].filter(Boolean).join(" · ")),
    kinds(note, `/notes/${kind}/${id}`, since ? { since } : {}),
    h("div", { class: "row noprint" }, file("pdf", "PDF"), file("html", "Page for the browser"), file("picture", "Picture"),
      h("a", { class: "button", href: note.plantId ? `/plant/${note.plantId}` : "/plants" }, note.plantId ? `Plant ${note.code}` : "Plants")),
    h("div", { class: "two" },
      h("div", null, h("h2", null, "On paper"), paper),
      h("div", { class: "noprint" },
        h("h2", null, "In your words"),
        h("p", null, "Every part is written from the record. What you write here takes its place, and is kept."),
        note.parts.map(part => notePart(at, part, note, { show, again })),
        h("h2", null, "Beside which walk"),
        h("div", { class: "fields" }, field("Lay beside the walk on or before", beside, "empty: the walk before the last")),
        noteSender(sender, note, { show, again }))));
  show();
}
