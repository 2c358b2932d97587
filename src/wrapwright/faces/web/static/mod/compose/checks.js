// What the checks say of the revision that is shown, in words, each one press from its element.

import { inUnit } from "../app/lengths.js";
import { say } from "../app/say.js";
import { make } from "./dom.js";

/** @typedef {import("./bench.js").Bench} Bench */

const SETTLED_MS = 350;
const ORDER = { error: 0, warning: 1, note: 2 };
const SPOKEN = { error: ["error", "errors"], warning: ["warning", "warnings"], note: ["note", "notes"] };

/** The findings in words and number: "1 error, 2 warnings". @param {{severity: string}[]} findings */
export function counted(findings) {
  const parts = Object.entries(SPOKEN).map(([severity, [one, many]]) => {
    const number = findings.filter((finding) => finding.severity === severity).length;
    return number ? `${number} ${number === 1 ? one : many}` : "";
  });
  return parts.filter(Boolean).join(", ");
}

export class Checks {
  /**
   * @param {{list: HTMLElement, count: HTMLElement}} nodes
   * @param {Bench} bench
   * @param {(revision: number, signal: AbortSignal) => Promise<any>} fetch
   */
  constructor(nodes, bench, fetch) {
    this.nodes = nodes;
    this.bench = bench;
    this.fetch = fetch;
    this.timer = 0;
    this.asked = new AbortController();
    /** @type {any} */
    this.found = null;
    this.spoken = "";
    /** @type {any} */
    this.error = null;
  }

  /** The server answers again: ask for what could not be had. */
  again() {
    if (this.error?.kind !== "offline") return;
    this.error = null;
    this.ask();
  }

  /** Ask for the checks of the revision that is shown, once it has stood a moment; an older question is dropped. */
  ask() {
    window.clearTimeout(this.timer);
    this.asked.abort();
    this.show();
    this.timer = window.setTimeout(() => this.now(), SETTLED_MS);
  }

  async now() {
    const { revision } = this.bench.design;
    if (this.bench.drawn.problems.length || this.found?.revision === revision) return this.show();
    this.asked = new AbortController();
    try {
      this.found = await this.fetch(revision, this.asked.signal);
      this.error = null;
    } catch (error) {
      if (error.name === "AbortError") return;
      this.error = error;
    }
    this.show();
  }

  /** Show problems of the drawing first, else what was found last; old findings are said to be so. */
  show() {
    const { drawn, design } = this.bench;
    const { list, count } = this.nodes;
    const problems = drawn.problems.map((one) => this.row("error", [one.where && `${one.where}:`, one.message, one.remedy].filter(Boolean).join(" "), one.element));
    const old = this.found?.revision !== design.revision;
    const findings = this.found ? [...this.found.findings].sort((one, other) => ORDER[one.severity] - ORDER[other.severity]) : [];
    const rows = problems.length ? problems : findings.map((one) => this.row(one.severity, this.words(one), one.element));
    const remarks = drawn.remarks.map((message) => ({ severity: "note", message }));
    const words = this.state(problems.length, [...findings, ...remarks], old);
    if (!problems.length && this.error) rows.unshift(this.row("warning", `The checks could not be made: ${this.error.message}`, null));
    else if (!rows.length && this.found && !old) rows.push(this.row("ok", "Nothing was found wrong.", null));
    rows.push(...remarks.map((one) => this.row(one.severity, one.message, null)));
    const focused = [...list.children].findIndex((one) => one.contains(document.activeElement));
    list.replaceChildren(...rows);
    // Who works the list by keys stays in it.
    if (focused >= 0) (list.children[focused]?.querySelector("button") ?? list).focus({ preventScroll: true });
    list.toggleAttribute("data-old", old && !problems.length);
    count.textContent = words;
    this.speak(problems.length || !old ? words : "");
  }

  state(problems, findings, old) {
    if (problems) return problems === 1 ? "1 thing cannot be drawn" : `${problems} things cannot be drawn`;
    if (this.error) return "not made";
    if (old) return "checking";
    return counted(findings) || "all well";
  }

  speak(words) {
    if (!words || words === this.spoken) return;
    this.spoken = words;
    say(`Checks: ${words}.`);
  }

  words(finding) {
    return `${finding.message}${finding.accepted ? " (accepted)" : ""}`;
  }

  row(severity, words, element) {
    const spoken = { error: "Error: ", warning: "Warning: ", note: "Note: " }[severity] ?? "";
    const inner = [make("span", { class: "only-spoken" }, spoken), inUnit(words)];
    const press = element === null || element === undefined
      ? make("span", {}, ...inner)
      : make("button", { type: "button", class: "finding-go", onclick: () => this.bench.select([`${element}.0`]) }, ...inner);
    return make("li", { class: "finding", "data-severity": severity }, press);
  }
}
