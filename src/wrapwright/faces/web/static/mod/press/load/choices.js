// Heaters and recipes to choose from, as large fields that can be hit with gloves.

import { figure } from "../../app/lengths.js";
import { make } from "../../compose/dom.js";
import { bothWords, pieces, span } from "../watch/time.js";

/** @typedef {import("../watch/board.js").Heater} Heater */
/** @typedef {import("../watch/board.js").Recipe} Recipe */

/**
 * One of a few: a radio button in a large field.
 * @param {{group: string, value: string, words: string, small: string, checked: boolean, off?: boolean}} what
 * @param {() => void} chosen
 */
export function choice({ group, value, words, small, checked, off = false }, chosen) {
  return make(
    "label", { class: "p-choice" },
    make("input", { type: "radio", name: group, value, checked, disabled: off, onchange: chosen }),
    make("span", { class: "p-choice-words" }, words), make("span", { class: "p-choice-small" }, small),
  );
}

/**
 * What a heater is, in a line.
 * @param {Heater} one @param {boolean} free @param {import("../watch/board.js").Circuit[]} circuits
 */
export function heaterWords(one, free, circuits) {
  if (!free) return "heating now";
  return tooMuch(one, circuits) || `holds ${pieces(one.capacity)} · ${one.calibrated ? "calibrated" : "not calibrated"}`;
}

/**
 * Why its circuit does not bear a heater now, "" where it does.
 * @param {Heater} one @param {import("../watch/board.js").Circuit[]} circuits
 */
export function tooMuch(one, circuits) {
  const circuit = circuits.find((each) => each.name === one.circuit);
  if (circuit && one.rated_w > circuit.limit_w) {
    return `rated ${figure(one.rated_w, 0)} W, above what ${circuit.name} carries: ${figure(circuit.limit_w, 0)} W`;
  }
  if (circuit && circuit.load_w + one.rated_w > circuit.limit_w) {
    return `too much for ${circuit.name} just now: ${figure(circuit.load_w + one.rated_w, 0)} of ${figure(circuit.limit_w, 0)} W`;
  }
  return "";
}

/** What a recipe asks, in a line. @param {Recipe} one */
export function recipeWords(one) {
  return `${bothWords(one.celsius)} · ${span(one.seconds)}`;
}

/** Whether a recipe is for such a heater. @param {Recipe} recipe @param {Heater} heater */
export function suits(recipe, heater) {
  if (recipe.heater === "unknown" || recipe.heater === heater.kind) return true;
  return recipe.heater === "press" && heater.kind !== "oven";
}
