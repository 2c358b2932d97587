/**
 * What a copy in hand is drawn to: named lines, the band, the safe margin, other copies, the place opposite another.
 *
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../outline.js").LineView} LineView
 * @typedef {"centre" | "edge" | "both"} Part  which of the copy's lines it draws
 * @typedef {{turnAt: (up: number) => number, name: string, part: Part, opposite?: boolean, beside?: boolean}} RoundTarget
 * @typedef {{up: number, name: string, part: Part, beside?: boolean}} UpTarget
 * @typedef {{round: RoundTarget[], up: UpTarget[]}} Targets
 * @typedef {{axis: "round" | "up", turn?: number, up?: number, name: string, part: string, opposite: boolean}} Snap
 */

import { heads, reach, safeMargin } from "../outline.js";
import { halfTurn, halves, standOf } from "../stand.js";
import { shortTurn } from "../frame.js";

/**
 * @param {Frame} frame
 * @param {LineView[]} lines
 * @param {CopyView[]} copies
 * @param {string} key the copy in hand
 * @returns {Targets}
 */
export function targetsOf(frame, lines, copies, key) {
  /** @type {Targets} */
  const targets = { round: [], up: [] };
  for (const line of lines) addLine(targets, frame, line);
  addBand(targets, frame, safeMargin(frame, lines));
  for (const copy of copies) {
    if (copy.key !== key && !copy.fixed) addCopy(targets, frame, copy);
  }
  return targets;
}

/** @param {Targets} targets @param {Frame} frame @param {LineView} line */
function addLine(targets, frame, line) {
  if (line.kind === "side" || line.kind === "seam") {
    const turn = frame.turnOf(line.at_deg ?? 0);
    targets.round.push({ turnAt: () => turn, name: line.name, part: "both" });
  } else if (line.kind === "handle") {
    for (const head of heads(line, frame)) {
      const across = frame.fromLeft(head.turn, head.up);
      targets.round.push({ turnAt: strip(frame, across), name: line.name, part: "edge" });
    }
  } else if (line.kind === "keepout") {
    const found = reach(line.d, frame);
    if (!found) return;
    for (const across of [found.left, found.right]) {
      targets.round.push({ turnAt: strip(frame, across), name: line.name, part: "edge" });
    }
    for (const up of [found.low, found.high]) targets.up.push({ up, name: line.name, part: "edge" });
  }
}

/** @param {Frame} frame @param {number} across mm from the left end @returns {(up: number) => number} */
function strip(frame, across) {
  return (up) => (360 * (across + frame.view.gap_mm / 2)) / frame.turnLength(up);
}

/** @param {Targets} targets @param {Frame} frame @param {number} safe mm */
function addBand(targets, frame, safe) {
  targets.up.push({ up: frame.height / 2, name: "Middle", part: "both" });
  targets.up.push({ up: 0, name: "Lower edge", part: "edge" }, { up: frame.height, name: "Upper edge", part: "edge" });
  if (safe <= 0) return;
  const end = frame.view.gap_mm / 2 + safe;
  targets.up.push({ up: safe, name: "Safe margin", part: "edge" });
  targets.up.push({ up: frame.height - safe, name: "Safe margin", part: "edge" });
  for (const way of [1, -1]) {
    targets.round.push({ turnAt: (up) => (way * 360 * end) / frame.turnLength(up), name: "Safe margin", part: "edge" });
  }
}

/** @param {Targets} targets @param {Frame} frame @param {CopyView} copy */
function addCopy(targets, frame, copy) {
  const stand = standOf(copy, frame);
  const { along } = halves(copy, frame, stand);
  const half = halfTurn(copy, frame, stand);
  targets.round.push({ turnAt: () => stand.turn, name: `Centre of ${copy.name}`, part: "centre" });
  if (!frame.view.plate) {
    targets.round.push({ turnAt: () => stand.turn + 180, name: `Opposite ${copy.name}`, part: "centre", opposite: true });
  }
  for (const way of [-1, 1]) {
    targets.round.push({ turnAt: () => stand.turn + way * half, name: copy.name, part: "edge", beside: true });
    targets.up.push({ up: stand.up + way * along, name: copy.name, part: "edge", beside: true });
  }
  targets.up.push({ up: stand.up, name: `Centre of ${copy.name}`, part: "centre" });
}

// A centre wins over an edge that is a little nearer, and the wrap's own lines over another copy's edges.
const EDGE_COSTS = 1.25;
const BESIDE_COSTS = 1.7;

/**
 * @template T
 * @param {T[]} targets
 * @param {{part: string, offset: number}[]} parts of the copy, mm from its centre
 * @param {number} tolerance mm
 * @param {(target: T & {part: Part}) => number} gap mm from the copy's centre to the target
 * @returns {{target: T, part: string, offset: number, by: number} | null} the nearest, and how far to move
 */
