/**
 * The copies on the wrap as they lie this moment: with the drag in hand, their borders, and which one is under a point.
 */

import { carried, joined, scaled, shift, turned, undone } from "../canvas/matrix.js";

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

/**
 * From the copy's art frame to the canvas, with what is changing on it.
 *
 * A bent copy is carried as it is bent where it lay: exact again once the design's answer is there.
 *
 * @param {Frame} frame
 * @param {any} copy
 * @param {Changing | null} changing
 * @returns {Matrix}
 */
export function matrixOf(frame, copy, changing) {
  if (!changing || changing.key !== copy.key) {
    return copy.matrix;
  }
  const from = { at: copy.at_deg, up: copy.up_mm };
  const to = { at: changing.at_deg, up: changing.up_mm };
  const move = frame.move(from, to);
  const turn = turned(changing.turn_deg - copy.turn_deg);
  const size = scaled(changing.scale_x ?? 1, changing.scale_y ?? 1);
  if (copy.rigid) {
    return joined(move, copy.matrix, turn, size);
  }
  const { x, y, lean } = frame.place(copy.at_deg, copy.up_mm);
  const own = joined(shift(x, y), turned(lean + copy.turn_deg));
  return joined(move, own, turn, size, undone(own), copy.matrix);
}

/** @param {Frame} frame @param {any} copy @param {Changing | null} changing @returns {Matrix[]} one a lap it shows at */
export function lapsOf(frame, copy, changing) {
  const matrix = matrixOf(frame, copy, changing);
  const moved = changing && changing.key === copy.key;
  const laps = moved ? [0, 1, -1] : copy.laps?.length ? copy.laps : [0];
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
  let from = 0;
  let to = 0;
  for (const line of borderOnWall(frame, copy, changing)) {
    for (const { turn } of line) {
      const off = turn - frame.turnOf(at);
      const near = off - 360 * Math.round(off / 360);
      const one = Math.abs(off) <= 180 ? off : near;
      from = Math.min(from, one);
      to = Math.max(to, one);
    }
  }
  if (from === to) {
    const half = (180 * copy.width_mm * (changing?.key === copy.key ? changing.scale_x ?? 1 : 1))
      / frame.turnLength(centreOf(copy, changing).up);
    return { from: -half, to: half };
  }
  return { from, to };
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

