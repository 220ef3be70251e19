// How figures, days and words look. Shares come as 0..1 and leave as percent.

const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
let dateForm = "day-month-year";
let own = null;

/** Takes what the person has set: form of a date (day-month-year, month-day-year, year-month-day) and name. */
export function useSettings(settings) {
  dateForm = settings?.dateForm ?? "day-month-year";
  own = settings?.who ?? null;
}

/** The person's name as set; null when not told. */
export const who = () => own;

/** A calendar day (yyyy-MM-dd) with its weekday. */
export function day(iso) {
  const [y, m, d] = String(iso).slice(0, 10).split("-").map(Number);
  if (!y || !m || !d) return String(iso ?? "");
  const weekday = DAYS[new Date(Date.UTC(y, m - 1, d)).getUTCDay()];
  const month = MONTHS[m - 1].slice(0, 3);
  if (dateForm === "year-month-day") return `${weekday} ${String(iso).slice(0, 10)}`;
  return dateForm === "month-day-year" ? `${weekday} ${month} ${d}, ${y}` : `${weekday} ${d} ${month} ${y}`;
}

/** A sentence of the program with its days in the person's own form. */
export const sentence = words => String(words ?? "").replace(/\b\d{4}-\d{2}-\d{2}\b/g, iso => day(iso));

/** A day without year and weekday, for tight places. */
export function shortDay(iso) {
  const [, m, d] = String(iso).slice(0, 10).split("-").map(Number);
  const month = MONTHS[m - 1].slice(0, 3);
  return dateForm === "month-day-year" ? `${month} ${d}` : dateForm === "year-month-day" ? String(iso).slice(5, 10) : `${d} ${month}`;
}

/** A month (yyyy-MM). */
export function month(iso) {
  const [y, m] = String(iso).split("-").map(Number);
  return `${MONTHS[m - 1]} ${y}`;
}

/** Today on this device, yyyy-MM-dd. */
export function today() {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
}

const isNumber = value => typeof value === "number" && Number.isFinite(value);

/** A share as percent: one digit below ten. */
export function percent(share) {
  if (!isNumber(share)) return "–";
  const p = share * 100;
  return `${Math.abs(p) < 9.95 ? p.toFixed(1) : p.toFixed(0)} %`;
}

/** "7.1 to 9.4 %", or nothing where there is no interval. */
export function between(low, high) {
  if (!isNumber(low) || !isNumber(high)) return "";
  return `${percent(low).replace(" %", "")} to ${percent(high)}`;
}

/** A difference in points, with its sign. */
export function points(difference) {
  if (!isNumber(difference)) return "–";
  const p = difference * 100;
  return `${p > 0 ? "+" : p < 0 ? "−" : ""}${Math.abs(p).toFixed(1)} points`;
}

/** "1 leaf", "6 leaves". */
export function count(n, one, many) {
  return `${n ?? 0} ${n === 1 ? one : many ?? one + "s"}`;
}

const VERDICTS = {
  working: ["The care works.", "good", "✓"],
  notWorking: ["The care does not hold the mites.", "bad", "!"],
  tooEarly: ["Too early to tell.", "", "…"],
  cannotTell: ["Can't tell yet.", "", "?"],
  newDamage: ["New damage came.", "bad", "!"],
  noNewDamage: ["No new damage.", "good", "✓"],
};

/** A verdict as [sentence, kind, sign]. */
export const verdict = word => VERDICTS[word] ?? VERDICTS.cannotTell;

const CHANGES = {
  better: ["less damage", "good", "↓"],
  worse: ["more damage", "bad", "↑"],
  same: ["the same", "", "="],
  cannotTell: ["can't tell", "", "?"],
};

/** A change between months as [word, kind, sign]. */
export const changed = word => CHANGES[word] ?? CHANGES.cannotTell;

/** Kinds of care in the order of the gentlest first. */
export const CARE = [
  ["rinse", "Rinse"], ["soap", "Soap"], ["oil", "Oil"], ["predators", "Predators"], ["miticide", "Miticide"], ["pruning", "Pruning"], ["nothing", "Left alone"],
];

/** One kind of care in a word. */
export const care = what => CARE.find(([key]) => key === what)?.[1] ?? String(what ?? "");

const CAUSES = {
  miteStippling: "Spider mite stippling",
  laceBugStipple: "Lace bugs",
  leafSpot: "Leaf spot",
  evenYellowing: "Yellowing all over",
  interveinalYellowing: "Yellow between the veins",
  chewing: "Chewing",
  sunGlareOnly: "Only shine of the sun",
};

/** A cause in words; one that is not known here keeps its own name with spaces. */
export const cause = name => CAUSES[name] ?? plainName(name);

/** How sure a cause is, in words; limits are our own choice. */
export function sureness(score) {
  return score >= 0.8 ? "very likely" : score >= 0.5 ? "likely" : score >= 0.25 ? "maybe" : "hardly";
}

/** camelCase as words. */
export function plainName(name) {
  const words = String(name ?? "").replace(/([A-Z])/g, " $1").toLowerCase().trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The tissues in the order in which they are shown, with their words. */
export const TISSUES = [
  ["sound", "Sound"], ["stippled", "Stippled"], ["yellowed", "Yellowed"], ["browned", "Browned"], ["chewed", "Chewed away"], ["unassessed", "Not judged"],
];

/** Flags come as names or as records; both leave as {name, meaning, advice}. */
export function flags(list) {
  return (list ?? []).map(flag => typeof flag === "string" ? { name: flag, meaning: plainName(flag) + ".", advice: "" } : flag);
}

/** A photo's answer as [words, kind, sign]. */
export function photoWord(photo) {
  if (photo.state === "refused") return [photo.reason || photo.word || "Not measured.", "bad", "!"];
  if (photo.state === "waiting") return ["Waiting", "", "…"];
  if (photo.state === "measuring") return ["Measuring", "", "…"];
  const word = photo.word ?? (flags(photo.flags).length ? "look at it" : "good");
  return word === "good" ? ["Good", "good", "✓"] : [word.charAt(0).toUpperCase() + word.slice(1), "bad", "!"];
}

// What readings of a kind are of.
const THINGS = {
  leaf: { one: "leaf", many: "leaves", head: "Leaves", counted: "Leaves", area: "leaf area" },
  twig: { one: "twig", many: "twigs", head: "Twigs", counted: "Twigs", area: "foliage" },
  plant: { one: "view of the whole plant", many: "views of the whole plant", head: "Whole plant", counted: "Views", area: "foliage" },
};

export const thing = kind => THINGS[kind] ?? THINGS.leaf;
