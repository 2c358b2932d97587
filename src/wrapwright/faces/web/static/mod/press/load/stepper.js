// A figure with a large minus and plus beside it.

import { make } from "../../compose/dom.js";

/**
 * Put minus and plus round what shows the figure.
 * @param {HTMLElement} place @param {{less: string, more: string, shown: Node[], change: (by: number) => void}} what
 */
export function stepper(place, { less, more, shown, change }) {
  const step = (/** @type {string} */ sign, /** @type {string} */ words, /** @type {number} */ by) =>
    make("button", { class: "p-act p-step", type: "button", "aria-label": words, onclick: () => change(by) }, sign);
  place.replaceChildren(step("−", less, -1), make("div", { class: "p-stepped" }, ...shown), step("+", more, 1));
}
