/**
 * What the drawn lines of a wrap say of places: their ends, the safe margin, the box of a keep-out.
 *
 * @typedef {import("./frame.js").Frame} Frame
 * @typedef {{kind: string, name: string, at_deg: number | null, d: string}} LineView
 * @typedef {{turn: number, up: number}} Spot
 */

/** How many figures a command takes, and which two of them are its end; the letters of SVG's paths. */
const COUNT = { m: 2, l: 2, t: 2, c: 6, s: 4, q: 4, a: 7, h: 1, v: 1, z: 0 };

/**
 * @param {string} d a path as SVG writes it
 * @returns {{x: number, y: number}[][]} the points its pieces run through, a list a subpath
 */
export function runs(d) {
  /** @type {{x: number, y: number}[][]} */
  const out = [];
  let [x, y] = [0, 0];
  for (const [, word, rest] of d.matchAll(/([a-df-z])([^a-df-z]*)/gi)) {
    const kind = /** @type {keyof typeof COUNT} */ (word.toLowerCase());
    const relative = word === kind;
    const count = COUNT[kind] ?? 0;
    const figures = (rest.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []).map(Number);
    if (kind === "m") out.push([]);
    if (kind === "z") ({ x, y } = out[out.length - 1]?.[0] ?? { x, y });
    for (let i = 0; count > 0 && i + count <= figures.length; i += count) {
      const end = figures[i + count - 1];
      const base = relative ? { x, y } : { x: 0, y: 0 };
      if (kind === "v") y = base.y + end;
      else if (kind === "h") x = base.x + end;
      else [x, y] = [base.x + figures[i + count - 2], base.y + end];
      out[out.length - 1]?.push({ x, y });
    }
  }
  return out.filter((run) => run.length > 0);
}

/**
 * @param {LineView} line
 * @param {Frame} frame
 * @returns {Spot[]} the highest point of each of its pieces, where its name is written
 */
export function heads(line, frame) {
  return runs(line.d).map((run) => {
    const spots = run.map(({ x, y }) => frame.read(x, y));
    return spots.reduce((best, spot) => (spot.up > best.up ? spot : best));
  });
}

/**
 * @param {string} d
 * @param {Frame} frame
 * @returns {{low: number, high: number, left: number, right: number} | null} its reach: mm up, and mm along the level
 *   from the paper's left end
 */
export function reach(d, frame) {
  const spots = runs(d).flat().map(({ x, y }) => frame.read(x, y));
  if (spots.length === 0) return null;
  const ups = spots.map((spot) => spot.up);
  const across = spots.map((spot) => frame.fromLeft(spot.turn, spot.up));
  return {
    low: Math.min(...ups), high: Math.max(...ups), left: Math.min(...across), right: Math.max(...across),
  };
}

/**
 * @param {Frame} frame
 * @param {LineView[]} lines
 * @returns {number} width in mm of the safe margin, 0 without one
 */
export function safeMargin(frame, lines) {
  const safe = lines.find((line) => line.kind === "safe");
  const found = safe && reach(safe.d, frame);
  return found ? Math.max(0, found.low) : 0;
}
