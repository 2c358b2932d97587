/**
 * The copies on the wrap as they lie this moment: with the drag in hand, their borders, and which one is under a point.
 */

import { carried, joined, undone } from "../canvas/matrix.js";
import { lapsOf as lapsWhere, matrixOf as matrixWhere, standOf, standOfChange } from "../canvas/stand.js";

/**
 * @typedef {import("../canvas/matrix.js").Matrix} Matrix
 * @typedef {import("../canvas/frame.js").Frame} Frame
 * @typedef {import("./held.js").Changing} Changing
 */

const STEPS = 96;
/** @type {Map<string, Path2D>} */
const paths = new Map();
/** @type {Map<string, {x: number, y: number}[][]>} */
const lines = new Map();
const MOST_KEPT = 400;

function kept(cache, key, make) {
  let found = cache.get(key);
  if (found === undefined) {
    if (cache.size >= MOST_KEPT) {
      cache.clear();
    }
    found = make();
    cache.set(key, found);
  }
  return found;
}

/** @param {string} d @returns {Path2D} */
export function pathOf(d) {
  return kept(paths, d, () => new Path2D(d));
}

/** @param {any} copy @param {Changing | null} changing @returns {{at: number, up: number}} its centre now */
export function centreOf(copy, changing) {
  return changing && changing.key === copy.key
    ? { at: changing.at_deg, up: changing.up_mm }
    : { at: copy.at_deg, up: copy.up_mm };
}

/** @returns {import("../canvas/stand.js").Stand} how it stands, with what is changing on it */
function standNow(frame, copy, changing) {
  return changing && changing.key === copy.key ? standOfChange(changing, copy, frame) : standOf(copy, frame);
}

/** @param {Frame} frame @param {any} copy @param {Changing | null} changing @returns {Matrix} art frame -> canvas */
export function matrixOf(frame, copy, changing) {
  return matrixWhere(copy, frame, standNow(frame, copy, changing));
}

/** @param {Frame} frame @param {any} copy @param {Changing | null} changing @returns {Matrix[]} one a lap it shows at */
export function lapsOf(frame, copy, changing) {
  const stand = standNow(frame, copy, changing);
  const matrix = matrixWhere(copy, frame, stand);
  const laps = changing && changing.key === copy.key ? lapsWhere(copy, frame, stand) : copy.laps;
  return laps.map((n) => (n === 0 ? matrix : joined(frame.lap(n), matrix)));
}

/** @param {string} d a border in the art frame @returns {{x: number, y: number}[][]} its lines as close points */
export function pointsOf(d) {
  return kept(lines, d, () => {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", d);
    let length = 0;
    try {
      length = path.getTotalLength();
    } catch {
      return [];
    }
    const step = length / STEPS;
    const found = [[]];
    for (let i = 0; length > 0 && i <= STEPS; i += 1) {
      const { x, y } = path.getPointAtLength(Math.min(length, i * step));
      const line = found[found.length - 1];
      const last = line[line.length - 1];
      if (last && Math.hypot(x - last.x, y - last.y) > 1.5 * step) {
        found.push([{ x, y }]);
      } else {
        line.push({ x, y });
      }
    }
    return found.filter((line) => line.length > 1);
  });
}

/**
 * @param {Frame} frame
 * @param {any} copy
 * @param {Changing | null} changing
 * @returns {{turn: number, at: number, up: number}[][]} its border on the wall
 */
export function borderOnWall(frame, copy, changing) {
  const matrix = matrixOf(frame, copy, changing);
  return pointsOf(copy.border).map((line) => line.map(({ x, y }) => {
    const place = carried(matrix, x, y);
    return frame.read(place.x, place.y);
  }));
}

/**
 * @param {Frame} frame
 * @param {any} copy
 * @param {Changing | null} changing
 * @returns {{from: number, to: number}} degrees right of its centre that it covers, `from` below 0
 */
export function spanOf(frame, copy, changing) {
  const { at } = centreOf(copy, changing);
  const offs = borderOnWall(frame, copy, changing).flat().map(({ turn }) => turn);
  if (offs.length) {
    const middle = frame.turnOf(at);
    const lap = 360 * Math.round(((Math.min(...offs) + Math.max(...offs)) / 2 - middle) / 360);
    return { from: Math.min(...offs) - middle - lap, to: Math.max(...offs) - middle - lap };
  }
  const half = (180 * copy.width_mm) / frame.turnLength(copy.up_mm);
  return { from: -half, to: half };
}

/** @type {CanvasRenderingContext2D | null} */
let measuring = null;

/**
 * The topmost copy whose border holds a place on the wall.
 *
 * @param {Frame} frame
 * @param {any[]} copies bottom to top
 * @param {{at: number, up: number}} place
 * @param {Changing | null} changing
 * @returns {any | null}
 */
export function copyAt(frame, copies, place, changing) {
  measuring ??= document.createElement("canvas").getContext("2d");
  const { x, y } = frame.place(place.at, place.up);
  for (let i = copies.length - 1; i >= 0; i -= 1) {
    const copy = copies[i];
    const path = pathOf(copy.border);
    for (const matrix of lapsOf(frame, copy, changing)) {
      const own = carried(undone(matrix), x, y);
      if (measuring?.isPointInPath(path, own.x, own.y, "nonzero")) {
        return copy;
      }
    }
  }
  return null;
}

