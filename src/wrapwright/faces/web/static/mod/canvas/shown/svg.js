/** Short words for making SVG. */

const SPACE = "http://www.w3.org/2000/svg";
let count = 0;

/**
 * @param {string} name
 * @param {Record<string, string | number>} [attributes]
 * @param {Element} [parent] where it goes last
 * @returns {SVGElement}
 */
export function make(name, attributes = {}, parent) {
  const one = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, String(value));
  parent?.append(one);
  return one;
}

/** @param {Element} one @param {string} key @param {string | number | null} value null takes it away */
export function put(one, key, value) {
  if (value === null) one.removeAttribute(key);
  else if (one.getAttribute(key) !== String(value)) one.setAttribute(key, String(value));
}

/** @param {Element} one @param {boolean} shown */
export function showIf(one, shown) {
  put(one, "display", shown ? null : "none");
}

/** @param {string} word @returns {string} an id no other element of the page has */
export function freshId(word) {
  count += 1;
  return `wrap-${word}-${count}`;
}
