// Lengths as the reader writes them: millimetres inside, their unit and their decimal mark outside.

import { api } from "./api.js";

/** @typedef {"mm" | "in"} Unit */

const MM_PER_INCH = 25.4;
const YEAR_S = 31536000;

/** @returns {Unit} the unit on the screen */
export function unit() {
  return /(?:^|;\s*)unit=in(?:;|$)/.test(document.cookie) ? "in" : "mm";
}

/**
 * Keep the unit; everything that shows a length hears `wrapunit` on the document.
 * @param {Unit} to
 */
export function setUnit(to) {
  document.cookie = `unit=${to}; path=/; max-age=${YEAR_S}; samesite=strict`;
  document.dispatchEvent(new CustomEvent("wrapunit", { detail: { unit: to } }));
}

/** The word for the chosen unit, as it stands in a field. */
export function unitWord() {
  return unit();
}

/**
 * A length with its unit: "234.9 mm", "9.248 in".
 * @param {number} mm
 * @param {number} [digits] decimals in millimetres; inches get two more
 */
export function format(mm, digits = 1) {
  const inches = unit() === "in";
  const places = inches ? digits + 2 : digits;
  const value = inches ? mm / MM_PER_INCH : mm;
  return `${figure(value, places)}\u00a0${inches ? "in" : "mm"}`;
}

/**
 * A sentence of the server's with its millimetres in the unit on the screen: "78.6 mm long" is "3.094 in long".
 * @param {string} words
 */
export function inUnit(words) {
  if (unit() === "mm") return words;
  return words.replace(/(?:([\d.]*\d) x )?([\d.]*\d)\s(?:mm|millimetres)\b/g, (all, first, last) =>
    `${first ? `${figure(Number(first) / MM_PER_INCH, 3)} x ` : ""}${format(Number(last))}`);
}

/**
 * A length for a field: no unit, no grouping, no zeros at the end, read back as it was meant.
 * @param {number} mm
 * @param {number} [digits] most decimals in millimetres; inches get one more
 */
export function bare(mm, digits = 2) {
  const inches = unit() === "in";
  const value = inches ? mm / MM_PER_INCH : mm;
  return plain(value, inches ? digits + 1 : digits);
}

/**
 * Any number with a fixed count of decimals, by the reader's locale, in Latin digits.
 * @param {number} value
 * @param {number} places
 */
export function figure(value, places) {
  return formatter(places, places, false).format(tidy(value, places));
}

/**
 * A number for a field: up to `places` decimals.
 * @param {number} value
 * @param {number} places
 */
export function plain(value, places) {
  const text = formatter(0, places, false).format(tidy(value, places));
  // Three digits after a comma could be thousands; the server asks about them, so a fourth says what is meant.
  return /,\d{3}$/.test(text) ? `${text}0` : text;
}

/**
 * Millimetres of what was typed, in the unit on the screen where none is written.
 * @param {string} text
 * @returns {Promise<number>}
 */
export async function read(text) {
  return (await api.length(text, unit())).mm;
}

/** @param {number} value @param {number} places */
function tidy(value, places) {
  const rounded = Number(value.toFixed(places));
  return Object.is(rounded, -0) ? 0 : rounded;
}

/** @type {Map<string, Intl.NumberFormat>} */
const made = new Map();

/** @param {number} least @param {number} most @param {boolean} grouping */
function formatter(least, most, grouping) {
  const key = `${least} ${most} ${grouping}`;
  let one = made.get(key);
  if (!one) {
    one = new Intl.NumberFormat(navigator.languages.length ? [...navigator.languages] : undefined, {
      minimumFractionDigits: least, maximumFractionDigits: most, useGrouping: grouping, numberingSystem: "latn",
    });
    made.set(key, one);
  }
  return one;
}
