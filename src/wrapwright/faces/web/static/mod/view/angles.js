/**
 * Angles round a piece in words, and the angles a moved copy is drawn to.
 *
 * Front 0, right 90, back 180, left 270 degrees, growing to the viewer's right when the front faces them.
 */

import { shortTurn, wholeTurn } from "../canvas/frame.js";

/**
 * @typedef {{at: number, words: string}} Line an angle something may be drawn to, and what it is called
 */

/** @type {readonly {name: string, at: number}[]} */
export const SIDES = [
  { name: "front", at: 0 },
  { name: "right", at: 90 },
  { name: "back", at: 180 },
  { name: "left", at: 270 },
];

/** @param {string} word @returns {string} with a capital */
export function capital(word) {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** @param {number} at @returns {number} the angle as shown, one decimal, in [0, 360) */
export function shownAngle(at) {
  return wholeTurn(Math.round(at * 10) / 10);
}

/** @param {number} at @returns {string} such as "112.5°" */
export function degrees(at) {
  return `${shownAngle(at).toFixed(1)}°`;
}

/** @param {number} at @returns {string} such as "front", "front, towards the right", "between front and right" */
export function sideWords(at) {
  const near = SIDES.reduce((best, side) =>
    Math.abs(shortTurn(at - side.at)) < Math.abs(shortTurn(at - best.at)) ? side : best);
  const off = shortTurn(at - near.at);
  if (Math.abs(off) < 0.5) {
    return near.name;
  }
  const step = off > 0 ? 1 : 3;
  const next = SIDES[(SIDES.indexOf(near) + step) % 4].name;
  return Math.abs(off) <= 22.5 ? `${near.name}, towards the ${next}` : `between ${near.name} and ${next}`;
}

/** @param {string} text @param {number} most @returns {string} the text, shortened with an ellipsis */
export function shortened(text, most) {
  return text.length <= most ? text : `${text.slice(0, Math.max(1, most - 1)).trimEnd()}…`;
}

/**
 * The angles that a copy may be drawn to: the sides, exactly opposite of the others, and the handle's middle.
 *
 * @param {any} drawn
 * @param {string} key of the copy in hand
 * @returns {Line[]}
 */
export function linesFor(drawn, key) {
  const lines = SIDES.map(({ name, at }) => ({ at, words: capital(name) }));
  for (const copy of drawn.copies) {
    if (copy.key !== key && !copy.fixed) {
      lines.push({ at: wholeTurn(copy.at_deg + 180), words: `Opposite ${copy.name}` });
    }
  }
  if (drawn.solid?.handle) {
    lines.push({ at: wholeTurn(drawn.solid.handle[0] + 180), words: "Opposite the handle" });
    lines.push({ at: wholeTurn(drawn.solid.handle[0]), words: "Middle of the handle" });
  }
  return lines;
}

/**
 * @param {number} at where the hand has it
 * @param {Line[]} lines
 * @param {number} reach degrees within which it is drawn
 * @returns {{at: number, line: Line | null}}
 */
export function drawnTo(at, lines, reach) {
  let best = null;
  let least = reach;
  for (const line of lines) {
    const off = Math.abs(shortTurn(at - line.at));
    if (off < least || (off === least && best === null)) {
      best = line;
      least = off;
    }
  }
  return best ? { at: best.at, line: best } : { at: wholeTurn(at), line: null };
}

/**
 * What lies opposite of a copy: the nearest other one to the point half a turn away.
 *
 * @param {any[]} copies
 * @param {{key: string, element: number, at_deg: number}} chosen as it lies now
 * @returns {{copy: any, off: number} | null} `off` in degrees, signed to the right
 */
export function oppositeOf(copies, chosen) {
  let best = null;
  for (const copy of copies) {
    if (copy.key === chosen.key || copy.fixed) {
      continue;
    }
    const off = shortTurn(copy.at_deg - chosen.at_deg - 180);
    // Of several in one place the element's own other copy is the one meant.
    const size = Math.abs(off) - (copy.element === chosen.element ? 0.05 : 0);
    if (Math.abs(off) <= 90 && (!best || size < best.size)) {
      best = { copy, off, size };
    }
  }
  return best;
}
