// Lists of rows in the form: readings of a bulging blank, and places to keep bare.

import { setField } from "./form.js";
import { unit } from "../app/lengths.js";

export class Rows {
  /**
   * @param {{list: HTMLElement, template: HTMLTemplateElement, path: string, least: number, word: string, changed: () => void}} how
   *   `path` as in `blank.readings`; `least` rows always stand; `word` names one of them
   */
  constructor({ list, template, path, least, word, changed }) {
    this.list = /** @type {HTMLElement} */ (list.querySelector(".m-rows"));
    this.template = template;
    this.path = path;
    this.least = least;
    this.word = word;
    this.changed = changed;
    const add = /** @type {HTMLButtonElement} */ (list.querySelector(":scope > button"));
    add.addEventListener("click", () => {
      this.add();
      /** @type {HTMLElement} */ (this.list.lastElementChild?.querySelector("input, select"))?.focus();
      changed();
    });
    this.list.addEventListener("keydown", (event) => this.onKey(event));
  }

  /** @param {unknown[]} values one a row: a list of cells, or a table */
  fill(values) {
    this.list.replaceChildren();
    for (const value of values) this.add(value);
    while (this.list.children.length < this.least) this.add();
  }

  /** @param {any} [value] */
  add(value = {}) {
    const row = /** @type {HTMLElement} */ (/** @type {DocumentFragment} */ (this.template.content.cloneNode(true)).firstElementChild);
    for (const cell of cells(row)) {
      if (cell.hasAttribute("data-length")) cell.setAttribute("inputmode", unit() === "mm" ? "decimal" : "text");
      if (value[String(cell.dataset.cell)] !== undefined) setField(cell, value[String(cell.dataset.cell)]);
    }
    for (const one of row.querySelectorAll("[data-unit-word]")) one.textContent = unit();
    row.querySelector(".m-away")?.addEventListener("click", () => this.remove(row));
    this.list.append(row);
    this.number();
  }

  /** @param {HTMLElement} row */
  remove(row) {
    const next = row.nextElementSibling ?? row.previousElementSibling;
    row.remove();
    while (this.list.children.length < this.least) this.add();
    this.number();
    const to = /** @type {HTMLElement | null} */ (next?.isConnected ? next.querySelector("input, select") : this.list.parentElement?.querySelector(":scope > button"));
    to?.focus();
    this.changed();
  }

  /** Enter in the last row begins another one. @param {KeyboardEvent} event */
  onKey(event) {
    const cell = /** @type {HTMLElement} */ (event.target);
    if (event.key !== "Enter" || !(cell instanceof HTMLInputElement)) return;
    event.preventDefault();
    const row = /** @type {HTMLElement} */ (cell.closest("li"));
    const own = cells(row);
    const next = own[own.indexOf(cell) + 1];
    if (next) { next.focus(); return; }
    if (!row.nextElementSibling) this.add();
    /** @type {HTMLElement} */ (row.nextElementSibling?.querySelector("input, select"))?.focus();
    this.changed();
  }

  /** Give every cell the place it has in the tables, and words that say which it is. */
  number() {
    [...this.list.children].forEach((row, at) => {
      const one = /** @type {HTMLElement} */ (row);
      one.dataset.problem = `${this.path}.${at}`;
      const wrong = /** @type {HTMLElement} */ (one.querySelector(".field-wrong"));
      wrong.id = `${this.path.replaceAll(".", "-")}-${at}-wrong`;
      for (const cell of cells(one)) {
        cell.dataset.field = `${this.path}.${at}.${cell.dataset.cell}`;
        cell.setAttribute("aria-describedby", wrong.id);
        const said = cell.getAttribute("aria-label");
        if (said) cell.setAttribute("aria-label", said.replace(/( \d+)?$/, ` ${at + 1}`));
      }
      const away = one.querySelector(".m-away .only-spoken");
      if (away) away.textContent = `Remove ${this.word} ${at + 1}`;
    });
  }
}

/** @param {HTMLElement} row @returns {(HTMLInputElement | HTMLSelectElement)[]} */
function cells(row) {
  return [...row.querySelectorAll("[data-cell]")].map((one) => /** @type {HTMLInputElement} */ (one));
}
