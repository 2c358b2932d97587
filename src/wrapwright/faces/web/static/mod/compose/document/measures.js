// Lengths and numbers as a job document holds them.

/** How many millimetres the units have that are read here; everything else is read by the server. */
const UNITS = { "": 1, mm: 1, cm: 10, in: 25.4, '"': 25.4 };
const WRITTEN = /^\s*([+-]?\d+(?:\.\d+)?)\s*(mm|cm|in|")?\s*$/i;
const FRACTION = /^\s*(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)\s*(?:in|")\s*$/i;

/**
 * A number with at most six decimals, no noughts at its end and never a minus nought.
 * @param {number} value
 * @returns {string}
 */
export function written(value) {
  const text = value.toFixed(6).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}

/**
 * A number rounded as a document holds it.
 * @param {number} value
 * @returns {number}
 */
export function rounded(value) {
  return Number(written(value));
}

/**
 * A length as a document holds it: "12.345 mm".
 * @param {number} mm
 * @returns {string}
 */
export function lengthText(mm) {
  return `${written(mm)} mm`;
}

/**
 * The millimetres of a document's length, or null when it is a word or is written in a way that only the server reads.
 * @param {unknown} value
 * @returns {number|null}
 */
export function mmOf(value) {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (typeof value !== "string") return null;
  const part = FRACTION.exec(value);
  if (part) return rounded((Number(part[1] ?? 0) + Number(part[2]) / Number(part[3])) * UNITS.in);
  const found = WRITTEN.exec(value);
  return found ? rounded(Number(found[1]) * UNITS[(found[2] ?? "").toLowerCase()]) : null;
}

/**
 * Degrees of a document's turn (a number, "15 deg"), or null.
 * @param {unknown} value
 * @returns {number|null}
 */
export function degreesOf(value) {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  const found = typeof value === "string" ? /^\s*([+-]?\d+(?:[.,]\d+)?)\s*(?:°|º|deg\.?|degrees?)?\s*$/i.exec(value) : null;
  return found ? Number(found[1].replace(",", ".")) : null;
}

/**
 * A word of a document in small letters, or "" when it is none.
 * @param {unknown} value
 * @returns {string}
 */
export function wordOf(value) {
  return typeof value === "string" ? value.trim().toLowerCase() : "";
}
