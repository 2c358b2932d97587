// Elements of the page in one call.

let count = 0;

/** A name for an element of this page that no other has. @param {string} stem */
export function freshId(stem) {
  count += 1;
  return `${stem}-${count}`;
}

/**
 * Make an element. Keys that start with "on" are listeners, those with a dash or of `PLAIN` attributes, the rest
 * properties; undefined, false and null leave a key out.
 * @param {string} tag
 * @param {Record<string, any>} [keys]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {any}
 */
export function make(tag, keys = {}, ...children) {
  const made = document.createElement(tag);
  for (const [key, value] of Object.entries(keys)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "class") made.className = value;
    else if (key.includes("-") || PLAIN.has(key)) made.setAttribute(key, value === true ? "" : String(value));
    else made[key] = value;
  }
  made.append(...children.filter((one) => one !== null && one !== undefined && one !== false));
  return made;
}

const PLAIN = new Set(["role", "for", "list", "inputmode", "autocomplete"]);

/**
 * A button with words.
 * @param {string} words
 * @param {() => void} act
 * @param {Record<string, any>} [keys]
 */
export function button(words, act, keys = {}) {
  return make("button", { class: "button", type: "button", onclick: act, ...keys }, words);
}

/**
 * An element of the page that must be there.
 * @param {string} id
 * @returns {any}
 */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no part called ${id}.`);
  return found;
}
