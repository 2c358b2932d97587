/**
 * From where the pointer is to how the copy stands: moving, sizing, turning. Points are canvas mm at the copy's own lap.
 *
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../matrix.js").Point} Point
 * @typedef {import("../shown/grips.js").Spot} Spot
 */

import { carried, turned } from "../matrix.js";
import { spread } from "../stand.js";

const LEAST_MM = 1;
const STEP_DEG = 15;
const PULL_DEG = 3;

/** @param {Point} one @param {Point} other @returns {Point} */
function minus(one, other) {
  return { x: one.x - other.x, y: one.y - other.y };
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} start
 * @param {Point} from where it was taken
 * @param {Point} to where the pointer is
 * @returns {Stand} moved so that the point taken stays under the pointer: round about the apex, up along the radius
 */
export function moved(copy, frame, start, from, to) {
  const taken = frame.read(from.x, from.y);
  const now = frame.read(to.x, to.y);
  let turn = start.turn + now.turn - taken.turn;
  let up = start.up + now.up - taken.up;
  if (frame.sector && copy.lay !== "level") {
    // A rigid copy leans as it goes round, and the point taken with it: three rounds settle both to micrometres.
    const { x, y, lean } = frame.placeTurn(start.turn, start.up);
    const arm = carried(turned(-lean), from.x - x, from.y - y);
    for (let round = 0; round < 3; round += 1) {
      const reach = carried(turned(frame.lean(turn)), arm.x, arm.y);
      ({ turn, up } = frame.read(to.x - reach.x, to.y - reach.y));
    }
  }
  return { ...start, turn, up };
}

/**
 * @param {Frame} frame
 * @param {Stand} start
 * @param {Stand} stand
 * @returns {"round" | "up"} the way it went further
 */
export function mainWay(frame, start, stand) {
  const round = (Math.abs(stand.turn - start.turn) / 360) * frame.turnLength(start.up);
  return round >= Math.abs(stand.up - start.up) ? "round" : "up";
}

/**
 * @param {Frame} frame
 * @param {Stand} start
 * @param {Point} from
 * @param {Point} to
 * @param {{free: boolean, stepped: boolean}} how `free` is never drawn to a step, `stepped` always
 * @returns {{stand: Stand, step: number | null}} turned about its centre; `step` is the multiple of 15 it was drawn to
 */
export function turnedTo(frame, start, from, to, { free, stepped }) {
  const { x, y } = frame.placeTurn(start.turn, start.up);
  const angle = (/** @type {Point} */ point) => (Math.atan2(point.y - y, point.x - x) * 180) / Math.PI;
  const turnDeg = start.turnDeg + angle(to) - angle(from);
  const step = STEP_DEG * Math.round(turnDeg / STEP_DEG);
  if (!free && (stepped || Math.abs(turnDeg - step) <= PULL_DEG)) return { stand: { ...start, turnDeg: step }, step };
  return { stand: { ...start, turnDeg: rounded(turnDeg, 0.1) }, step: null };
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} start
 * @param {Point} from
 * @param {Point} to
 * @param {Spot} spot the grip taken
 * @param {boolean} keep whether the proportion stays
 * @returns {Stand} sized about its centre, so that what stands on a line goes on standing on it
 */
export function sizedTo(copy, frame, start, from, to, spot, keep) {
  const { x, y, lean } = frame.placeTurn(start.turn, start.up);
  const back = turned(-(lean + start.turnDeg));
  const own = (/** @type {Point} */ point) => carried(back, point.x - x, point.y - y);
  const { width, height } = spread(copy, frame);
  const corner = { x: (spot.across * width * start.sx) / 2, y: (spot.along * height * start.sy) / 2 };
  const pulled = minus(own(to), minus(own(from), corner));
  const least = LEAST_MM / Math.min(copy.width_mm * start.sx, copy.height_mm * start.sy);
  if (keep) {
    const far = corner.x * corner.x + corner.y * corner.y;
    const factor = Math.max(least, (pulled.x * corner.x + pulled.y * corner.y) / far);
    return { ...start, sx: start.sx * factor, sy: start.sy * factor };
  }
  const factor = (/** @type {number} */ a, /** @type {number} */ b) => (b === 0 ? 1 : Math.max(least, a / b));
  return { ...start, sx: start.sx * factor(pulled.x, corner.x), sy: start.sy * factor(pulled.y, corner.y) };
}

/** @param {number} figure @param {number} step @returns {number} the nearest multiple, without dust */
export function rounded(figure, step) {
  return Number((Math.round(figure / step) * step).toFixed(6)) + 0;
}

/**
 * @param {CopyView} copy
 * @param {Stand} stand
 * @param {number} grain mm
 * @returns {Stand} its width a whole number of grains, its height by the same factor
 */
export function evenSize(copy, stand, grain) {
  const width = copy.width_mm * stand.sx;
  const factor = Math.max(grain, rounded(width, grain)) / width;
  return { ...stand, sx: stand.sx * factor, sy: stand.sy * factor };
}
