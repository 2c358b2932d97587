/**
 * The piece in space: its outline turned round the axis, with a foot, a lip, an inside and the handle.
 *
 * Space is millimetres: y up, 0 at the wall's lower end; the angle `at` lies at (r sin at, y, r cos at). The wall is
 * measured. Lip, foot and handle are drawn, not measured, with the same figures as in the printed proof.
 */

/**
 * @typedef {{wall: [number, number, number][], band_from_mm: number, band_height_mm: number,
 *   handle: [number, number] | null, coating: string, read_deg: number}} Solid
 * @typedef {{y: number, r: number, s: number, shade: number, gloss: number}} Ring one round of the outline; `s` is the
 *   position along the wall, running on smoothly beyond its ends so that no print slips over them, `shade` how much
 *   light reaches it, `gloss` how much of the lamps it shows
 * @typedef {{rings: Ring[], creases: Set<number>, tube: Tube | null, radius: number, reach: number, low: number,
 *   high: number, footRadius: number}} Shape
 * @typedef {{points: {r: number, y: number, half: number}[], at: number}} Tube
 */

const LIP_STEPS = 8;
const FOOT_STEPS = 4;
const ROW_MM = 14;
export const WIDER = 1.3;
const WALL_GLOSS = 0.5;
const LIP_GLOSS = 1;

/** @param {Solid} solid @returns {Shape} */
export function shapeOf(solid) {
  const wall = solid.wall.map(([y, r, s]) => ({ y, r, s }));
  const first = wall[0];
  const last = wall[wall.length - 1];
  const thick = Math.min(3, 0.1 * Math.min(...wall.map(({ r }) => r)));
  /** @type {Ring[]} */
  const rings = [];
  const creases = new Set();
  const crease = () => creases.add(rings.length - 1);
  foot(first, thick, rings, crease);
  rings.push(...upTheWall(wall));
  lip(last, thick, rings);
  inside(wall, thick, rings, crease);
  const tube = solid.handle ? tubeOf(wall, solid.handle) : null;
  const radius = Math.max(...wall.map(({ r }) => r));
  const reach = tube ? Math.max(radius, ...tube.points.map(({ r, half }) => r + half)) : radius;
  const edge = footEdge(first.r);
  return {
    rings, creases, tube, radius, reach,
    low: first.y - edge, high: last.y + thick / 2, footRadius: first.r - edge,
  };
}

/** @param {number} r */
function footEdge(r) {
  return Math.min(3, 0.12 * r);
}

/** The underside, its standing ring and the rounded edge up to the wall. */
function foot(first, thick, rings, crease) {
  const edge = footEdge(first.r);
  const stand = first.r - edge;
  const under = (y, r, shade) => rings.push({
    y, r, shade, s: first.s - (edge * Math.PI) / 2 - (stand - r), gloss: 0.1,
  });
  under(first.y - edge + 1.2, 0, 0.42);
  under(first.y - edge + 1.2, stand - 1.6 * thick, 0.42);
  under(first.y - edge, stand - thick, 0.4);
  crease();
  for (let i = 0; i < FOOT_STEPS; i += 1) {
    const angle = (Math.PI / 2) * (1 - i / FOOT_STEPS);
    rings.push({
      y: first.y - edge * Math.sin(angle), r: first.r - edge * (1 - Math.cos(angle)), s: first.s - edge * angle,
      shade: 0.62 + 0.38 * (i / FOOT_STEPS), gloss: WALL_GLOSS,
    });
  }
}

/** @returns {Ring[]} the wall in low rows, so that a picture keeps its shape on a taper */
function upTheWall(wall) {
  const rows = [];
  for (let i = 0; i + 1 < wall.length; i += 1) {
    const [a, b] = [wall[i], wall[i + 1]];
    const steps = Math.max(1, Math.ceil((b.s - a.s) / ROW_MM));
    for (let k = 0; k < steps; k += 1) {
      rows.push(between(a, b, k / steps));
    }
  }
  rows.push(between(wall[wall.length - 1], wall[wall.length - 1], 0));
  return rows;
}

/** @returns {Ring} */
function between(a, b, share) {
  const mix = (from, to) => from + (to - from) * share;
  return { y: mix(a.y, b.y), r: mix(a.r, b.r), s: mix(a.s, b.s), shade: 1, gloss: WALL_GLOSS };
}

/** The rounded lip from the wall's top over to its inside. */
function lip(last, thick, rings) {
  const half = thick / 2;
  for (let i = 1; i <= LIP_STEPS; i += 1) {
    const angle = (Math.PI * i) / LIP_STEPS;
    rings.push({
      y: last.y + half * Math.sin(angle), r: last.r - half * (1 - Math.cos(angle)), s: last.s + half * angle,
      shade: i < LIP_STEPS * 0.7 ? 1 : 0.93, gloss: LIP_GLOSS,
    });
  }
}

