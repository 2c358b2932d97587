/** All copies, bottom to top, kept as they are where nothing changed: the focus stays, pixels do not flicker. */

import { Piece } from "./piece.js";
import { put } from "./svg.js";

/**
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../frame.js").Frame} Frame
 */

export class Pieces {
  /**
   * @param {SVGElement} art
   * @param {SVGElement} holds
   */
  constructor(art, holds) {
    this.art = art;
    this.holds = holds;
    /** @type {Map<string, Piece>} */
    this.byKey = new Map();
  }

  /** @param {CopyView[]} copies @param {Frame} frame */
  show(copies, frame) {
    const focused = this.holds.contains(document.activeElement) ? document.activeElement : null;
    const wanted = new Set(copies.map((copy) => copy.key));
    for (const [key, piece] of this.byKey) {
      if (wanted.has(key)) continue;
      piece.remove();
      this.byKey.delete(key);
    }
    const pieces = copies.map((copy) => {
      const piece = this.byKey.get(copy.key) ?? new Piece(copy);
      this.byKey.set(copy.key, piece);
      piece.show(copy, frame);
      spoken(piece);
      return piece;
    });
    ordered(this.art, pieces.map((piece) => piece.art));
    // What goes all round lies under the hand's way to everything else.
    const grounds = pieces.filter((piece) => piece.copy.fixed);
    const others = pieces.filter((piece) => !piece.copy.fixed);
    ordered(this.holds, [...grounds, ...others].map((piece) => piece.hold));
    if (focused?.isConnected && document.activeElement !== focused) {
      /** @type {SVGElement} */ (focused).focus({ preventScroll: true });
    }
  }

  /** @param {string[]} keys */
  select(keys) {
    for (const piece of this.byKey.values()) put(piece.border(0), "aria-pressed", String(keys.includes(piece.key)));
  }

  /** @param {string} key @returns {Piece | undefined} */
  get(key) {
    return this.byKey.get(key);
  }
}

/** @param {Piece} piece */
function spoken(piece) {
  const border = piece.border(0);
  put(border, "role", "button");
  put(border, "tabindex", 0);
  put(border, "aria-label", piece.copy.spoken || piece.copy.name);
  piece.hold.classList.toggle("wc-ground", piece.copy.fixed);
}

/** @param {Element} parent @param {Element[]} children its children from now on, moved only where the order changed */
function ordered(parent, children) {
  children.forEach((child, index) => {
    if (parent.children[index] !== child) parent.insertBefore(child, parent.children[index] ?? null);
  });
}
