/**
 * How a copy stands on the wrap, and what a change of that does to its drawing.
 *
 * @typedef {import("./matrix.js").Matrix} Matrix
 * @typedef {import("./matrix.js").Point} Point
 * @typedef {import("./frame.js").Frame} Frame
 * @typedef {{d: string, fill: string, stroke: string, stroke_mm: number, even_odd: boolean, opacity: number}} ShapeView
 * @typedef {{key: string, element: number, copy: number, name: string, kind: string, at_deg: number, up_mm: number,
 *   turn_deg: number, width_mm: number, height_mm: number, lay: string, fixed: boolean, matrix: Matrix,
 *   rigid: boolean, border: string, shapes: ShapeView[], sprite: null | {url: string, box: number[]},
 *   laps: number[], ppi: number | null, spoken: string}} CopyView
 * @typedef {{turn: number, up: number, turnDeg: number, sx: number, sy: number}} Stand  `turn` from the seam, not
 *   brought back to one turn; `sx`, `sy` times its present size
 * @typedef {{key: string, at_deg: number, up_mm: number, turn_deg: number, scale_x: number, scale_y: number}} Change
 */

import { joined, scaled, shift, turned } from "./matrix.js";
import { shortTurn, wholeTurn } from "./frame.js";
import { runs } from "./outline.js";

const RAD = Math.PI / 180;
const DIGITS = 6;

/** @param {CopyView} copy @param {Frame} frame @returns {Stand} as it was drawn */
export function standOf(copy, frame) {
  return { turn: frame.turnOf(copy.at_deg), up: copy.up_mm, turnDeg: copy.turn_deg, sx: 1, sy: 1 };
}

/** @param {Stand} one @param {Stand} other @returns {boolean} */
export function sameStand(one, other) {
  return one.turn === other.turn && one.up === other.up && one.turnDeg === other.turnDeg
    && one.sx === other.sx && one.sy === other.sy;
}

/**
 * @param {Change} change
 * @param {CopyView} copy
 * @param {Frame} frame
 * @returns {Stand} the shorter way round from where the copy was drawn
 */
export function standOfChange(change, copy, frame) {
  const turn = frame.turnOf(copy.at_deg) + shortTurn(change.at_deg - copy.at_deg);
  return { turn, up: change.up_mm, turnDeg: change.turn_deg, sx: change.scale_x, sy: change.scale_y };
}

/** @param {string} key @param {Stand} stand @param {Frame} frame @returns {Change} */
export function changeOf(key, stand, frame) {
  return {
    key, at_deg: tidyAngle(frame.atOf(stand.turn)), up_mm: tidy(stand.up), turn_deg: tidy(shortTurn(stand.turnDeg)),
    scale_x: stand.sx, scale_y: stand.sy,
  };
}

/**
 * @param {CopyView} copy
 * @param {Stand} from
 * @param {Stand} to
 * @param {Frame} frame
 * @returns {Record<string, number>} what is now another figure, in the document's words; empty when nothing is
 */
export function changesOf(copy, from, to, frame) {
  /** @type {Record<string, number>} */
  const changes = {};
  if (Math.abs(shortTurn(to.turn - from.turn)) > 1e-9) changes.at_deg = tidyAngle(frame.atOf(to.turn));
  if (to.up !== from.up) changes.up_mm = tidy(to.up);
  if (Math.abs(shortTurn(to.turnDeg - from.turnDeg)) > 1e-9) changes.turn_deg = tidy(shortTurn(to.turnDeg));
  if (to.sx !== from.sx) changes.width_mm = tidy(copy.width_mm * to.sx);
  if (to.sy !== from.sy) changes.height_mm = tidy(copy.height_mm * to.sy);
  return changes;
}

/** @param {number} figure @returns {number} without the dust of floating point */
function tidy(figure) {
  return Number(figure.toFixed(DIGITS)) + 0;
}

