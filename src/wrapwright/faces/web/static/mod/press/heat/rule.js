// The dwell as a rule: minutes, where it soaks, where the pieces are turned, where it is now.

import { make } from "../../compose/dom.js";
import { countUp } from "../watch/time.js";

const STEPS_S = [15, 30, 60, 120, 300, 600];
const MOST_TICKS = 16;
const MOST_WORDS = 5;
const LAST = 0.97; // what stands nearer to the end would run over it

/** A rule that `show` lays out and `move` moves on. */
export function rule() {
  const done = make("div", { class: "p-rule-done" });
  const marks = make("div", { class: "p-rule-marks" });
  const line = make("div", { class: "p-rule", "aria-hidden": "true" }, done, marks);
  let laid = "";

  return {
    element: line,
    /**
     * Lay the marks.
     * @param {number} whole seconds from end to end @param {number[]} turns @param {number | null} soak where it begins
     */
    show(whole, turns, soak) {
      const key = [whole, turns, soak].join();
      if (key === laid) return;
      laid = key;
      const step = STEPS_S.find((one) => whole / one <= MOST_TICKS) ?? Math.ceil(whole / MOST_TICKS / 600) * 600;
      const parts = [];
      const worded = STEPS_S.find((one) => one >= step && one % step === 0 && whole / one <= MOST_WORDS + 1) ?? step * MOST_WORDS;
      for (let at = step; at < whole; at += step) parts.push(mark("p-rule-tick", at / whole, at % worded || at / whole > LAST ? "" : countUp(at)));
      if (soak !== null && soak < whole) parts.push(part("p-rule-warm", 0, soak / whole, "warm-up"), part("p-rule-soak", soak / whole, 1, "soak"));
      for (const at of turns) parts.push(mark("p-rule-turn", at / whole, "turn"));
      marks.replaceChildren(...parts);
    },
    /** @param {number} share done, 0 to 1 */
    move(share) {
      done.style.inlineSize = `${(100 * Math.min(1, Math.max(0, share))).toFixed(2)}%`;
    },
  };
}

/** @param {string} look @param {number} share @param {string} words */
function mark(look, share, words) {
  const made = make("span", { class: look }, words && make("span", {}, words));
  made.style.insetInlineStart = `${(100 * share).toFixed(2)}%`;
  return made;
}

/** @param {string} look @param {number} from @param {number} to shares @param {string} words */
function part(look, from, to, words) {
  const made = mark(look, from, words);
  made.style.inlineSize = `${(100 * (to - from)).toFixed(2)}%`;
  return made;
}
