/** One copy as drawn: its art at every lap, and above all art the border by which it is taken hold of. */

import { joined, written } from "../matrix.js";
import { lapsOf, matrixOf, standOf } from "../stand.js";
import { make, put, showIf } from "./svg.js";

/**
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../frame.js").Frame} Frame
 */

export class Piece {
  /** @param {CopyView} copy */
  constructor(copy) {
    this.key = copy.key;
    this.art = make("g", { class: "wc-piece" });
    this.hold = make("g", { class: "wc-hold" });
    /** @type {Map<number, SVGElement>} */
    this.bodies = new Map();
    /** @type {Map<number, SVGElement>} */
    this.borders = new Map();
    this.inked = "";
    /** The copy whose art is on the screen: an earlier one while new pixels are on their way. @type {CopyView} */
    this.shown = copy;
    this.copy = copy;
    /** @type {Frame | null} */
    this.frame = null;
    /** @type {Stand} */
    this.stand = { turn: 0, up: 0, turnDeg: 0, sx: 1, sy: 1 };
    this.waiting = 0;
  }

  /** @param {CopyView} copy @param {Frame} frame */
  show(copy, frame) {
    const sameFrame = this.frame?.theta === frame.theta && this.frame.lower === frame.lower;
    const inked = JSON.stringify([copy.shapes, copy.sprite, copy.rigid]);
    // A key is a number in the order: after something was put behind, it means another element with other art.
    const same = this.shown.name === copy.name && this.shown.kind === copy.kind;
    const wait = sameFrame && same && this.inked !== "" && copy.sprite && this.shown.sprite
      && this.shown.sprite.url !== copy.sprite.url;
    this.copy = copy;
    this.frame = frame;
    this.stand = standOf(copy, frame);
    for (const border of this.borders.values()) put(border, "d", copy.border);
    this.waiting += 1;
    if (wait) this.await(this.waiting, inked);
    else this.ink(inked);
    this.place(this.stand);
  }

  /** @param {number} turn of those waiting @param {string} inked */
  async await(turn, inked) {
    const picture = new Image();
    picture.src = this.copy.sprite?.url ?? "";
    try {
      await picture.decode();
    } catch {
      // A picture that cannot be had leaves the place empty, as it would without one before it.
    }
    if (turn !== this.waiting) return;
    this.ink(inked);
    this.place(this.stand);
  }

  /** @param {string} inked what the art is made of; nothing is done when it is drawn already */
  ink(inked) {
    this.shown = this.copy;
    if (inked === this.inked) return;
    this.inked = inked;
    this.bodies.clear();
    this.art.replaceChildren();
  }

  /** @param {number} lap @returns {SVGElement} */
  body(lap) {
    const made = this.bodies.get(lap);
    if (made) return made;
    const first = this.bodies.values().next().value;
    const body = first ? /** @type {SVGElement} */ (first.cloneNode(true)) : drawn(this.shown);
    this.art.append(body);
    this.bodies.set(lap, body);
    return body;
  }

  /** @param {number} lap @returns {SVGElement} */
  border(lap) {
    const made = this.borders.get(lap);
    if (made) return made;
    const border = make("path", { class: "wc-border", d: this.copy.border, "data-key": this.key, "data-lap": lap });
    if (lap !== 0) border.setAttribute("aria-hidden", "true");
    this.hold.append(border);
    this.borders.set(lap, border);
    return border;
  }

  /** Draw it where it stands now: only transforms change, and laps come and go. @param {Stand} stand */
  place(stand) {
    const { frame } = this;
    if (!frame) return;
    this.stand = stand;
    const laps = lapsOf(this.copy, frame, stand);
    const own = matrixOf(this.copy, frame, stand);
    const art = this.shown === this.copy ? own : matrixOf(this.shown, frame, this.shownStand(stand, frame));
    for (const lap of laps) {
      const carry = frame.lap(lap);
      this.body(lap).setAttribute("transform", written(joined(carry, art)));
      this.border(lap).setAttribute("transform", written(joined(carry, own)));
    }
    // The border at lap 0 holds the keyboard's focus: it is moved, never hidden.
    this.border(0).setAttribute("transform", written(own));
    for (const [lap, body] of this.bodies) showIf(body, laps.includes(lap));
    for (const [lap, border] of this.borders) showIf(border, lap === 0 || laps.includes(lap));
  }

  /** @param {Stand} stand of the copy @param {Frame} frame @returns {Stand} the same for the art still shown */
  shownStand(stand, frame) {
    const base = standOf(this.shown, frame);
    const turns = 360 * Math.round((stand.turn - base.turn) / 360);
    return {
      ...stand,
      turn: stand.turn - turns,
      sx: (stand.sx * this.copy.width_mm) / this.shown.width_mm,
      sy: (stand.sy * this.copy.height_mm) / this.shown.height_mm,
    };
  }

  remove() {
    this.waiting += 1;
    this.art.remove();
    this.hold.remove();
  }
}

/** @param {CopyView} copy @returns {SVGElement} its art in its own frame */
function drawn(copy) {
  const body = make("g", { class: "wc-body" });
  if (copy.sprite) {
    const [x, y, width, height] = copy.sprite.box;
    make("image", { href: copy.sprite.url, x, y, width, height, preserveAspectRatio: "none" }, body);
  }
  for (const shape of copy.shapes) {
    make("path", {
      d: shape.d,
      fill: shape.fill || "none",
      stroke: shape.stroke || "none",
      "stroke-width": shape.stroke_mm,
      "stroke-linejoin": "round",
      "stroke-linecap": "round",
      "fill-rule": shape.even_odd ? "evenodd" : "nonzero",
      opacity: shape.opacity,
    }, body);
  }
  return body;
}
