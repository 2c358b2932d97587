// Angles round the blank, and the copies of an element: front 0, right 90, back 180, left 270 degrees.

import { degreesOf, lengthText, rounded, wordOf, written } from "./measures.js";

/** @typedef {Record<string, any>} Element An element's table in a job document. */

export const SIDES = /** @type {const} */ ([["front", 0], ["right", 90], ["back", 180], ["left", 270]]);
export const MOST_COPIES = 100;

/** Two places nearer than this are the same: documents hold six decimals. */
const SAME_DEG = 1e-6;

/**
 * The same angle in [0, 360).
 * @param {number} degrees
 * @returns {number}
 */
export function wholeTurn(degrees) {
  const turned = ((degrees % 360) + 360) % 360;
  return turned >= 360 ? 0 : turned;
}

/**
 * How far two angles lie apart, 0..180 degrees.
 * @param {number} one
 * @param {number} other
 * @returns {number}
 */
export function apart(one, other) {
  return Math.abs(wholeTurn(one - other + 180) - 180);
}

/**
 * Whether two angles are the same place.
 * @param {number} one
 * @param {number} other
 * @returns {boolean}
 */
export function same(one, other) {
  return apart(one, other) <= SAME_DEG;
}

/**
 * The angle of a word or of degrees as a document holds them, or null.
 * @param {unknown} value
 * @returns {number|null}
 */
export function angleOf(value) {
  const side = SIDES.find(([word]) => word === wordOf(value));
  if (side) return side[1];
  const degrees = degreesOf(value);
  return degrees === null ? null : wholeTurn(degrees);
}

/**
 * An angle as a document holds it: a side's word where it is exact, else "112.5 deg".
 * @param {number} degrees
 * @returns {string}
 */
export function placeText(degrees) {
  const turned = wholeTurn(rounded(wholeTurn(degrees)));
  const side = SIDES.find(([, angle]) => same(angle, turned));
  return side ? side[0] : `${written(turned)} deg`;
}

/**
 * An angle as a person is told it: "front", else "112.5°".
 * @param {number} degrees
 * @returns {string}
 */
export function placeWords(degrees) {
  const text = placeText(degrees);
  if (!text.endsWith(" deg")) return text;
  return `${String(Math.round(wholeTurn(degrees) * 100) / 100)}°`;
}

/**
 * The angles of an element's copies, in the document's order; what cannot be read stands as the front.
 * @param {Element} element
 * @returns {number[]}
 */
export function copiesOf(element) {
  const around = Number(element.around);
  if (element.at === undefined && Number.isInteger(around) && around >= 1) {
    return Array.from({ length: Math.min(around, MOST_COPIES) }, (_, n) => rounded((360 * n) / around));
  }
  const listed = Array.isArray(element.at) ? element.at : [element.at ?? "front"];
  return listed.map((one) => angleOf(one) ?? 0);
}

/**
 * The element with other angles: one as a single place, several as a list, never `around` beside them.
 * @param {Element} element
 * @param {number[]} angles
 * @returns {Element}
 */
export function placedAt(element, angles) {
  const { around: _around, ...rest } = element;
  const texts = angles.map(placeText);
  return { ...rest, at: texts.length === 1 ? texts[0] : texts };
}

/** Whether a document is of a flat blank, which has a middle instead of sides. @param {Record<string, any>} job */
export function isFlat(job) {
  return wordOf(job.blank?.kind) === "flat";
}

/**
 * Millimetres right of a flat blank's middle, left below 0, of an angle as its frame counts them.
 * @param {{lower_mm: number}} frame
 * @param {number} at_deg
 * @returns {number}
 */
export function acrossOf(frame, at_deg) {
  return rounded(((wholeTurn(at_deg + 180) - 180) / 360) * frame.lower_mm);
}

/**
 * A place for the document: on a flat blank its angle becomes millimetres across.
 * @template {{at_deg?: number}} Change
 * @param {{plate?: string, lower_mm: number}|null|undefined} frame
 * @param {Change} to
 * @returns {Change & {across_mm?: number}}
 */
export function onBlank(frame, to) {
  if (!frame?.plate || to.at_deg === undefined) return to;
  const { at_deg, ...rest } = to;
  return /** @type {any} */ ({ ...rest, across_mm: acrossOf(frame, at_deg) });
}

/**
 * The element that far right of a flat blank's middle; the middle takes the key out.
 * @param {Element} element
 * @param {number} mm
 * @returns {Element}
 */
export function acrossAt(element, mm) {
  const { at: _at, around: _around, across: _across, ...rest } = element;
  return Math.abs(mm) < 1e-6 ? rest : { ...rest, across: lengthText(mm) };
}

/** A place across a flat blank as a person is told it. @param {number} mm @param {string} said the length without a sign */
export function acrossWords(mm, said) {
  return Math.abs(mm) < 0.05 ? "middle" : `${said} ${mm > 0 ? "right" : "left"}`;
}

/**
 * Which copy of an element lies exactly opposite another of it, or -1.
 * @param {Element} element
 * @param {number} copy
 * @returns {number}
 */
export function oppositeOf(element, copy) {
  const angles = copiesOf(element);
  return angles.findIndex((angle) => same(angle, angles[copy] + 180));
}
