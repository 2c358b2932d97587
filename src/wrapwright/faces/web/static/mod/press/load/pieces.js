// Which pieces go in: numbers that are scanned or typed, or only how many.

import { say } from "../../app/say.js";
import { byId, make } from "../../compose/dom.js";
import { pieces } from "../watch/time.js";
import { stepper } from "./stepper.js";

const MOST = 200;

/** The pieces of a load: `numbers`, and `count`, never less. */
export class Pieces {
  /** @type {string[]} */ numbers = [];
  count = 1;

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
    this.#lay();
  }

  /** Add what stands in the field. */
  take() {
    const typed = this.field.value;
    this.field.value = "";
    this.add(typed);
  }

  /** @param {string} text one number, or several with blanks or commas between */
  add(text) {
    const found = text.split(/[\s,;]+/).filter(Boolean);
    if (!found.length) return;
    const fresh = found.filter((one, at) => !this.numbers.includes(one) && found.indexOf(one) === at);
    const known = found.length - fresh.length;
    this.numbers.push(...fresh);
    this.count = Math.max(this.count, this.numbers.length);
    this.#wrong(known ? `${found.find((one) => !fresh.includes(one)) ?? found[0]} is in already.` : "");
    if (fresh.length) say(`${fresh.join(", ")} in: ${pieces(this.count)}.`);
    this.#lay();
    this.changed();
  }

  /** None, and one to be counted. */
  clear() {
    this.numbers = [];
    this.count = 1;
    this.#wrong("");
    this.#lay();
  }

  /** @param {number} by */
  #step(by) {
    const least = Math.max(1, this.numbers.length);
    const asked = this.count + by;
    if (asked < least && this.numbers.length) this.#wrong("Take a number out below to have fewer.");
    else this.#wrong("");
    this.count = Math.min(MOST, Math.max(least, asked));
    this.#lay();
    this.changed();
  }

  /** @param {string} number */
  #remove(number) {
    this.numbers = this.numbers.filter((one) => one !== number);
    this.count = Math.max(1, this.count - 1);
    this.#lay();
    this.field.focus();
    this.changed();
  }

  #lay() {
    this.shown.textContent = pieces(this.count);
    byId("numbers").replaceChildren(...this.numbers.map((one) => make("li", {}, make(
      "button", { class: "p-number", type: "button", "aria-label": `Take ${one} out`, onclick: () => this.#remove(one) },
      one, make("span", { "aria-hidden": "true" }, "×"),
    ))));
  }

  /** @param {string} words */
  #wrong(words) {
    const place = byId("scan-wrong");
    place.textContent = words;
    place.hidden = !words;
  }
}
