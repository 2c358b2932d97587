/**
 * What is in hand: one copy, from where it was taken to where it is now, and what was dropped but not yet drawn anew.
 *
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../frame.js").Frame} Frame
 */

import { changeOf, changesOf, sameStand, standOf } from "../stand.js";

/**
 * @param {CopyView} was
 * @param {CopyView} is
 * @param {Stand} stand
 * @returns {Stand} the same size, as a multiple of the new one
 */
function onto(was, is, stand) {
  return { ...stand, sx: (stand.sx * was.width_mm) / is.width_mm, sy: (stand.sy * was.height_mm) / is.height_mm };
}

export class Held {
  /** @param {(name: string, detail?: object) => void} send */
  constructor(send) {
    this.send = send;
    /** @type {CopyView | null} */
    this.copy = null;
    /** @type {Frame | null} */
    this.frame = null;
    /** @type {Stand | null} */
    this.from = null;
    /** @type {Stand | null} */
    this.stand = null;
    /** @type {Stand | null} what listeners last heard */
    this.said = null;
    /** @type {Map<string, {copy: CopyView, stand: Stand}>} dropped, and waiting to be drawn */
    this.dropped = new Map();
    this.replies = 0;
    /** Taken before an earlier drop of it was drawn. */
    this.ahead = false;
  }

  get active() {
    return this.copy !== null;
  }

  /** @param {CopyView} copy @param {Frame} frame @returns {Stand} where it stands on the screen */
  present(copy, frame) {
    if (this.copy?.key === copy.key && this.stand) return this.stand;
    return this.dropped.get(copy.key)?.stand ?? standOf(copy, frame);
  }

  /** @param {CopyView} copy @param {Frame} frame */
  take(copy, frame) {
    this.ahead = this.dropped.has(copy.key);
    this.from = this.present(copy, frame);
    this.stand = this.from;
    this.said = this.from;
    this.copy = copy;
    this.frame = frame;
  }

  /** Tell, at most once for one place. */
  live() {
    const { copy, frame, stand, said } = this;
    if (!copy || !frame || !stand || !said || sameStand(said, stand)) return;
    this.said = stand;
    this.send("wraplive", changeOf(copy.key, stand, frame));
  }

  /** @returns {CopyView | null} the copy that was let go, when it now stands elsewhere */
  drop() {
    const { copy, frame, from, stand } = this;
    if (!copy || !frame || !from || !stand) return null;
    this.live();
    this.copy = null;
    const changes = changesOf(copy, from, stand, frame);
    if (Object.keys(changes).length === 0) return null;
    this.dropped.set(copy.key, { copy, stand });
    this.replies += 1;
    this.send("wrapchange", { key: copy.key, element: copy.element, copy: copy.copy, changes });
    return copy;
  }

  /** Put it back where it was taken. @returns {CopyView | null} */
  cancel() {
    const { copy } = this;
    if (!copy) return null;
    this.copy = null;
    this.send("wrapcancel", { key: copy.key });
    return copy;
  }

  /** Forget what was dropped, as when it could not be kept. */
  forget() {
    this.dropped.clear();
    this.replies = 0;
  }

  /**
   * A new drawing came: what it already shows is no longer in hand.
   * @param {Map<string, CopyView>} copies
   * @param {Frame} frame
   */
  redrawn(copies, frame) {
    this.replies = Math.max(0, this.replies - 1);
    for (const [key, { copy, stand }] of this.dropped) {
      const now = copies.get(key);
      if (!now || this.replies === 0) this.dropped.delete(key);
      else this.dropped.set(key, { copy: now, stand: onto(copy, now, stand) });
    }
    const { copy, from, stand } = this;
    if (!copy || !from || !stand) return;
    const now = copies.get(copy.key);
    if (!now || now.fixed) {
      this.cancel();
      return;
    }
    // A size that was dropped before is now the copy's own; one that came from elsewhere is the hand's as well.
    if (this.ahead) {
      this.from = onto(copy, now, from);
      this.stand = onto(copy, now, stand);
      this.said = this.said && onto(copy, now, this.said);
    }
    this.ahead = this.dropped.has(copy.key);
    this.copy = now;
    this.frame = frame;
  }
}
