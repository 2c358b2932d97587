// What the server reckons for a load, before it is heated: how long, how sure, and why.

import { heats } from "../../app/pressing/heats.js";
import { say, sayError } from "../../app/say.js";
import { byId, make } from "../../compose/dom.js";
import { countDown, inWords, pieces } from "../watch/time.js";

const REST_MS = 200;

/** @typedef {import("../../app/pressing/heats.js").Planned} Planned */
/**
 * @typedef {{set_c: number, dwell_s: number, dwell_given: boolean, words: string[],
 *   recommended: {dwell_s: {low: number | null, mid: number | null, high: number | null}},
 *   sensitivity: {words: string}[], findings: {severity: string, message: string}[]}} Reckoned
 */

/** Asks for the plan of a load and shows it; `found` is the last answer, null while there is none. */
export class Estimate {
  /** @type {Reckoned | null} */ found = null;
  #timer = 0;
  #asked = "";
  /** @type {AbortController | null} */ #stop = null;

  /** @param {() => void} changed */
  constructor(changed) {
    this.changed = changed;
  }

  /** @param {Planned | null} load */
  ask(load) {
    const key = JSON.stringify(load);
    if (key === this.#asked) return;
    this.#asked = key;
    window.clearTimeout(this.#timer);
    this.#stop?.abort();
    byId("plan").hidden = !load;
    if (!load) return;
    byId("plan").setAttribute("aria-busy", "true");
    this.#timer = window.setTimeout(() => void this.#fetch(load), REST_MS);
  }

  /** Ask the same again. */
  renew() {
    this.#asked = "";
  }

  /** @param {Planned} load */
  async #fetch(load) {
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    byId("plan-trouble").hidden = true;
    try {
      const told = await heats.plan(load, signal);
      this.found = told;
      this.#show(load, told);
    } catch (error) {
      if (signal.aborted) return;
      this.found = null;
      this.#asked = "";
      byId("plan-figures").hidden = true;
      sayError(byId("plan-trouble"), error);
    }
    byId("plan").removeAttribute("aria-busy");
    this.changed();
  }

  /** @param {Planned} load @param {Reckoned} told */
  #show(load, told) {
    byId("plan-figures").hidden = false;
    byId("plan-dwell").textContent = countDown(told.dwell_s);
    byId("plan-range").textContent = range(told);
    const [first, ...rest] = told.words;
    byId("plan-first").textContent = first ?? "";
    byId("plan-findings").replaceChildren(...told.findings.map((one) => make("p", { class: "finding", "data-severity": one.severity }, one.message)));
    byId("plan-words").replaceChildren(
      ...rest.map((one) => make("p", {}, one)),
      make("ul", {}, ...told.sensitivity.map((one) => make("li", {}, one.words))),
    );
    const plot = byId("plan-plot");
    plot.src = heats.planUrl(load);
    plot.alt = told.words[0] ?? "";
    say(`Estimate for ${pieces(load.pieces)}: ${inWords(told.dwell_s)}.`);
  }
}

/** The band of the dwell. @param {Reckoned} told */
function range({ dwell_given: given, recommended: { dwell_s: { low, mid, high } } }) {
  const band = `${low === null ? "an hour or more" : countDown(low)} to ${high === null ? "past an hour" : countDown(high)}`;
  if (!given) return `${band} in nine of ten cases`;
  return mid === null ? "as you set it" : `as you set it; reckoned ${countDown(mid)}, ${band} in nine of ten cases`;
}
