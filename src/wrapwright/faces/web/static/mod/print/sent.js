// What was handed to printers: each with how far it is, looked at while it runs, and cancelled.

import { api } from "../app/api.js";
import { say, sayError } from "../app/say.js";
import { finding, made } from "../sheet/dom.js";

const EACH_MS = 1500;
const SHAPES = { sending: "note", printing: "note", done: "ok", failed: "error", stopped: "warning", lost: "warning" };
const SHOWN = 5;

export class Sent {
  /** @param {HTMLElement} place @param {number} id of what was made */
  constructor(place, id) {
    this.id = id;
    this.list = made("ul", "", "print-sent");
    this.list.setAttribute("aria-label", "Printed so far");
    place.append(this.list);
    /** @type {any[]} */
    this.rows = [];
    this.waiting = false;
  }

  async load() {
    this.rows = await api.madePrints(this.id).catch(() => this.rows);
    this.show();
  }

  /** @param {any} row a PrintKept @param {boolean} now whether it was sent just now */
  add(row, now) {
    this.rows = [row, ...this.rows.filter((one) => one.id !== row.id)];
    this.show();
    if (now) say(row.state === "done" ? `Put into the folder: ${row.words}.` : `Job ${row.job} is at the printer: ${row.words}.`);
  }

  show() {
    this.list.hidden = this.rows.length === 0;
    const held = document.activeElement?.closest?.("[data-sent]")?.getAttribute("data-sent");
    this.list.replaceChildren(...this.rows.slice(0, SHOWN).map((row) => this.row(row)));
    if (held) /** @type {HTMLElement | null} */ (this.list.querySelector(`[data-sent="${held}"] button`))?.focus();
    if (!this.waiting && this.rows.some(runs)) {
      this.waiting = true;
      window.setTimeout(() => this.follow(), EACH_MS);
    }
  }

  /** @param {any} row */
  row(row) {
    const one = made("li");
    one.dataset.sent = String(row.id);
    const words = `${row.state === "failed" ? "Not printed: " : ""}${row.words}`;
    const line = finding(words, SHAPES[/** @type {keyof typeof SHAPES} */ (row.state)]);
    const when = new Date(row.asked).toLocaleString([], { dateStyle: "short", timeStyle: "short" });
    const facts = [when, row.copies > 1 ? `${row.copies} copies` : "", row.job ? `job ${row.job}` : ""];
    one.append(line, made("span", facts.filter(Boolean).join(" · "), "note"));
    if (runs(row) && row.job) {
      const button = made("button", "Cancel", "button");
      button.type = "button";
      button.setAttribute("aria-label", `Cancel job ${row.job}`);
      button.addEventListener("click", () => this.cancel(row, button));
      one.append(button);
    }
    return one;
  }

  async follow() {
    this.waiting = false;
    if (!this.list.isConnected) return;
    if (document.hidden) {
      this.waiting = true;
      window.setTimeout(() => this.follow(), EACH_MS);
      return;
    }
    for (const row of this.rows.filter(runs)) {
      try { this.put(await api.onePrint(row.id)); } catch { /* the line about the server says it; it is asked again */ }
    }
    this.show();
  }

  /** @param {any} now */
  put(now) {
    const at = this.rows.findIndex((one) => one.id === now.id);
    if (at < 0) return;
    const changed = now.words !== this.rows[at].words || now.state !== this.rows[at].state;
    this.rows[at] = now;
    if (changed) say(`Job ${now.job}: ${now.words}.`);
  }

  /** @param {any} row @param {HTMLButtonElement} button */
  async cancel(row, button) {
    button.disabled = true;
    try {
      this.put(await api.stopPrint(row.id));
      this.show();
    } catch (error) {
      sayError(/** @type {HTMLElement} */ (button.parentElement?.querySelector(".finding")), error);
      button.disabled = false;
    }
  }
}

/** @param {any} row */
function runs(row) {
  return row.ended === null && row.state !== "lost";
}
