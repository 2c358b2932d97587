// The dose so far on a strip, against the band that was planned and the dose aimed at.

import { figure } from "../../app/lengths.js";
import { make } from "../../compose/dom.js";
import { celsiusWords, fahrenheitWords } from "../watch/time.js";

const ROOM = 1.12;

/** @typedef {import("./phases.js").DoseTold} DoseTold */

/** A strip that `show` draws a dose on. */
export function doseStrip() {
  const words = make("p", { class: "p-dose-words" });
  const band = make("span", { class: "p-dose-band" });
  const middle = make("span", { class: "p-dose-mid" });
  const aim = make("span", { class: "p-dose-aim" });
  const now = make("span", { class: "p-dose-now" });
  const strip = make("div", { class: "p-dose-strip", "aria-hidden": "true" }, band, middle, now, aim);
  const element = make("div", { class: "p-dose" }, words, strip);
  return {
    element,
    /** @param {DoseTold} dose @param {boolean} begun whether the pieces are in, or were */
    show(dose, begun) {
      const { planned_low: low, planned_mid: mid, planned_high: high, target } = dose;
      const most = ROOM * Math.max(high ?? 0, target ?? 0, dose.now ?? 0);
      strip.hidden = most <= 0;
      const at = (/** @type {number | null} */ value) => `${((100 * (value ?? 0)) / (most || 1)).toFixed(2)}%`;
      band.style.insetInlineStart = at(low);
      band.style.inlineSize = at((high ?? 0) - (low ?? 0));
      middle.hidden = mid === null;
      middle.style.insetInlineStart = at(mid);
      now.style.inlineSize = at(begun ? dose.now : 0);
      aim.hidden = target === null;
      aim.style.insetInlineStart = at(target);
      const told = sentence(dose, begun);
      if (words.textContent !== told) words.replaceChildren(...parts(dose, begun));
    },
  };
}

/** @param {DoseTold} dose @param {boolean} begun */
function sentence(dose, begun) {
  return parts(dose, begun).map((one) => (typeof one === "string" ? one : one.textContent)).join("");
}

/** @param {DoseTold} dose @param {boolean} begun @returns {(string | HTMLElement)[]} */
function parts(dose, begun) {
  const { planned_low: low, planned_mid: mid, planned_high: high, target } = dose;
  const planned = mid === null || low === null || high === null ? "not reckoned" : `${short(mid)} planned (${short(low)} to ${short(high)}), in min at 195\u00a0°C (383\u00a0°F)`;
  const aim = target === null ? " · aim not known yet" : ` · aim ${short(target)}`;
  const now = begun ? [make("strong", {}, dose.now === null ? "not known" : short(dose.now)), " of "] : [];
  const by = dose.by === "log" ? " · by the logger" : "";
  const coating = begun && dose.coating_c !== null ? ` · coating about ${celsiusWords(dose.coating_c)} (${fahrenheitWords(dose.coating_c)})` : "";
  return ["Dose ", ...now, planned, aim, by, coating];
}

/** @param {number} minutes */
function short(minutes) {
  return figure(minutes, minutes < 9.95 ? 1 : 0);
}
