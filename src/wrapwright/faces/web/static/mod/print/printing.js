// Printing what was made: where to, whether paper and size agree, handed over, watched, cancelled.

import { api, pages } from "../app/api.js";
import { inUnit } from "../app/lengths.js";
import { say, sayError } from "../app/say.js";
import { finding, made } from "../sheet/dom.js";
import { Sent } from "./sent.js";

const MOST = 999;
let count = 0;

export class Printing {
  /**
   * @param {HTMLElement} place where it is put
   * @param {number} id of what was made
   * @param {number} [setup] that is chosen first
   */
  constructor(place, id, setup = 0) {
    this.place = place;
    this.id = id;
    this.wished = setup;
    this.asking = new AbortController();
    this.stops = true;
  }

  /** Fetch the printers there are, and put the part in. */
  async open() {
    const { setups } = await api.printers().catch((error) => { sayError(this.trouble(), error); return { setups: [] }; });
    if (!setups.length) {
      const none = made("p", "No set-up has its printer yet. ", "note");
      const link = made("a", "Give one its printer's address");
      link.href = pages.setups;
      none.append(link, ", or print the file yourself: at 100 %, with fitting and enlarging off.");
      this.place.append(none);
      return;
    }
    this.put(setups);
    await Promise.all([this.sent.load(), this.ask()]);
  }

  /** @param {any[]} setups */
  put(setups) {
    const own = `print-${++count}`;
    this.printer = labelled(this.place, "Printer", made("select"), `${own}-printer`);
    for (const one of setups) this.printer.add(new Option(`${one.name}: ${one.address ? host(one.address) : "watched folder"}`, String(one.setup)));
    if (setups.some((one) => one.setup === this.wished)) this.printer.value = String(this.wished);
    const row = made("div", "", "print-pair");
    this.place.append(row);
    this.copies = labelled(row, "Copies", made("input"), `${own}-copies`);
    Object.assign(this.copies, { type: "number", min: "1", max: String(MOST), step: "1", value: "1" });
    this.go = made("button", "Print at actual size", "button button-main");
    this.go.type = "button";
    row.append(this.go);
    this.told = made("div", "", "print-told");
    this.told.setAttribute("role", "status");
    this.even = made("label", "", "check");
    this.evenSo = made("input");
    this.evenSo.type = "checkbox";
    this.even.append(this.evenSo, " Print it all the same");
    this.place.append(this.told, this.even);
    this.trouble();
    this.sent = new Sent(this.place, this.id);
    this.printer.addEventListener("change", () => this.ask());
    this.copies.addEventListener("change", () => this.ask());
    this.evenSo.addEventListener("change", () => this.ready());
    this.go.addEventListener("click", () => this.print());
  }

  /** The line for what went wrong. */
  trouble() {
    if (!this.wrong) {
      this.wrong = finding("", "error");
      this.wrong.setAttribute("role", "alert");
      this.wrong.hidden = true;
      this.place.append(this.wrong);
    }
    return this.wrong;
  }

  /** Ask the printer what speaks against it; an answer that comes after another question counts no more. */
  async ask() {
    this.asking.abort();
    this.asking = new AbortController();
    const { signal } = this.asking;
    this.stops = true;
    this.even.hidden = true;
    this.evenSo.checked = false;
    this.wrong.hidden = true;
    this.told.replaceChildren(made("p", "Asking the printer …", "note"));
    this.ready();
    if (!this.copies.checkValidity() || !this.copies.value) {
      this.told.replaceChildren(finding(`A whole number of copies from 1 to ${MOST}.`, "error"));
      return;
    }
    try {
      const found = await api.printing(this.id, Number(this.printer.value), Number(this.copies.value), signal);
      this.show(found);
    } catch (error) {
      if (signal.aborted) return;
      this.told.replaceChildren(this.again());
      sayError(this.wrong, error);
    }
  }

  again() {
    const button = made("button", "Ask the printer again", "button");
    button.type = "button";
    button.addEventListener("click", () => this.ask());
    return button;
  }

  /** @param {any} found what `api.printing` gives */
  show(found) {
    const errors = found.findings.filter((/** @type {any} */ one) => one.severity === "error");
    this.stops = errors.length > 0;
    this.even.hidden = !this.stops;
    const good = found.folder
      ? `Copies are put into ${found.target}. Set the program that watches it to actual size.`
      : `${found.printer}: ${found.paper}, at actual size.`;
    const rows = found.findings.map((/** @type {any} */ one) => finding(inUnit(one.message), one.severity));
    this.told.replaceChildren(...(this.stops ? [] : [finding(inUnit(good), "ok")]), ...rows, ...(this.stops ? [this.again()] : []));
    this.ready();
  }

  /** Whether it can be printed now, on the button. */
  ready() {
    const off = this.busy || (this.stops && !(this.evenSo.checked && !this.even.hidden));
    this.go.setAttribute("aria-disabled", String(Boolean(off)));
  }

  async print() {
    if (this.go.getAttribute("aria-disabled") === "true") {
      say(this.told.textContent || "The printer is being asked.");
      return;
    }
    this.busy = true;
    this.wrong.hidden = true;
    this.go.textContent = "Handing it over …";
    this.ready();
    try {
      const asked = { setup: Number(this.printer.value), copies: Number(this.copies.value), even_so: this.evenSo.checked };
      const { sent, sent_now: now } = await api.printMade(this.id, asked);
      if (!now) say("It is at the printer already and was not sent again.");
      this.sent.add(sent, now);
    } catch (error) {
      sayError(this.wrong, error);
      await this.sent.load();
    } finally {
      this.busy = false;
      this.go.textContent = "Print at actual size";
      this.ready();
    }
  }
}

/**
 * A field with its label, put at the end of a place.
 * @template {HTMLElement} T @param {HTMLElement} place @param {string} words @param {T} field @param {string} id
 * @returns {T}
 */
function labelled(place, words, field, id) {
  const label = made("label", words, "field");
  label.htmlFor = field.id = id;
  label.append(field);
  place.append(label);
  return field;
}

/** @param {string} address */
function host(address) {
  return address.replace(/^ipps?:\/\//, "").replace(/\/.*$/, "");
}
