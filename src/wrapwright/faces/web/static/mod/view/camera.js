/**
 * Where the eye is, and what it sees: from space to the stage's pixels and back along a ray to the wall.
 */

import { wholeTurn } from "../canvas/frame.js";

const RAD = Math.PI / 180;
export const LOWEST = -12;
export const HIGHEST = 55;
export const LEVEL = 14;
/** The eye's distance, in sizes of the piece: near enough for depth, far enough to look calm. */
const AWAY = 5.5;
const AIR = { side: 10, top: 12, foot: 26 };

/**
 * @typedef {{x: number, y: number, z: number}} Point
 * @typedef {import("./shape.js").Shape} Shape
 * @typedef {{at: number, s: number, t: number}} Hit `s` is the position along the wall
 */

/** An eye that looks at the piece's middle from the side `facing`, `tilt` degrees from above. */
export class Camera {
  /**
   * @param {Shape} shape
   * @param {{width: number, height: number, facing: number, tilt: number}} seat stage in CSS pixels, degrees
   */
  constructor(shape, { width, height, facing, tilt }) {
    this.width = width;
    this.height = height;
    this.tilt = tilt;
    const [sf, cf] = [Math.sin(facing * RAD), Math.cos(facing * RAD)];
    const [st, ct] = [Math.sin(tilt * RAD), Math.cos(tilt * RAD)];
    this.right = { x: cf, y: 0, z: -sf };
    this.up = { x: -sf * st, y: ct, z: -cf * st };
    this.back = { x: sf * ct, y: st, z: cf * ct };
    this.middle = (shape.low + shape.high) / 2;
    this.away = AWAY * Math.hypot((shape.high - shape.low) / 2, shape.reach);
    this.eye = {
      x: this.back.x * this.away, y: this.middle + this.back.y * this.away, z: this.back.z * this.away,
    };
    this.scale = 1;
    this.drop = 0;
    this.fit(shape, st, ct);
  }

  /** One scale for every side, so that the piece does not breathe while it turns. */
  fit(shape, st, ct) {
    const seen = [];
    const table = 1.16 * shape.radius;
    for (const [y, r] of [[shape.low, table], [shape.low, shape.footRadius], [shape.high, shape.rings.at(-1).r]]) {
      seen.push(this.rise(y, r, st, ct), this.rise(y, -r, st, ct));
    }
    for (const { y, r } of shape.rings) {
      seen.push(this.rise(y, r, st, ct), this.rise(y, -r, st, ct));
    }
    const top = Math.max(...seen);
    const low = Math.min(...seen);
    const reach = Math.max(shape.reach, 1.3 * shape.radius);
    const wide = reach / Math.sqrt(this.away ** 2 - reach ** 2); // where it stands out most as it turns
    const free = { x: this.width - 2 * AIR.side, y: this.height - AIR.top - AIR.foot };
    this.scale = Math.max(1, Math.min(free.x / (2 * wide), free.y / (top - low)));
    this.drop = AIR.top + free.y / 2 + (this.scale * (top + low)) / 2;
  }

  /** @returns {number} how high a point straight before (r > 0) or behind the axis is seen, at scale 1 */
  rise(y, r, st, ct) {
    const high = y - this.middle;
    return (high * ct - r * st) / (this.away - high * st - r * ct);
  }

  /** @param {Point} point @returns {{x: number, y: number, depth: number}} CSS pixels from the stage's upper left */
  project({ x, y, z }) {
    const high = y - this.middle;
    const across = x * this.right.x + z * this.right.z;
    const rise = x * this.up.x + high * this.up.y + z * this.up.z;
    const depth = this.away - (x * this.back.x + high * this.back.y + z * this.back.z);
    return {
      x: this.width / 2 + (this.scale * across) / depth,
      y: this.drop - (this.scale * rise) / depth,
      depth,
    };
  }

  /** @param {number} x @param {number} y @returns {{from: Point, way: Point}} the ray through a pixel */
  ray(x, y) {
    const across = (x - this.width / 2) / this.scale;
    const rise = (this.drop - y) / this.scale;
    const along = (axis) => this.right[axis] * across + this.up[axis] * rise - this.back[axis];
    return { from: this.eye, way: { x: along("x"), y: along("y"), z: along("z") } };
  }