/** @param {number} at @returns {number} */
function tidyAngle(at) {
  return wholeTurn(tidy(at));
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand
 * @returns {Matrix} its art frame -> canvas, lap 0: exact for a rigid copy, near for a bent one
 */
export function matrixOf(copy, frame, stand) {
  const base = standOf(copy, frame);
  if (sameStand(base, stand)) return copy.matrix;
  const { x, y, lean } = frame.placeTurn(base.turn, base.up);
  const carry = frame.carry(base.turn, base.up, stand.turn, stand.up);
  const turn = stand.turnDeg - base.turnDeg;
  if (copy.rigid) {
    return joined(carry, shift(x, y), turned(turn), shift(-x, -y), copy.matrix, scaled(stand.sx, stand.sy));
  }
  const own = lean + base.turnDeg;
  return joined(
    carry, shift(x, y), turned(turn + own), scaled(stand.sx, stand.sy), turned(-own), shift(-x, -y), copy.matrix,
  );
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {number} across -1 left, 0 middle, 1 right
 * @param {number} along -1 upper, 0 middle, 1 lower
 * @returns {Point} that point of its box in the art frame
 */
export function boxPoint(copy, frame, across, along) {
  if (copy.rigid) return { x: (across * copy.width_mm) / 2, y: (along * copy.height_mm) / 2 };
  const { width, height } = spread(copy, frame);
  const a = (across * width) / 2;
  const b = (-along * height) / 2;
  const cos = Math.cos(copy.turn_deg * RAD);
  const sin = Math.sin(copy.turn_deg * RAD);
  return frame.bent(frame.turnOf(copy.at_deg), copy.up_mm, a * cos + b * sin, -a * sin + b * cos);
}

/** @type {WeakMap<CopyView, {width: number, height: number}>} */
const spreads = new WeakMap();

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @returns {{width: number, height: number}} its size as this frame shows it: a straightened taper widens what lies
 *   low and narrows what lies high
 */
export function spread(copy, frame) {
  if (copy.rigid) {
    const [a, b, c, d] = copy.matrix;
    return { width: copy.width_mm * Math.hypot(a, b), height: copy.height_mm * Math.hypot(c, d) };
  }
  const own = { width: copy.width_mm, height: copy.height_mm };
  if (frame.view.kind !== "straight" || copy.turn_deg !== 0) return own;
  const known = spreads.get(copy);
  if (known) return known;
  const points = runs(copy.border).flat();
  if (points.length === 0) return own;
  const reach = (/** @type {number[]} */ all) => Math.max(...all) - Math.min(...all);
  const seen = { width: reach(points.map(({ x }) => x)), height: reach(points.map(({ y }) => y)) };
  spreads.set(copy, seen);
  return seen;
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand
 * @returns {{across: number, along: number}} half of its box as it stands turned, mm along the level and along the wall
 */
export function halves(copy, frame, stand) {
  const cos = Math.abs(Math.cos(stand.turnDeg * RAD));
  const sin = Math.abs(Math.sin(stand.turnDeg * RAD));
  const size = spread(copy, frame);
  const width = (size.width * stand.sx) / 2;
  const height = (size.height * stand.sy) / 2;
  return { across: width * cos + height * sin, along: width * sin + height * cos };
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand
 * @returns {number} half of its width in degrees round the blank at its centre's height
 */
export function halfTurn(copy, frame, stand) {
  const { across } = halves(copy, frame, stand);
  const level = (360 * across) / frame.turnLength(stand.up);
  if (copy.lay === "level" || !frame.sector) return level;
  // A rigid copy's edge is a chord's end, seen from the apex.
  return (360 / Math.abs(frame.theta)) * Math.atan((level / 360) * Math.abs(frame.theta));
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand
 * @returns {number[]} the whole turns at which some of it may show, the overlap included
 */
export function lapsOf(copy, frame, stand) {
  if (copy.fixed) return copy.laps;
  if (frame.view.plate) return [0]; // nothing goes round
  // On a sector its far corners reach round further than its middle.
  const corner = Math.hypot(copy.width_mm * stand.sx, copy.height_mm * stand.sy) / 2;
  const nearest = Math.max(1, Math.min(frame.turnLength(stand.up), frame.lower, frame.turnLength(frame.height)));
  const half = Math.min(360, (360 * corner) / nearest);
  const over = (360 * Math.max(0, frame.view.overlap_mm)) / nearest;
  const laps = [];
  for (let lap = -2; lap <= 2; lap += 1) {
    const turn = stand.turn + 360 * lap;
    if (turn + half > 0 && turn - half < 360 + over) laps.push(lap);
  }
  return laps;
}
