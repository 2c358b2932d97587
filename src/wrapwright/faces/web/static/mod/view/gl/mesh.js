/**
 * The piece as triangles, in the one vertex format of the painter.
 *
 * A vertex is 12 numbers: place (3), normal (3), place on the sheet (2, shares of its box), mm from the seam's line and
 * mm above the band's lower edge (2), light and gloss (2).
 */

import { WIDER } from "../shape.js";

export const STRIDE = 12;
const COLUMNS = 96;
const ROUND = 14;
const RAD = Math.PI / 180;

/**
 * @typedef {import("../shape.js").Shape} Shape
 * @typedef {{vertices: Float32Array, indices: Uint32Array}} Mesh
 * @typedef {{frame: import("../../canvas/frame.js").Frame, box: [number, number, number, number], from: number}} Lay
 *   how the flat picture lies on the wall; `from` is the wall position of the band's lower edge
 */

/** @param {Shape} shape @param {Lay | null} lay @returns {Mesh} */
export function meshOf(shape, lay) {
  const build = { numbers: [], indices: [], count: 0 };
  for (const strip of stripsOf(shape)) {
    addStrip(build, strip, lay);
  }
  if (shape.tube) {
    addTube(build, shape.tube);
  }
  return { vertices: new Float32Array(build.numbers), indices: new Uint32Array(build.indices) };
}

/** The outline cut at its creases; every ring with the normal of its own side of the crease. */
function stripsOf({ rings, creases }) {
  const normals = [];
  for (let i = 0; i + 1 < rings.length; i += 1) {
    const dr = rings[i + 1].r - rings[i].r;
    const dy = rings[i + 1].y - rings[i].y;
    const length = Math.hypot(dr, dy) || 1;
    normals.push({ r: dy / length, y: -dr / length });
  }
  const strips = [];
  let strip = [];
  rings.forEach((ring, i) => {
    const before = normals[i - 1] ?? normals[i];
    const after = normals[i] ?? before;
    if (creases.has(i) && i > 0 && i < rings.length - 1) {
      strips.push([...strip, { ...ring, normal: before }]);
      strip = [{ ...ring, normal: after }];
    } else {
      const r = before.r + after.r;
      const y = before.y + after.y;
      const length = Math.hypot(r, y) || 1;
      strip.push({ ...ring, normal: { r: r / length, y: y / length } });
    }
  });
  strips.push(strip);
  return strips;
}

function addStrip(build, strip, lay) {
  const start = build.count;
  for (const ring of strip) {
    for (let i = 0; i <= COLUMNS; i += 1) {
      addOnRing(build, ring, (360 * i) / COLUMNS, lay);
    }
  }
  const wide = COLUMNS + 1;
  for (let k = 0; k + 1 < strip.length; k += 1) {
    for (let i = 0; i < COLUMNS; i += 1) {
      const a = start + k * wide + i;
      build.indices.push(a, a + 1, a + wide, a + 1, a + wide + 1, a + wide);
    }
  }
}

/** One corner; columns begin at the seam, so that the picture's two ends meet there. */
function addOnRing(build, ring, turn, lay) {
  const at = ((lay ? lay.frame.seam : 0) + turn) * RAD;
  const [sin, cos] = [Math.sin(at), Math.cos(at)];
  const up = lay ? ring.s - lay.from : -1e4;
  const [u, v] = lay ? onSheet(lay, turn, Math.min(1e3, Math.max(-1e3, up))) : [0, 0];
  const way = lay ? (turn / 360) * lay.frame.turnLength(up) : 0;
  build.numbers.push(
    ring.r * sin, ring.y, ring.r * cos,
    ring.normal.r * sin, ring.normal.y, ring.normal.r * cos,
    u, v, way, up, ring.shade, ring.gloss,
  );
  build.count += 1;
}

/** @returns {[number, number]} shares of the picture's box */
function onSheet({ frame, box }, turn, up) {
  const { x, y } = frame.placeTurn(turn, up);
  return [(x - box[0]) / box[2], (y - box[1]) / box[3]];
}

function addTube(build, { points, at }) {
  const start = build.count;
  const [sin, cos] = [Math.sin(at * RAD), Math.cos(at * RAD)];
  points.forEach((point, i) => {
    const a = points[Math.max(0, i - 1)];
    const b = points[Math.min(points.length - 1, i + 1)];
    const length = Math.hypot(b.r - a.r, b.y - a.y) || 1;
    const out = { r: (b.y - a.y) / length, y: -(b.r - a.r) / length };
    const end = Math.min(i, points.length - 1 - i);
    addRound(build, point, out, { sin, cos, shade: Math.min(1, 0.72 + 0.07 * end) });
  });
  const wide = ROUND + 1;
  for (let i = 0; i + 1 < points.length; i += 1) {
    for (let k = 0; k < ROUND; k += 1) {
      const a = start + i * wide + k;
      build.indices.push(a, a + 1, a + wide, a + 1, a + wide + 1, a + wide);
    }
  }
}

/** One round of the handle: an ellipse across its middle line. */
function addRound(build, point, out, { sin, cos, shade }) {
  for (let k = 0; k <= ROUND; k += 1) {
    const angle = (2 * Math.PI * k) / ROUND;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const across = point.half * WIDER * s;
    const r = point.r + out.r * point.half * c;
    const length = Math.hypot(c, s / WIDER);
    const [nr, na] = [(out.r * c) / length, s / WIDER / length];
    build.numbers.push(
      r * sin + across * cos, point.y + out.y * point.half * c, r * cos - across * sin,
      nr * sin + na * cos, (out.y * c) / length, nr * cos - na * sin,
      0, 0, 0, -1e4, shade, 0.8,
    );
    build.count += 1;
  }
}
