// Builds elements without markup in strings: what comes from outside is always text.

const SVG = "http://www.w3.org/2000/svg";

/** An HTML element. Props that start with "on" are listeners; others are attributes; false and null leave one out. */
export function h(name, props, ...children) {
  return fill(document.createElement(name), props, children);
}

/** An SVG element. */
export function s(name, props, ...children) {
  return fill(document.createElementNS(SVG, name), props, children);
}

function fill(element, props, children) {
  for (const [key, value] of Object.entries(props ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "value" && "value" in element) element.value = value;
    else element.setAttribute(key, value === true ? "" : String(value));
  }
  add(element, children);
  return element;
}

function add(element, children) {
  for (const child of children) {
    if (child === null || child === undefined || child === false) continue;
    if (Array.isArray(child)) add(element, child);
    else element.append(child);
  }
}

/** Puts new content in place of the old. */
export function put(element, ...children) {
  element.replaceChildren();
  add(element, children);
  return element;
}

/** A field with its label. */
export function field(label, control, hint) {
  return h("label", { class: "field" }, h("span", null, label), control, hint ? h("small", null, hint) : null);
}

/** A list to choose from; options are [value, words]. */
export function choice(options, chosen, onchange) {
  const list = h("select", { onchange: () => onchange?.(list.value) },
    options.map(([value, words]) => h("option", { value, selected: String(value) === String(chosen) }, words)));
  return list;
}

/** A frame for what may be wider than the screen; arrow keys scroll it. */
export function wide(label, content) {
  return h("div", { class: "wide", role: "region", "aria-label": label, tabindex: "0" }, content);
}
