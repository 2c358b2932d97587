// What the checks say, and which errors are accepted by name before the sheets are made.

import { pages } from "../app/api.js";
import { inUnit } from "../app/lengths.js";
import { byId, finding, made } from "./dom.js";

const WORDS = { error: ["error", "errors"], warning: ["warning", "warnings"], note: ["note", "notes"] };

export class Checks {
  /** @param {number} design @param {string[]} never rules whose errors cannot be accepted @param {() => void} changed */
  constructor(design, never, changed) {
    this.design = design;
    this.never = new Set(never);
    this.changed = changed;
    /** @type {any[]} */
    this.findings = [];
    /** @type {Set<string>} */
    this.accepted = new Set();
    this.known = false;
  }

  /** Nothing is known yet of this revision. */
  wait() {
    this.known = false;
    byId("checks-words").textContent = "Checking …";
    this.changed();
  }

  /** @param {{findings: any[]}} told */
  show({ findings }) {
    this.findings = findings;
    this.known = true;
    const rules = new Set(this.errors().map((one) => one.rule));
    this.accepted = new Set([...this.accepted].filter((rule) => rules.has(rule)));
    const parts = [];
    for (const severity of /** @type {("error" | "warning" | "note")[]} */ (["error", "warning", "note"])) {
      const these = findings.filter((one) => one.severity === severity);
      if (these.length) parts.push(`${these.length} ${WORDS[severity][these.length === 1 ? 0 : 1]}`);
    }
    byId("checks-words").textContent = parts.length ? `${parts.join(", ")}.` : "Every check passed.";
    byId("checks").replaceChildren(...this.byRule());
    this.changed();
  }

  /** Errors that the document does not accept itself. */
  errors() {
    return this.findings.filter((one) => one.severity === "error" && !one.accepted);
  }

  /** What still stops the making, in words; "" when nothing does. */
  stops() {
    if (!this.known) return "The checks are still running.";
    const errors = this.errors();
    if (errors.some((one) => this.never.has(one.rule))) return "The wrap does not fit on the paper: this cannot be accepted.";
    const open = new Set(errors.filter((one) => !this.accepted.has(one.rule)).map((one) => one.rule));
    if (!open.size) return "";
    return `Mend or accept ${open.size === 1 ? "the error" : `the ${open.size} kinds of error`} first.`;
  }

  byRule() {
    const order = ["error", "warning", "note"];
    const sorted = [...this.findings].sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
    /** @type {HTMLElement[]} */
    const parts = [];
    /** @type {Set<string>} */
    const asked = new Set();
    sorted.forEach((one, at) => {
      parts.push(this.row(one));
      const last = !sorted.slice(at + 1).some((other) => other.rule === one.rule && other.severity === "error");
      if (one.severity === "error" && !one.accepted && last && !asked.has(one.rule)) {
        asked.add(one.rule);
        parts.push(this.question(one.rule));
      }
    });
    return parts;
  }

  /** @param {any} one */
  row(one) {
    const line = finding("", one.severity);
    line.append(made("span", `${one.severity}: `, "only-spoken"));
    let words = one.message.charAt(0).toUpperCase() + one.message.slice(1);
    if (one.name) {
      // Most sentences begin with the element's name: that is the way to it.
      const named = words.toLowerCase().startsWith(`${one.name.toLowerCase()} `);
      const link = made("a", named ? words.slice(0, one.name.length) : one.name);
      link.href = pages.compose(this.design, one.element);
      line.append(link, named ? "" : ": ");
      if (named) words = words.slice(one.name.length);
    }
    line.append(inUnit(words) + (one.accepted ? " Accepted by the design." : ""));
    return line;
  }

  /** @param {string} rule */
  question(rule) {
    if (this.never.has(rule)) {
      const way = made("p", "This cannot be accepted: choose a set-up with larger paper above, or give the wrap a lower band in ", "note s-accept");
      const link = made("a", "Compose");
      link.href = pages.compose(this.design);
      way.append(link, ", under Design.");
      return way;
    }
    const label = made("label", "", "s-accept");
    const box = made("input");
    box.type = "checkbox";
    box.checked = this.accepted.has(rule);
    box.dataset.rule = rule;
    box.addEventListener("change", () => {
      if (box.checked) this.accepted.add(rule);
      else this.accepted.delete(rule);
      this.changed();
    });
    const words = made("span");
    words.append("Make it in spite of ", made("b", rule), ". The ticket's first line and the report will say so.");
    label.append(box, words);
    return label;
  }
}
