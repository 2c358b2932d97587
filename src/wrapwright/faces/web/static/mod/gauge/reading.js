// One strip's reading: a picture of its ends, a slide that moves them, and the two marks that are typed.

import { format } from "../app/lengths.js";
import { drawVernier, flatOf, marksOf } from "./vernier.js";

/** A reading; tells `reading` on its node whenever its flat length changes. */
export class Reading {
  /** @param {string} key @param {{divisions: number, step: number}} gauge */
  constructor(key, gauge) {
    this.gauge = gauge;
    this.node = /** @type {HTMLElement} */ (document.getElementById(`${key}-reading`));
    const part = (/** @type {string} */ name) => /** @type {any} */ (document.getElementById(`${key}-${name}`));
    [this.picture, this.slide, this.head, this.line, this.told] = ["vernier", "slide", "head", "line", "flat"].map(part);
    this.flat = NaN;
    this.slide.addEventListener("input", () => this.slid());
    for (const one of [this.head, this.line]) {
      one.addEventListener("input", () => this.typed(false));
      one.addEventListener("change", () => this.typed(true));
    }
    document.addEventListener("wrapunit", () => this.tell());
    drawVernier(this.picture, 235.7, gauge);
  }

  /** Take the range that a strip reads. @param {{reads_mm?: number[], low_mm: number, high_mm: number}} strip */
  reach(strip) {
    const { low_mm: low, high_mm: high } = strip;
    if (Number(this.slide.min) === low && Number(this.slide.max) === high) return;
    Object.assign(this.slide, { min: String(low), max: String(high), value: String((low + high) / 2) });
    if (Number.isFinite(this.flat)) this.slide.value = String(this.flat);
    else drawVernier(this.picture, Math.floor((low + high) / 2) + 0.7, this.gauge);
  }

  slid() {
    const { head, line } = marksOf(Number(this.slide.value), this.gauge.divisions);
    this.head.value = String(head);
    this.line.value = String(line);
    this.typed(true);
  }

  /** @param {boolean} done whether the typing of a field is done, so that it may be called wrong */
  typed(done) {
    const typed = [this.head, this.line].map((one) => one.value.trim().replace(",", "."));
    const whole = typed.every((one) => one !== "");
    const [head, line] = typed.map(Number);
    this.flat = whole ? flatOf(head, line, this.gauge.divisions) : NaN;
    const wrong = whole && done && !Number.isFinite(this.flat);
    this.say(wrong ? `The head's mark is a whole millimetre, and the vernier's lines are 0 to ${this.gauge.divisions} or a half between two.` : "");
    if (Number.isFinite(this.flat)) {
      this.slide.value = String(this.flat);
      drawVernier(this.picture, this.flat, this.gauge);
    }
    this.tell();
    this.node.dispatchEvent(new CustomEvent("reading"));
  }

  /** @param {string} words */
  say(words) {
    const place = /** @type {HTMLElement} */ (this.node.querySelector(".field-wrong"));
    for (const one of [this.head, this.line]) {
      if (words) one.setAttribute("aria-invalid", "true");
      else one.removeAttribute("aria-invalid");
    }
    place.textContent = words;
    place.hidden = !words;
  }

  tell() {
    this.told.textContent = Number.isFinite(this.flat) ? format(this.flat, 2) : "–";
  }
}
