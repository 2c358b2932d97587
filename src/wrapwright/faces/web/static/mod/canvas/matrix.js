/**
 * Plane matrices [a, b, c, d, e, f] as in SVG: x' = a x + c y + e, y' = b x + d y + f.
 *
 * @typedef {[number, number, number, number, number, number]} Matrix
 * @typedef {{x: number, y: number}} Point
 */

/** @type {Matrix} */
export const SAME = [1, 0, 0, 1, 0, 0];

/**
 * The motion that does the last one first, as matrices are written.
 * @param {...Matrix} matrices
 * @returns {Matrix}
 */
export function joined(...matrices) {
  let [a, b, c, d, e, f] = SAME;
  for (const [p, q, r, s, t, u] of matrices) {
    [a, b, c, d, e, f] = [
      a * p + c * q, b * p + d * q,
      a * r + c * s, b * r + d * s,
      a * t + c * u + e, b * t + d * u + f,
    ];
  }
  return [a, b, c, d, e, f];
}

/** @param {number} x @param {number} y @returns {Matrix} */
export function shift(x, y) {
  return [1, 0, 0, 1, x, y];
}

/** @param {number} degrees clockwise as seen, y being down @returns {Matrix} */
export function turned(degrees) {
  const angle = (degrees * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return [cos, sin, -sin, cos, 0, 0];
}

/** @param {number} x @param {number} y @returns {Matrix} */
export function scaled(x, y) {
  return [x, 0, 0, y, 0, 0];
}

/** @param {Matrix} m @returns {Matrix} what undoes `m` */
export function undone([a, b, c, d, e, f]) {
  const area = a * d - b * c;
  return [d / area, -b / area, -c / area, a / area, (c * f - d * e) / area, (b * e - a * f) / area];
}

/** @param {Matrix} m @param {number} x @param {number} y @returns {Point} */
export function carried([a, b, c, d, e, f], x, y) {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/** @param {Matrix} m @returns {string} for a `transform` attribute */
export function written(m) {
  return `matrix(${m.join(" ")})`;
}
