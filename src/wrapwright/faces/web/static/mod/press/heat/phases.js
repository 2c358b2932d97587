// What a heat is now, between two answers of the server; and how that is said.

import { countDown, countUp, inWords, pieces } from "../watch/time.js";

/** @typedef {"preheat" | "loading" | "dwell" | "unload" | "cool" | "look" | "ended"} Phase */
/** @typedef {{cause: string, words: string, share: number, because: string[], change: string}} Cause */
/** @typedef {{place: number, piece: string, result: string, note: string, causes: Cause[]}} Piece */
/** @typedef {{kind: string, seconds: number | null, words: string}} Offer */
/**
 * @typedef {{now: number | null, now_low: number | null, now_high: number | null, planned_low: number | null,
 *   planned_mid: number | null, planned_high: number | null, target: number | null, by: string,
 *   air_c: number | null, coating_c: number | null}} DoseTold
 */
/** @typedef {{number: number, kind: string, at: string, words: string}} Happened */
/**
 * @typedef {{id: number, revision: number, heater: {id: number, name: string, kind: string},
 *   recipe: {name: string, version: number, title: string}, phase: Phase, soak: boolean, now: string,
 *   phase_began: string, phase_ends: string | null, remaining_s: number | null, over_s: number | null, set_c: number,
 *   dwell_s: number, preheat_s: number, cool_s: number, door_open: boolean, turn_at_s: number[], pieces: Piece[],
 *   events: Happened[], dose: DoseTold, words: string[], cautions: {text: string, grave: boolean}[],
 *   offers: Offer[], started: string, loaded: string | null, out: string | null, soak_s: number | null, in_s: number}} Heat
 */
/**
 * @typedef {{phase: Phase, soak: boolean, left: number | null, over: number | null, since: number, whole: number | null,
 *   turn: "none" | "ahead" | "due", presumed: boolean}} Seen left, over, since and whole (of the phase) in seconds;
 *   presumed: the end has passed since the server's last word
 */

// What comes by itself when a phase's time has run out.
const NEXT = /** @type {Record<string, Phase>} */ ({ dwell: "unload", cool: "look" });

/**
 * What a heat is at a moment, from the server's last word of it.
 * @param {Heat} heat
 * @param {number} now the server's time, in ms
 * @returns {Seen}
 */
export function seen(heat, now) {
  const began = Date.parse(heat.phase_began);
  const end = heat.phase_ends === null ? null : Date.parse(heat.phase_ends);
  const passed = heat.phase === "unload" ? (end ?? began) : end;
  const over = passed !== null && now >= passed ? (now - passed) / 1000 : null;
  const next = over !== null ? NEXT[heat.phase] : undefined;
  const since = ((next && end !== null ? end : began) - now) / -1000;
  const inside = heat.loaded === null ? 0 : (now - Date.parse(heat.loaded)) / 1000;
  return {
    phase: next ?? heat.phase,
    soak: heat.soak || (heat.phase === "dwell" && heat.soak_s !== null && inside >= heat.soak_s),
    left: end !== null && over === null ? (end - now) / 1000 : null,
    over: (next ?? heat.phase) === "look" ? null : over,
    since: Math.max(0, since),
    whole: end === null ? null : (end - began) / 1000,
    turn: heat.phase === "dwell" && !next ? turn(heat, inside) : "none",
    presumed: next !== undefined,
  };
}

/**
 * Whether a turn of the pieces comes, or is due.
 * @param {Heat} heat @param {number} inside seconds since the door closed
 */
function turn(heat, inside) {
  const done = heat.events.filter((one) => one.kind === "turned").length;
  if (done >= heat.turn_at_s.length) return "none";
  return inside >= heat.turn_at_s[done] ? "due" : "ahead";
}

/** Seconds from the door's closing to the next turn, or null. @param {Heat} heat */
export function nextTurn(heat) {
  const done = heat.events.filter((one) => one.kind === "turned").length;
  return heat.turn_at_s[done] ?? null;
}

/** The phase in a word or two, readable from afar. @param {Heat} heat @param {Seen} now */
export function phaseWord(heat, now) {
  const press = heat.heater.kind !== "oven";
  switch (now.phase) {
    case "preheat": return now.over === null ? "Preheating" : "Should be hot";
    case "loading": return press ? "Close the press" : "Load now";
    case "dwell": return now.turn === "due" ? "Turn now" : now.soak ? "Soak" : "Warming up";
    case "unload": return "Take out now";
    case "cool": return "Cooling";
    case "look": return "Look";
    default: return "Ended and kept";
  }
}

/** The big figure: what is left or is to come, with a plus what is over, else what has passed. @param {Heat} heat @param {Seen} now */
export function bigFigure(heat, now) {
  if (now.phase === "loading") return countDown(heat.dwell_s);
  if (now.phase === "look" || now.phase === "ended") return "";
  if (now.over !== null) return `+${countUp(now.over)}`;
  return now.left !== null ? countDown(now.left) : countUp(now.since);
}

/** What the big figure counts. @param {Heat} heat @param {Seen} now */
export function figureWord(heat, now) {
  if (now.phase === "loading") return `counts from the ${heat.heater.kind === "oven" ? "door" : "press"}’s closing · loading for ${countUp(now.since)}`;
  if (now.over !== null) return now.phase === "preheat" ? "past the estimate" : "over";
  if (now.left === null) return "so far";
  return now.phase === "preheat" ? "to go, an estimate" : "to go";
}

/** A phase's beginning, spoken. @param {Heat} heat @param {Seen} now */
export function spoken(heat, now) {
  const left = now.left === null ? "" : ` ${inWords(now.left)} to go.`;
  return `${heat.heater.name}: ${phaseWord(heat, now)}.${left} ${pieces(heat.pieces.length)}.`;
}
