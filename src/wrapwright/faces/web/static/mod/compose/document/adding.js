// New elements, each with a size that suits the wrap it is put on.

import { freeName, elementsOf } from "./elements.js";
import { lengthText } from "./measures.js";
import { acrossAt, placeText, wholeTurn } from "./places.js";

/**
 * @typedef {import("./elements.js").Job} Job
 * @typedef {{turn_mm: number, height_mm: number}} Room One whole turn at the band's middle, and the band's height.
 * @typedef {{at_deg?: number, across_mm?: number, up_mm?: number}} Place
 */

const ROUND_TO_MM = 1;

/**
 * The document with an element put in front of all others.
 * @param {Job} job
 * @param {Record<string, any>} element
 * @returns {{job: Job, element: number}}
 */
function added(job, element) {
  const elements = elementsOf(job);
  return { job: { ...job, element: [...elements, element] }, element: elements.length };
}

/** Where a new element goes: the keys of its place, none for what a document takes by default. */
function placed(place) {
  const keys = {};
  if (place.across_mm !== undefined) return { ...acrossAt({}, place.across_mm), ...placed({ up_mm: place.up_mm }) };
  if (place.at_deg !== undefined) keys.at = placeText(wholeTurn(place.at_deg));
  if (place.up_mm !== undefined) keys.up = lengthText(place.up_mm);
  return keys;
}

/**
 * The width that a picture starts with: two fifths of what is seen from one side, and never taller than the band allows.
 * @param {Room} room
 * @param {number} aspect Width over height.
 * @returns {number}
 */
export function startWidth(room, aspect) {
  const across = room.turn_mm * 0.22;
  const tall = room.height_mm * 0.7 * aspect;
  return Math.max(5, Math.floor(Math.min(across, tall) / ROUND_TO_MM) * ROUND_TO_MM);
}

/**
 * The document with a picture in front.
 * @param {Job} job
 * @param {{file: string, name: string, aspect: number}} picture
 * @param {Room} room
 * @param {Place} place
 * @returns {{job: Job, element: number}}
 */
export function addedPicture(job, picture, room, place = {}) {
  return added(job, {
    kind: "picture",
    name: freeName(job, stemOf(picture.name)),
    file: picture.file,
    at: "front",
    ...placed(place),
    width: lengthText(startWidth(room, picture.aspect || 1)),
  });
}

/**
 * The document with a pattern: a picture repeated over the whole wrap, eight times round to begin with.
 * @param {Job} job
 * @param {{file: string, name: string}} picture
 * @param {Room} room
 * @returns {{job: Job, element: number}}
 */
export function addedTile(job, picture, room) {
  const width = Math.max(5, Math.round(room.turn_mm / 8));
  const name = freeName(job, `${stemOf(picture.name)} pattern`);
  return behind(job, ["fill", "tile"], { kind: "tile", name, file: picture.file, width: lengthText(width) });
}

/**
 * The document with words in front.
 * @param {Job} job
 * @param {string} text
 * @param {Room} room
 * @param {Place} place
 * @returns {{job: Job, element: number}}
 */
export function addedText(job, text, room, place = {}) {
  const size = Math.max(3, Math.min(9, Math.round(room.height_mm * 0.09)));
  return added(job, {
    kind: "text",
    name: freeName(job, "Text"),
    text,
    at: "front",
    ...placed(place),
    size: lengthText(size),
  });
}

/**
 * The document with a code in front.
 * @param {Job} job
 * @param {string} text
 * @param {Room} room
 * @param {Place} place
 * @returns {{job: Job, element: number}}
 */
export function addedCode(job, text, room, place = {}) {
  const width = Math.max(15, Math.min(24, Math.floor(room.height_mm * 0.4)));
  return added(job, {
    kind: "code",
    name: freeName(job, "Code"),
    text,
    at: "back",
    ...placed(place),
    width: lengthText(width),
  });
}

/**
 * The document with the whole wrap in one colour, behind everything but other fills: patterns stay in sight.
 * @param {Job} job
 * @param {string} colour
 * @returns {{job: Job, element: number}}
 */
export function addedFill(job, colour) {
  return behind(job, ["fill"], { kind: "fill", name: freeName(job, "Fill"), colour });
}

/** The document with a ground put in front of the grounds of some kinds that lie at the very back, behind all else. */
function behind(job, grounds, element) {
  const elements = elementsOf(job);
  const first = elements.findIndex((one) => !grounds.includes(String(one.kind).trim().toLowerCase()));
  const index = first < 0 ? elements.length : first;
  return { job: { ...job, element: elements.toSpliced(index, 0, element) }, element: index };
}

/**
 * A file's name without its folder and ending.
 * @param {string} name
 * @returns {string}
 */
export function stemOf(name) {
  return name.replace(/^.*[\\/]/, "").replace(/\.[^.]*$/, "") || name;
}
