/**
 * The drag in hand anywhere on the screen, kept for a moment after the drop.
 *
 * Between a drop and the design's answer the old places would flash up again: what was changing stays until new places
 * arrive, the change is called off, or the answer takes too long.
 *
 * @typedef {{key: string, at_deg: number, up_mm: number, turn_deg: number, scale_x: number, scale_y: number}} Changing
 */

const LONGEST_MS = 4000;

export class Held {
  /** @param {() => void} changed called whenever `now` is another value */
  constructor(changed) {
    this.changed = changed;
    /** @type {Changing | null} */
    this.now = null;
    this.waiting = false;
    this.timer = 0;
  }

  /** @param {Changing | null} value null after the drop */
  set(value) {
    clearTimeout(this.timer);
    this.waiting = value === null && this.now !== null;
    if (value !== null) {
      this.now = { ...value };
      this.changed();
    } else if (this.waiting) {
      this.timer = window.setTimeout(() => this.release(), LONGEST_MS);
    }
  }

  /** New places arrived: a drag that is over gives way to them, one in hand goes on. */
  answered() {
    if (this.waiting) {
      this.release();
    }
  }

  /** Back to the places of the design. */
  release() {
    clearTimeout(this.timer);
    this.waiting = false;
    if (this.now !== null) {
      this.now = null;
      this.changed();
    }
  }
}
