// Own things: who, printer, dates, backup, phone.
import { choice, field, h, put } from "../dom.js";
import { change, get, post } from "../api.js";
import { done, troubleNote } from "../say.js";
import { useSettings } from "../words.js";

export async function draw(page, { again }) {
  // The code is shown at the machine itself only; a phone is told so in place of it.
  const [settings, pairing] = await Promise.all([get("/api/settings"), get("/api/pair").catch(() => null)]);
  const who = h("input", { name: "who", value: settings.who ?? "", maxlength: 80, autocomplete: "name" });
  const bar = h("input", { name: "bar", type: "number", step: "0.1", min: 90, max: 110, value: settings.printedBarMm ?? "", inputmode: "decimal" });
  const dates = choice([["day-month-year", "Thu 2 Jul 2026"], ["month-day-year", "Thu Jul 2, 2026"], ["year-month-day", "Thu 2026-07-02"]], settings.dateForm ?? "day-month-year");
  const trouble = h("div"), kept = h("div");
  put(page, h("h1", null, "Settings and backup"),
    h("form", {
      onsubmit: async event => {
        event.preventDefault();
        try {
          // An empty text and a true bar of 100 mm clear what was set.
          const asWish = own => ({ who: own.who ?? "", printedBarMm: own.printedBarMm ?? 100, dateForm: own.dateForm ?? "" });
          useSettings(await change("/api/settings", { who: who.value.trim(), printedBarMm: bar.value === "" ? 100 : Number(bar.value), dateForm: dates.value }));
          done("Settings kept.", again, async () => {
            useSettings(await change("/api/settings", asWish(settings)));
            return "the settings are as before.";
          });
        } catch (error) {
          put(trouble, troubleNote(error));
        }
      },
    }, h("div", { class: "fields" },
      field("Your name", who, "stands beside corrections"),
      field("Bar of 100 mm on the printed sheet, in mm", bar, "measured with a ruler; empty counts as 100"),
      field("Dates", dates)),
    h("div", { class: "row" }, h("button", { type: "submit", class: "main" }, "Keep")), trouble),
    h("h2", null, "Backup"),
    h("p", null, "Copies the record, safely while you work, into the data folder. Photos are not in it. Keep a copy on another machine too."),
    h("div", { class: "row" }, h("button", {
      onclick: async () => {
        try {
          const made = await post("/api/backup");
          put(kept, h("div", { class: "note", role: "status" }, h("p", null, "Backed up to ", h("strong", null, made.file))));
        } catch (error) {
          put(kept, troubleNote(error));
        }
      },
    }, "Back up now")), kept,
    pairing ? phone(pairing) : null);
}

function phone(pairing) {
  return h("section", null, h("h2", null, "Use your phone"),
    pairing.lan ? [
      h("p", null, "On the same Wi-Fi, point the phone's camera at this code, or open the address and type the pairing code."),
      pairing.link ? [h("img", { class: "code", src: "/api/pair/qr.svg", alt: "QR code that opens this page on a phone", width: 240, height: 240 }), h("p", null, h("strong", null, pairing.link.split("#")[0]))] : null,
      pairing.code ? h("p", { class: "lead" }, `Pairing code: ${pairing.code}`) : null,
      h("div", { class: "note warn" }, h("p", null, "Anybody on this Wi-Fi who has the code sees the record, and the line is not encrypted. Use it in your own network only."))]
      : h("p", null, "This page is for this machine only. To open it to a phone on the same Wi-Fi, start ", h("code", null, "leafscan serve --lan"), "."));
}
