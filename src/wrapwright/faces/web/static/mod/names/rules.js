// The kinds of problem that wait, with how many: to see those rows alone, and to decide about all of them at once.

import { byId, button, make } from "../compose/dom.js";

/** @typedef {import("./types.js").Rule} Rule */

export class Rules {
  /** @param {(rule: string) => void} only @param {(verb: string, rule: string) => void} decide */
  constructor(only, decide) {
    this.only = only;
    this.decide = decide;
    this.chosen = "";
    this.said = "";
  }

  /** @param {Rule[]} rules @param {boolean} whole whether all rows were checked */
  show(rules, whole) {
    const waiting = rules.filter((one) => one.waiting);
    const said = JSON.stringify([waiting, whole, this.chosen]);
    if (said === this.said) return;
    this.said = said;
    const place = byId("rules");
    place.hidden = !waiting.length && !this.chosen;
    const held = place.contains(document.activeElement) ? /** @type {HTMLElement} */ (document.activeElement).dataset.rule : undefined;
    place.replaceChildren(...waiting.map((one) => this.chip(one)));
    const one = waiting.find((rule) => rule.rule === this.chosen);
    if (this.chosen) place.append(this.acts(one, whole));
    if (held !== undefined) /** @type {HTMLElement | null} */ (place.querySelector(`[data-rule="${CSS.escape(held)}"]`))?.focus();
  }

  /** @param {Rule} rule */
  chip(rule) {
    const pressed = rule.rule === this.chosen;
    return make("button", { class: "n-rule", type: "button", "aria-pressed": String(pressed), "data-rule": rule.rule, "data-severity": rule.severity, onclick: () => this.choose(pressed ? "" : rule.rule) },
      make("span", { class: "n-mark", "data-state": "waits", "data-severity": rule.severity, "aria-hidden": "true" }),
      `${rule.rule.replaceAll("-", " ")} `, make("b", { class: "figure" }, String(rule.waiting)));
  }

  /** @param {Rule | undefined} rule @param {boolean} whole */
  acts(rule, whole) {
    const acts = make("span", { class: "n-rule-acts" });
    if (rule && whole) {
      if (rule.acceptable) acts.append(button(rule.waiting === 1 ? "Accept it" : `Accept all ${rule.waiting}`, () => this.decide("accept", rule.rule)));
      const twice = ["row-twice", "same-name"].includes(rule.rule);
      acts.append(button(twice ? "Keep the first of each, skip the rest" : "Skip these rows", () => this.decide("skip", rule.rule), { class: "button button-quiet" }));
    }
    acts.append(button("All rows", () => this.choose(""), { class: "button button-quiet" }));
    return acts;
  }

  /** @param {string} rule */
  choose(rule) {
    this.chosen = rule;
    this.only(rule);
  }
}