  /** @returns {Float32Array} the 4 x 4 matrix from space to clip space, columns first */
  matrix() {
    const { right, up, back, middle, away, scale, width, height, drop } = this;
    const near = 0.5 * away;
    const far = 1.6 * away;
    const sx = (2 * scale) / width;
    const sy = (2 * scale) / height;
    const lift = 1 - (2 * drop) / height; // where the middle of the piece is, in clip space
    const a = (far + near) / (near - far);
    const b = (2 * far * near) / (near - far);
    const column = (axis) => {
      const depth = -back[axis];
      return [sx * right[axis], sy * up[axis] + lift * depth, -a * depth, depth];
    };
    const shift = (c, i) => -middle * c[i];
    const [cx, cy, cz] = [column("x"), column("y"), column("z")];
    return new Float32Array([
      ...cx, ...cy, ...cz,
      shift(cy, 0), shift(cy, 1) + lift * away, shift(cy, 2) - a * away + b, shift(cy, 3) + away,
    ]);
  }
}

/** @param {number} at @param {number} y @param {number} r @returns {Point} */
export function inSpace(at, y, r) {
  return { x: r * Math.sin(at * RAD), y, z: r * Math.cos(at * RAD) };
}

/**
 * Where a ray first meets the outside of the wall.
 *
 * Between two readings the wall is part of a cone: r = r0 + k (y - y0), a quadratic in the ray's length.
 *
 * @param {[number, number, number][]} wall (height, radius, position along the wall)
 * @param {{from: Point, way: Point}} ray
 * @returns {Hit | null}
 */
export function wallHit(wall, { from, way }) {
  /** @type {Hit | null} */
  let best = null;
  for (let i = 0; i + 1 < wall.length; i += 1) {
    const [y0, r0, s0] = wall[i];
    const [y1, r1, s1] = wall[i + 1];
    const slope = (r1 - r0) / (y1 - y0);
    for (const t of meetings(from, way, r0 + slope * (from.y - y0), slope)) {
      const y = from.y + t * way.y;
      if (t > 0 && y >= y0 && y <= y1 && (!best || t < best.t)) {
        const [x, z] = [from.x + t * way.x, from.z + t * way.z];
        const share = (y - y0) / (y1 - y0);
        const outwards = x * way.x + z * way.z - slope * Math.hypot(x, z) * way.y;
        if (outwards < 0) {
          best = { at: wholeTurn(Math.atan2(x, z) / RAD), s: s0 + share * (s1 - s0), t };
        }
      }
    }
  }
  return best;
}

/**
 * Where a ray meets the handle: balls along its middle line, near enough for a pointer.
 *
 * @param {import("./shape.js").Tube} tube
 * @param {{from: Point, way: Point}} ray
 * @returns {number} the ray's length there, infinite where it passes
 */
export function tubeHit({ points, at }, { from, way }) {
  const square = way.x * way.x + way.y * way.y + way.z * way.z;
  let best = Infinity;
  for (const { r, y, half } of points) {
    const ball = inSpace(at, y, r);
    const [x, h, z] = [from.x - ball.x, from.y - ball.y, from.z - ball.z];
    const b = x * way.x + h * way.y + z * way.z;
    const root = b * b - square * (x * x + h * h + z * z - half * half);
    if (root > 0) {
      best = Math.min(best, (-b - Math.sqrt(root)) / square);
    }
  }
  return best;
}

/** @returns {number[]} the ray's lengths at which x² + z² = (base + slope t way.y)² */
function meetings(from, way, base, slope) {
  const k = slope * way.y;
  const a = way.x * way.x + way.z * way.z - k * k;
  const b = from.x * way.x + from.z * way.z - base * k;
  const c = from.x * from.x + from.z * from.z - base * base;
  const root = b * b - a * c;
  if (root < 0 || a === 0) {
    return [];
  }
  const span = Math.sqrt(root);
  return [(-b - span) / a, (-b + span) / a];
}
