// Which pieces go in: numbers that are scanned or typed, or only how many. What a heater cannot hold waits.

import { say } from "../../app/say.js";
import { byId, make } from "../../compose/dom.js";
import { pieces } from "../watch/time.js";
import { stepper } from "./stepper.js";

const MOST = 200;
// A piece of a design's own sheet is called by its making, with a blank inside: MAKING 12-1.
const NUMBER = /MAKING \d+(?:-\d+)?(?![^\s,;])|[^\s,;]+/g;

/** The pieces of a load: `going` and `waiting` numbers, and `count`, never fewer than go. */
export class Pieces {
  capacity = 1;
  #count = 1;
  /** @type {string[]} */ #numbers = [];

  /** @param {() => void} changed */
  constructor(changed) {
    this.changed = changed;
    this.field = /** @type {HTMLInputElement} */ (byId("scan"));
    this.shown = make("output", { class: "p-count", for: "scan" });
    stepper(byId("count"), { less: "One piece less", more: "One piece more", shown: [this.shown], change: (by) => this.#step(by) });
    this.field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key !== "Enter") return;
      event.preventDefault();
      this.take();
    });
    byId("scan-add").addEventListener("click", () => { this.take(); this.field.focus(); });
  }

  /** Numbers that go in now. */
  get going() {
    return this.#numbers.slice(0, this.capacity);
  }

  /** Numbers beyond what the heater holds. */
  get waiting() {
    return this.#numbers.slice(this.capacity);
  }

  /** How many go in. */
  get count() {
    return Math.max(this.#count, this.going.length);
  }

  /** Add what stands in the field. */
  take() {
    const typed = this.field.value;
    this.field.value = "";
    this.add(typed);
  }

  /**
   * Add numbers; one that waits goes in now, before the others.
   * @param {string} text one number, or several with blanks or commas between
   */
  add(text) {
    const found = [...new Set(text.toUpperCase().match(NUMBER) ?? [])];
    if (!found.length) return;
    const [in_, waiting] = [this.going, this.waiting];
    const known = found.filter((one) => in_.includes(one));
    const called = found.filter((one) => waiting.includes(one));
    const fresh = found.filter((one) => !this.#numbers.includes(one));
    this.#numbers = [...called, ...in_, ...fresh, ...waiting.filter((one) => !called.includes(one))];
    // What was counted without numbers stays counted: the first number is one of those.
    this.#count = Math.max(this.#count, this.going.length);
    this.#wrong(known.length ? `${known.join(", ")} ${known.length === 1 ? "is" : "are"} in already.` : "");
    if (known.length < found.length) say(`${pieces(this.count)} in.`);
    this.show();
    this.changed();
  }

  /** So many, without numbers. @param {number} count */
  be(count) {
    this.#count = Math.min(MOST, Math.max(1, count));
    this.show();
  }

  /** Those that went in are no longer here. */
  gone() {
    this.#numbers = this.waiting;
    this.#count = 1;
    this.#wrong("");
  }

  /** Show them. */
  show() {
    this.shown.textContent = pieces(this.count);
    const { going } = this;
    byId("numbers").replaceChildren(...this.#numbers.map((one) => make("li", {}, make(
      "button", {
        class: `p-number${going.includes(one) ? "" : " p-number-waits"}`, type: "button", onclick: () => this.#remove(one),
        "aria-label": `Take ${one} out${going.includes(one) ? "" : ", it waits for the next load"}`,
      },
      one, make("span", { "aria-hidden": "true" }, "×"),
    ))));
  }

  /** @param {number} by */
  #step(by) {
    const least = Math.max(1, this.going.length);
    const asked = this.count + by;
    this.#wrong(asked < least && this.going.length ? "Take a number out to have fewer." : "");
    this.#count = Math.min(MOST, Math.max(least, asked));
    this.show();
    this.changed();
  }

  /** @param {string} number */
  #remove(number) {
    const unnumbered = this.count - this.going.length;
    this.#numbers = this.#numbers.filter((one) => one !== number);
    this.#count = Math.max(1, this.going.length + unnumbered);
    this.show();
    this.field.focus();
    this.changed();
  }

  /** @param {string} words */
  #wrong(words) {
    const place = byId("scan-wrong");
    place.textContent = words;
    place.hidden = !words;
  }
}