/** The inside from the lip down to a floor with a rounded corner. Less light reaches what lies deeper. */
function inside(wall, thick, rings, crease) {
  const top = wall[wall.length - 1];
  const floor = Math.min(top.y * 0.5, wall[0].y + 4);
  const mouth = top.r - thick;
  const light = (y) => 0.34 + 0.54 * Math.exp(-(top.y - y) / (0.85 * mouth));
  const steps = 6;
  const corner = Math.min(8, 0.3 * mouth);
  const over = top.s + (Math.PI * thick) / 2;
  const push = (y, r) => rings.push({ y, r, s: over + (top.y - y) + (mouth - r), shade: light(y), gloss: 0.22 });
  for (let i = 1; i <= steps; i += 1) {
    const y = top.y - (top.y - floor - corner) * (i / steps) ** 1.4;
    push(y, radiusAt(wall, y) - thick);
  }
  const side = radiusAt(wall, floor + corner) - thick;
  for (let i = 1; i <= 4; i += 1) {
    const angle = (Math.PI / 2) * (i / 4);
    push(floor + corner * (1 - Math.sin(angle)), side - corner * (1 - Math.cos(angle)));
  }
  push(floor, 0);
  crease();
}

/** @param {{y: number, r: number}[]} wall @param {number} y @returns {number} */
function radiusAt(wall, y) {
  for (let i = 0; i + 1 < wall.length; i += 1) {
    if (y <= wall[i + 1].y) {
      const share = Math.max(0, (y - wall[i].y) / (wall[i + 1].y - wall[i].y));
      return wall[i].r + (wall[i + 1].r - wall[i].r) * share;
    }
  }
  return wall[wall.length - 1].r;
}

/** @param {{y: number, r: number, s: number}[]} wall @param {number} s @returns {{y: number, r: number}} */
export function atWall(wall, s) {
  let i = 0;
  while (i + 2 < wall.length && s > wall[i + 1].s) {
    i += 1;
  }
  const [a, b] = [wall[i], wall[i + 1]];
  const share = (s - a.s) / (b.s - a.s);
  return { y: a.y + (b.y - a.y) * share, r: a.r + (b.r - a.r) * share };
}

/** The handle's middle line in the plane through the axis, and its half thickness: a rounded D, fuller at its ends. */
function tubeOf(wall, [at, gap]) {
  const high = wall[wall.length - 1].s;
  const low = wall[0].s;
  const tall = Math.min(0.33 * (high - low), 48);
  const middle = low + 0.52 * (high - low);
  const [foot, head] = [atWall(wall, middle - tall), atWall(wall, middle + tall)];
  const reach = Math.min(34, Math.max(16, 0.95 * tall));
  const power = 2 / 2.7;
  const line = [];
  for (let i = 0; i <= 720; i += 1) {
    const angle = Math.PI * (i / 720 - 0.5);
    const up = Math.sign(angle) * Math.abs(Math.sin(angle)) ** power;
    const share = 0.5 * (up + 1);
    line.push({
      r: foot.r * (1 - share) + head.r * share - 1 + reach * Math.abs(Math.cos(angle)) ** power,
      y: foot.y * (1 - share) + head.y * share,
    });
  }
  const thin = Math.min(5.2, Math.max(2.2, 0.2 * gap));
  const full = Math.max(thin, Math.min((0.42 * gap) / WIDER, 1.8 * thin));
  return { at, points: evenly(line, 48, (near) => thin + (full - thin) * Math.exp(-((near / (1.6 * thin)) ** 2))) };
}

/** @returns {{r: number, y: number, half: number}[]} points spread evenly along a line */
function evenly(line, count, halfAt) {
  const along = [0];
  for (let i = 1; i < line.length; i += 1) {
    along.push(along[i - 1] + Math.hypot(line[i].r - line[i - 1].r, line[i].y - line[i - 1].y));
  }
  const length = along[along.length - 1];
  const points = [];
  let i = 0;
  for (let k = 0; k <= count; k += 1) {
    const want = (length * k) / count;
    while (i + 2 < line.length && along[i + 1] < want) {
      i += 1;
    }
    const share = along[i + 1] > along[i] ? (want - along[i]) / (along[i + 1] - along[i]) : 0;
    points.push({
      r: line[i].r + (line[i + 1].r - line[i].r) * share,
      y: line[i].y + (line[i + 1].y - line[i].y) * share,
      half: halfAt(Math.min(want, length - want)),
    });
  }
  return points;
}
