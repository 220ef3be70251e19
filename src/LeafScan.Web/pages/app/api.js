// Talks to the server that gave this page. A trouble is always an Error with what happened, and what is safe and to do.

export class Trouble extends Error {
  constructor(title, detail, status) {
    super(title);
    this.detail = detail ?? "";
    this.status = status ?? 0;
  }

  /** Both sentences. */
  get words() {
    return this.detail ? `${this.message} ${this.detail}` : this.message;
  }
}

const AWAY = new Trouble("The LeafScan program does not answer.", "Nothing is lost. Check the Wi-Fi, or start it again, then try again.", 0);

/** Asks for something. */
export const get = path => ask("GET", path);

/** Sends a change. */
export const post = (path, body) => ask("POST", path, body);
export const change = (path, body) => ask("PUT", path, body);
export const remove = path => ask("DELETE", path);

async function ask(method, path, body) {
  const headers = { Accept: "application/json" };
  if (method !== "GET") headers["X-LeafScan"] = "1";
  if (body !== undefined) headers["Content-Type"] = "application/json";
  for (let round = 0; ; round++) {
    let answer;
    try {
      answer = await fetch(path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body), cache: "no-store" });
    } catch {
      throw AWAY;
    }

    // A busy store frees itself; the person need not know.
    if (answer.status === 503 && round < 4) {
      await new Promise(done => setTimeout(done, 400 * (round + 1)));
      continue;
    }

    return read(answer);
  }
}

/** The content of an answer, or its trouble. */
export async function read(answer) {
  const text = await answer.text();
  let content = null;
  try {
    content = text ? JSON.parse(text) : null;
  } catch {
    content = null;
  }

  if (answer.ok) return content;
  if (answer.status === 401 && location.pathname !== "/pair") {
    location.assign(`/pair?then=${encodeURIComponent(location.pathname)}`);
  }

  throw new Trouble(content?.title ?? `The program answered with ${answer.status}.`, content?.detail ?? "Nothing was changed. Try again.", answer.status);
}
