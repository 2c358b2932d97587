// When a phase ends: a word, a sound, a card that flashes. What waits for hands sounds again until they come.

import { say } from "../../app/say.js";
import { nextTurn, spoken } from "../heat/phases.js";

const AGAIN_MS = 6000;
const LONGEST_MS = 180000;
const AHEAD_S = 75; // a page that nobody sees may be woken once a minute only

/** @typedef {import("../heat/phases.js").Heat} Heat */
/** @typedef {import("../heat/phases.js").Seen} Seen */
/** @typedef {{state: string, since: number, last: number, quiet: boolean}} Kept */

const SOUNDS = /** @type {Record<string, string>} */ ({ hot: "hot", turn: "turn", unload: "out", look: "cool" });
// What stays to be done by hand, and therefore sounds again.
const WAITS = new Set(["hot", "turn", "unload"]);

/** Follows the heats and gives the alarm when the state of one changes. */
export class Alarms {
  /** @type {Map<number, Kept>} */
  #kept = new Map();

  /** @param {import("./sound.js").Sound} sound */
  constructor(sound) {
    this.sound = sound;
  }

  /**
   * Whether a heat calls for hands now: its card stands out, and so long as `sounds` it can be made quiet.
   * @param {number} id
   * @returns {{calls: string, sounds: boolean}} calls: for what, "" for nothing
   */
  of(id) {
    const one = this.#kept.get(id);
    const calls = one && WAITS.has(one.state) ? one.state : "";
    const fresh = calls !== "" && performance.now() - (one?.since ?? 0) < LONGEST_MS;
    return { calls, sounds: fresh && this.sound.heard && !one?.quiet };
  }

  /** No more sound for this end. @param {number} id */
  quiet(id) {
    const one = this.#kept.get(id);
    if (one) one.quiet = true;
  }

  /**
   * Look at a heat; called several times a second.
   * @param {Heat} heat @param {Seen} now
   */
  watch(heat, now) {
    const state = stateOf(now);
    const one = this.#kept.get(heat.id);
    // What has been going on when the page came is no news, but what waits for hands still calls.
    if (!one) this.#kept.set(heat.id, { state, since: performance.now(), last: -Infinity, quiet: !WAITS.has(state) });
    else if (one.state !== state) this.#changed(heat, now, one, state);
    else if (!one.quiet && WAITS.has(state)) this.#again(one);
    this.#arm(heat, now);
  }

  /** Forget the heats that have ended. @param {Set<number>} live */
  keep(live) {
    for (const id of this.#kept.keys()) {
      if (live.has(id)) continue;
      this.#kept.delete(id);
      this.sound.disarm(`${id}`);
    }
  }

  /** @param {Heat} heat @param {Seen} now @param {Kept} one @param {string} state */
  #changed(heat, now, one, state) {
    const before = one.state;
    Object.assign(one, { state, since: performance.now(), last: performance.now(), quiet: false });
    say(state === "turn" ? `${heat.heater.name}: turn the pieces now.` : spoken(heat, now));
    const sounded = this.sound.fired(`${heat.id}`);
    // A press of a button is answered by the screen; sound is for what time brings.
    const byTime = state === "hot" || state === "turn" || state === "unload" || (state === "look" && before === "cool" && now.since < 5);
    if (byTime && SOUNDS[state] && !sounded) this.sound.play(SOUNDS[state]);
  }

  /** @param {Kept} one */
  #again(one) {
    const now = performance.now();
    if (now - one.since > LONGEST_MS || now - one.last < AGAIN_MS || !this.sound.heard) return;
    one.last = now;
    this.sound.play(SOUNDS[one.state]);
  }

  /** @param {Heat} heat @param {Seen} now */
  #arm(heat, now) {
    const [left, name] = next(heat, now);
    if (left !== null && left > 0.2 && left < AHEAD_S) this.sound.arm(`${heat.id}`, left, name);
    else if (left === null || left >= AHEAD_S) this.sound.disarm(`${heat.id}`);
  }
}

/** @param {Seen} now */
function stateOf(now) {
  if (now.phase === "preheat" && now.over !== null) return "hot";
  if (now.turn === "due") return "turn";
  if (now.phase === "dwell") return now.soak ? "soak" : "dwell";
  return now.phase;
}

/**
 * Seconds to what time brings next, and its sound.
 * @param {Heat} heat @param {Seen} now
 * @returns {[number | null, string]}
 */
function next(heat, now) {
  if (now.left === null) return [null, ""];
  if (now.phase === "preheat") return [now.left, "hot"];
  if (now.phase === "cool") return [now.left, "cool"];
  if (now.phase !== "dwell") return [null, ""];
  const turn = now.turn === "ahead" ? nextTurn(heat) : null;
  return turn === null || turn - now.since > now.left ? [now.left, "out"] : [turn - now.since, "turn"];
}
