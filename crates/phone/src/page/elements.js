// Elements of the page, made one way.

/** @typedef {Node | string | null | false | undefined} Child */
/** @typedef {Record<string, string | number | boolean | null | undefined | EventListener>} Properties */

/**
 * @param {string} name tag, with classes behind points @param {Properties} properties attributes; functions listen @param {...(Child | Child[])} children
 * @returns {HTMLElement}
 */
export function make(name, properties = {}, ...children) {
  const [tag, ...classes] = name.split(".");
  const element = document.createElement(tag);
  if (classes.length > 0) element.className = classes.join(" ");
  for (const [key, value] of Object.entries(properties)) {
    if (typeof value === "function") element.addEventListener(key, value);
    else if (value === true) element.setAttribute(key, "");
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, String(value));
  }
  for (const child of children.flat()) if (child) element.append(child);
  return element;
}

/** @param {string} words @param {() => unknown} act @param {string} [look] */
export const button = (words, act, look = "") => make(`button${look ? `.${look.replace(" ", ".")}` : ""}`, { type: "button", click: () => void act() }, words);

/** A link to a screen of this page. @param {string} where @param {string} look @param {...(Child | Child[])} children */
export const link = (where, look, ...children) => make(`a${look ? `.${look}` : ""}`, { href: where }, ...children);

/** A field with its label. @param {string} label @param {HTMLElement} input @param {string} [hint] */
export function field(label, input, hint) {
  const id = `field-${(field.count += 1)}`;
  input.id = id;
  if (hint) input.setAttribute("aria-describedby", `${id}-hint`);
  return make("p.field", {}, make("label", { for: id }, label), input, hint ? make("span.hint", { id: `${id}-hint` }, hint) : null);
}
field.count = 0;

const SVG = "http://www.w3.org/2000/svg";
/** @param {string} tag @param {Record<string, string | number>} attributes @param {...(SVGElement | string)} children @returns {SVGElement} */
export function draw(tag, attributes, ...children) {
  const element = document.createElementNS(SVG, tag);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

/** A file for the user to keep. @param {string} name @param {string} kind @param {string} text */
export function handOut(name, kind, text) {
  const address = URL.createObjectURL(new Blob([text], { type: kind }));
  const anchor = make("a", { href: address, download: name });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
