/**
 * Where things lie on the dial: the blank seen from above, its front towards the reader.
 *
 * Pixels of the drawing, the centre in the middle. The angle 0 is at the foot of the dial and grows to the right hand,
 * as one sees it when the front faces the reader.
 */

import { shortTurn } from "../canvas/frame.js";

const RAD = Math.PI / 180;
const LEAST_STEP = 9;
const MOST_STEP = 30;
const APART_DEG = 1.5;
const ROUND_STEP = 5;
const MOST_ROUND = 4;

/**
 * @typedef {{size: number, middle: number, words: number, scale: number, eye: number, wall: number, outer: number,
 *   inner: number}} Sizes radii in px; elements lie between `inner` and `outer`
 * @typedef {{key: string, from: number, to: number, at: number}} Span degrees, `from` and `to` relative to `at`
 */

/** @param {number} size of the square in px @param {number} round how many copies go all round @returns {Sizes} */
export function sizesOf(size, round) {
  const middle = size / 2;
  const wall = middle - 43;
  return {
    size, middle, words: middle - 8, scale: middle - 19, eye: middle - 32, wall,
    outer: wall - 6 - Math.min(MOST_ROUND, round) * ROUND_STEP, inner: Math.max(35, 0.26 * middle),
  };
}

/** @param {Sizes} sizes @param {number} i @returns {number} radius of the i-th thing that goes all round */
export function roundRing(sizes, i) {
  return sizes.wall - 6 - Math.min(MOST_ROUND - 1, i) * ROUND_STEP;
}

/** @param {Sizes} sizes @param {number} at @param {number} radius @returns {{x: number, y: number}} */
export function spot({ middle }, at, radius) {
  return { x: middle + radius * Math.sin(at * RAD), y: middle + radius * Math.cos(at * RAD) };
}

/** @param {Sizes} sizes @param {number} x @param {number} y @returns {{at: number, radius: number}} */
export function readSpot({ middle }, x, y) {
  return { at: Math.atan2(x - middle, y - middle) / RAD, radius: Math.hypot(x - middle, y - middle) };
}

function point(sizes, at, radius) {
  const { x, y } = spot(sizes, at, radius);
  return `${x.toFixed(2)} ${y.toFixed(2)}`;
}

/** @param {Sizes} sizes @param {number} radius @param {number} from @param {number} to @returns {string} SVG path */
export function arc(sizes, radius, from, to) {
  const turn = to - from;
  if (Math.abs(turn) >= 359.99) {
    const half = from + 180 * Math.sign(turn);
    return `${arc(sizes, radius, from, half)}${arc(sizes, radius, half, half + 180 * Math.sign(turn)).replace("M", "L")}`;
  }
  const large = Math.abs(turn) > 180 ? 1 : 0;
  return `M${point(sizes, from, radius)}A${radius} ${radius} 0 ${large} ${turn > 0 ? 0 : 1} ${point(sizes, to, radius)}`;
}

/** @param {Sizes} sizes @param {number} near @param {number} far radii @returns {string} a piece of ring */
export function sector(sizes, near, far, from, to) {
  const back = arc(sizes, near, to, from).replace("M", "L");
  return `${arc(sizes, far, from, to)}${back}Z`;
}

/** @param {Sizes} sizes @returns {string} a line along a radius */
export function spoke(sizes, at, near, far) {
  return `M${point(sizes, at, near)}L${point(sizes, at, far)}`;
}

/** @param {Sizes} sizes @returns {string} the ticks of the scale: each 5 degrees, longer each 15 and 90 */
export function ticks(sizes) {
  let d = "";
  for (let at = 0; at < 360; at += 5) {
    d += spoke(sizes, at, sizes.scale - (at % 90 === 0 ? 10 : at % 15 === 0 ? 7 : 4), sizes.scale);
  }
  return d;
}

/** @param {number} at @returns {number} degrees by which a word on the ring is turned so that it reads upright */
export function lean(at) {
  const off = shortTurn(at);
  return Math.abs(off) <= 90 ? -off : 180 - at;
}

/**
 * The level of each copy: the outermost where it meets no other.
 *
 * @param {Span[]} spans in the order in which they are to be placed
 * @returns {Map<string, number>} 0 is the outermost
 */
export function levelsOf(spans) {
  const levels = [];
  const found = new Map();
  for (const span of spans) {
    let level = levels.findIndex((others) => others.every((other) => !meet(span, other)));
    if (level < 0) {
      level = levels.push([]) - 1;
    }
    levels[level].push(span);
    found.set(span.key, level);
  }
  return found;
}

/** @param {Span} a @param {Span} b @returns {boolean} */
function meet(a, b) {
  const apart = shortTurn(b.at + (b.from + b.to) / 2 - a.at - (a.from + a.to) / 2);
  return Math.abs(apart) < (a.to - a.from + b.to - b.from) / 2 + APART_DEG;
}

/** @param {Sizes} sizes @param {number} level @param {number} count @returns {{near: number, far: number}} radii */
export function levelRing(sizes, level, count) {
  const room = sizes.outer - sizes.inner;
  const step = Math.min(MOST_STEP, Math.max(LEAST_STEP, room / Math.max(1, count)));
  const last = Math.max(0, Math.floor((room + 0.01) / step) - 1);
  const far = sizes.outer - Math.min(level, last) * step;
  return { near: far - step + 2.5, far };
}
