// How each piece came out: good, or which fault; then the likely causes, and what to change first.

import { heats } from "../../app/pressing/heats.js";
import { make } from "../../compose/dom.js";
import { freshKey } from "./sending.js";

const GOOD = "good";
const MOST_CAUSES = 3;

/** @typedef {import("./phases.js").Piece} Piece */
/** @typedef {import("./phases.js").Cause} Cause */

/** The part of a card that asks for results. */
export class Looks {
  /** The places whose fault is being chosen. @type {Set<number>} */
  #open = new Set();

  /** @param {import("./card.js").Card} card */
  constructor(card) {
    this.card = card;
    this.list = make("ul", { class: "p-looks" });
    this.done = make("div", { class: "p-acts" });
    this.element = make("div", { class: "p-look", hidden: true }, this.list, this.done);
  }

  /** @param {boolean} asked */
  show(asked) {
    this.element.hidden = !asked;
    if (!asked) return;
    const held = this.element.contains(document.activeElement);
    this.#lay();
    if (held) this.#next(0);
  }

  #lay() {
    const { pieces, phase } = this.card.heat;
    this.list.replaceChildren(...pieces.map((one) => this.#row(one)));
    this.done.replaceChildren(...(phase === "ended" ? [this.#over()] : this.#rest(pieces)));
  }

  /** @param {Piece} piece */
  #row(piece) {
    const told = piece.result && !this.#open.has(piece.place);
    const row = make("li", {
      class: "p-looked", "data-place": String(piece.place), "data-piece": piece.piece || null, "data-told": told && piece.result,
    }, make("strong", { class: "p-looked-name" }, name(piece)));
    if (told) row.append(...this.#told(piece));
    else if (this.#open.has(piece.place)) row.append(this.#faults(piece));
    else {
      row.append(
        choice("Good", "good", (button) => void this.#tell(piece, GOOD, button), name(piece)),
        choice("Fault …", "", () => this.#choose(piece), name(piece)),
      );
    }
    return row;
  }

  /** @param {Piece} piece */
  #told(piece) {
    const words = piece.result === GOOD ? "good" : heading(this.card.board.faults[piece.result] ?? piece.result)[0];
    const parts = [
      make("span", { class: "p-looked-result" }, words),
      choice("Change", "", () => this.#choose(piece), name(piece)),
    ];
    if (piece.causes?.length) parts.push(causes(piece.causes));
    return parts;
  }

  /** @param {Piece} piece */
  #faults(piece) {
    const faults = Object.entries(this.card.board.faults).map(([fault, title]) => {
      const [words, small] = heading(title);
      return choice(words, "", (button) => void this.#tell(piece, fault, button), "", small);
    });
    const good = choice("Good after all", "good", (button) => void this.#tell(piece, GOOD, button));
    return make("div", { class: "p-faults", role: "group", "aria-label": `${name(piece)}: which fault` }, ...faults, good);
  }

  /** @param {Piece} piece */
  #choose(piece) {
    this.#open.add(piece.place);
    this.#lay();
    this.list.querySelector(`[data-place="${piece.place}"] .p-faults button`)?.focus();
  }

  /** @param {Piece} piece @param {string} result @param {HTMLElement} button */
  async #tell(piece, result, button) {
    const done = await this.card.send(() => heats.look(this.card.heat.id, { place: piece.place, result, note: piece.note }), button);
    if (!done) return;
    this.#open.delete(piece.place);
    this.#lay();
    this.#next(piece.place);
  }

  /** The next piece that nobody has looked at gets the focus, else what ends it. @param {number} place */
  #next(place) {
    const left = /** @type {HTMLElement[]} */ ([...this.list.children]).filter((row) => row.dataset.told === undefined);
    const row = left.find((one) => Number(one.dataset.place) > place) ?? left[0];
    (row?.querySelector("button") ?? this.done.querySelector("button"))?.focus();
  }

  /** What ends it before all have been looked at. @param {Piece[]} pieces */
  #rest(pieces) {
    const left = pieces.filter((one) => !one.result);
    const parts = [];
    if (left.length > 1) {
      parts.push(choice(left.length === pieces.length ? "All are good" : "The others are good", "good", async (button) => {
        for (const one of left) {
          if (!(await this.card.send(() => heats.look(this.card.heat.id, { place: one.place, result: GOOD, note: one.note }), button))) return;
        }
        this.#next(0);
      }));
    }
    const id = this.card.heat.id;
    parts.push(choice("Leave the rest open", "", (button) => void this.card.send((ago) => heats.tell(id, { kind: "ended", key: freshKey(), ago_s: ago }), button)));
    return parts;
  }

  #over() {
    return choice("Done", "main", () => this.card.board.drop(this.card.heat.id));
  }
}

/** @param {Piece} piece */
function name(piece) {
  return piece.piece || `Piece ${piece.place}`;
}

/** A title's first words, and what they mean. @param {string} title @returns {[string, string]} */
function heading(title) {
  const [words, ...rest] = title.split(": ");
  return [words, rest.join(": ")];
}

/** @param {Cause[]} found */
function causes(found) {
  const [first] = found;
  return make(
    "div", { class: "p-causes" },
    make("p", { class: "p-change" }, make("strong", {}, "Change first: "), first.change),
    make("ol", {}, ...found.slice(0, MOST_CAUSES).map((one) => make(
      "li", {}, make("strong", {}, one.words), ` ${Math.round(100 * one.share)} %`, ...one.because.map((word) => make("p", {}, word)),
    ))),
  );
}

/**
 * @param {string} words @param {string} look @param {(button: HTMLButtonElement) => void} act
 * @param {string} [of] whose it is, spoken before @param {string} [small]
 */
function choice(words, look, act, of = "", small = "") {
  const made = make(
    "button", { class: `p-act${look ? ` p-act-${look}` : ""}`, type: "button" },
    of && make("span", { class: "only-spoken" }, `${of}: `), make("span", { class: "p-act-words" }, words), small && make("span", { class: "p-act-small" }, small),
  );
  made.addEventListener("click", () => act(made));
  return made;
}