function nearest(targets, parts, tolerance, gap) {
  let best = null;
  let least = Infinity;
  for (const target of /** @type {(T & {part: Part, beside?: boolean})[]} */ (targets)) {
    const far = gap(target);
    for (const { part, offset } of parts) {
      const kind = part === "centre" ? "centre" : "edge";
      if (target.part !== "both" && target.part !== kind) continue;
      const by = far - offset;
      const cost = Math.abs(by) * (kind === "centre" ? 1 : target.beside ? BESIDE_COSTS : EDGE_COSTS);
      if (Math.abs(by) > tolerance || cost >= least) continue;
      least = cost;
      best = { target: /** @type {T} */ (target), part, offset, by };
    }
  }
  return best;
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand where the hand has it
 * @param {Targets} targets
 * @param {number} tolerance mm
 * @param {"round" | "up" | ""} only the way it may move, "" for both
 * @returns {{stand: Stand, snaps: Snap[]}} where it goes to
 */
export function snapped(copy, frame, stand, targets, tolerance, only) {
  /** @type {Snap[]} */
  const snaps = [];
  let { turn, up } = stand;
  const { along } = halves(copy, frame, stand);
  if (only !== "round") {
    const parts = [["centre", 0], ["lower edge", -along], ["upper edge", along]];
    const found = nearest(targets.up, listed(parts), tolerance, (target) => target.up - stand.up);
    if (found) {
      // The target's own figure, not the hand's plus a difference, so that equal places are equal figures.
      up = found.part === "centre" ? found.target.up : stand.up + found.by;
      snaps.push({ axis: "up", up: found.target.up, name: found.target.name, part: found.part, opposite: false });
    }
  }
  if (only !== "up") {
    const a = frame.turnLength(up) / 360;
    const half = halfTurn(copy, frame, { ...stand, up }) * a;
    const parts = [["centre", 0], ["left edge", -half], ["right edge", half]];
    const gap = (/** @type {RoundTarget} */ target) => shortTurn(target.turnAt(up) - stand.turn) * a;
    const found = nearest(targets.round, listed(parts), tolerance, gap);
    if (found) {
      turn = stand.turn + found.by / a;
      if (found.part === "centre") turn = near(found.target.turnAt(up), turn);
      const line = turn + found.offset / a;
      const { name, opposite = false } = found.target;
      snaps.push({ axis: "round", turn: line, name, part: found.part, opposite });
    }
  }
  return { stand: { ...stand, turn, up }, snaps };
}

/** @param {(string | number)[][]} parts */
function listed(parts) {
  return parts.map(([part, offset]) => ({ part: String(part), offset: Number(offset) }));
}

/** @param {number} turn @param {number} to @returns {number} the same turn, whole turns away, nearest to another */
function near(turn, to) {
  return turn + 360 * Math.round((to - turn) / 360);
}

/**
 * @param {CopyView} copy
 * @param {Frame} frame
 * @param {Stand} stand as the hand has sized it
 * @param {Targets} targets
 * @param {number} tolerance mm
 * @returns {{factor: number, snaps: Snap[]}} what to multiply the size by so that an edge meets a line
 */
export function snappedSize(copy, frame, stand, targets, tolerance) {
  const { across, along } = halves(copy, frame, stand);
  const a = frame.turnLength(stand.up) / 360;
  const half = halfTurn(copy, frame, stand) * a;
  const round = nearest(
    targets.round, listed([["left edge", -half], ["right edge", half]]), tolerance,
    (target) => shortTurn(target.turnAt(stand.up) - stand.turn) * a,
  );
  const up = nearest(
    targets.up, listed([["lower edge", -along], ["upper edge", along]]), tolerance, (target) => target.up - stand.up,
  );
  if (round && (!up || Math.abs(round.by) <= Math.abs(up.by))) {
    const { name, opposite = false } = round.target;
    const line = stand.turn + (round.offset + round.by) / a;
    const wanted = Math.abs(round.offset + round.by);
    const chord = copy.lay === "level" || !frame.sector ? wanted : Math.tan((wanted / a) * (Math.abs(frame.theta) / 360))
      * (frame.turnLength(stand.up) / Math.abs(frame.theta));
    return { factor: chord / across, snaps: [{ axis: "round", turn: line, name, part: round.part, opposite }] };
  }
  if (!up) return { factor: 1, snaps: [] };
  const snap = { up: up.target.up, name: up.target.name, part: up.part, opposite: false };
  return { factor: Math.abs(up.offset + up.by) / along, snaps: [{ axis: "up", ...snap }] };
}
