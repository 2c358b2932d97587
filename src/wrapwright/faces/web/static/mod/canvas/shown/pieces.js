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
   * @param {SVGElement[]} arts what lies below the selected copy, that copy, and what lies above it
   * @param {SVGElement} holds
   */
  constructor(arts, holds) {
    this.arts = arts;
    this.holds = holds;
    /** @type {string | undefined} */
    this.apart = undefined;
    /** @type {Piece[]} */
    this.order = [];
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
    this.stack(pieces);
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
    if (keys[0] === this.apart) return;
    this.apart = keys[0];
    this.stack(this.order);
  }

  /**
   * Lay the art bottom to top, the selected copy on a sheet of its own: so a drag paints that copy alone.
   * @param {Piece[]} pieces
   */
  stack(pieces) {
    this.order = pieces;
    const at = pieces.findIndex((piece) => piece.key === this.apart);
    const cut = at < 0 ? pieces.length : at;
    const lots = [pieces.slice(0, cut), pieces.slice(cut, cut + 1), pieces.slice(cut + 1)];
    lots.forEach((lot, index) => ordered(this.arts[index], lot.map((piece) => piece.art)));
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
