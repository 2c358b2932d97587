// What hands can do in each phase, the likeliest first.

import { inWords } from "../watch/time.js";

const MORE_S = 30;
const LEAST_S = 5;

/** @typedef {import("./phases.js").Heat} Heat */
/** @typedef {import("./phases.js").Seen} Seen */
/** @typedef {{kind: string, words: string, small?: string, seconds?: number, look?: "main" | "grave", sure?: string}} Act */

/**
 * The buttons of a heat now.
 * @param {Heat} heat @param {Seen} now
 * @returns {Act[]}
 */
export function acts(heat, now) {
  const oven = heat.heater.kind === "oven";
  switch (now.phase) {
    case "preheat": return [{ kind: "ready", words: "It is hot", small: "go on to loading", look: "main" }];
    case "loading": return [{
      kind: "loaded", words: oven ? "Pieces in, door closed" : "Piece in, press closed", small: "the count-down starts", look: "main",
    }];
    case "dwell": return dwell(heat, now, oven);
    case "unload": return [{ kind: "taken-out", words: "Taken out", look: "main" }, ...longer(heat, now.over ?? 0)];
    case "cool": return [{ kind: "cooled", words: "Cool enough", small: "go on to looking", look: "main" }];
    default: return [];
  }
}

/** What else can be done, seldom. @param {Heat} heat @param {Seen} now @returns {Act[]} */
export function rare(heat, now) {
  /** @type {Act[]} */
  const found = [];
  if (now.phase === "preheat" || now.phase === "loading") found.push({ kind: "stopped", words: "Stop this heat", look: "grave", sure: "Press again to stop it" });
  if ((now.phase === "dwell" || now.phase === "unload") && heat.heater.kind === "oven" && !heat.door_open) {
    found.push({ kind: "door-closed", words: "Door was open", small: "about 20 s, not told then", seconds: 20 });
  }
  return found;
}

/** @param {Heat} heat @param {Seen} now @param {boolean} oven @returns {Act[]} */
function dwell(heat, now, oven) {
  /** @type {Act[]} */
  const found = [];
  if (now.turn === "due") found.push({ kind: "turned", words: "Turned", look: "main" });
  if (oven) {
    found.push(heat.door_open
      ? { kind: "door-closed", words: "Door closed", look: now.turn === "due" ? undefined : "main" }
      : { kind: "door-opened", words: "Door opened" });
  }
  if (now.turn === "ahead") found.push({ kind: "turned", words: "Turned" });
  return [...found, ...longer(heat), { kind: "taken-out", words: "Took out early", look: "grave", sure: "Out already? Press again" }];
}

/**
 * More time: what the server offers, unless it has passed already, and half a minute.
 * @param {Heat} heat @param {number} [over]
 * @returns {Act[]}
 */
function longer(heat, over = 0) {
  /** @type {Act[]} */
  const found = heat.offers.filter((one) => one.kind === "longer" && (one.seconds ?? 0) > over + LEAST_S).map((one) => ({
    kind: "longer", seconds: one.seconds ?? 0, words: `+ ${inWords(one.seconds ?? 0)}`, small: "for the planned dose",
  }));
  if (!found.some((one) => one.seconds === MORE_S)) found.push({ kind: "longer", seconds: MORE_S, words: `+ ${inWords(MORE_S)}` });
  return found;
}
