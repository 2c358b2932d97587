// The one state of the page: the document, what is drawn of it, what is selected, what is being dragged.

import { copiesOf } from "./document/places.js";
import { elementsOf, goesRound } from "./document/elements.js";
import { alike, withFields } from "./document/wording.js";

/**
 * @typedef {Record<string, any>} Job
 * @typedef {{element: number, copy: number}} Chosen
 * @typedef {{key: string, at_deg: number, up_mm: number, turn_deg: number, scale_x: number, scale_y: number}} Changing
 * @typedef {"job"|"drawn"|"selected"|"changing"|"checks"|"saving"|"design"|"frame"} Part
 */

/** Keys of copies are "ELEMENT.COPY", as the server draws them. @param {number} element @param {number} copy */
export function keyOf(element, copy) {
  return `${element}.${copy}`;
}

/** @param {string} key @returns {Chosen} */
export function chosenOf(key) {
  const [element, copy] = key.split(".").map(Number);
  return { element, copy: copy || 0 };
}

export class Bench {
  /** @param {{design: any, drawn: any}} reply */
  constructor({ design, drawn }) {
    this.design = design;
    /** @type {Job} */
    this.job = design.document;
    /** The frame of the true flat shape, which is drawn no more while the wrap is straightened. @type {any} */
    this.flat = null;
    this.drawn = drawn;
    /** @type {string[]} */
    this.selected = [];
    /** @type {Changing|null} */
    this.changing = null;
    this.dropped = false;
    /** @type {{state: string, error?: any}} */
    this.saving = { state: "saved" };
    /** @type {"flat"|"straight"} */
    this.frame = "flat";
    // `step` counts the edits, `shape` those that change which copy is which.
    this.tag = { step: 0, shape: 0 };
    this.drawnShape = 0;
    /** @type {import("./saving/saving.js").Saving|null} */
    this.way = null;
    /** @type {{change: (job: Job) => any, how: object}[]} */
    this.later = [];
    /** @type {Set<(parts: Set<Part>) => void>} */
    this.listeners = new Set();
  }

  get drawn() {
    return this.shown;
  }

  set drawn(drawn) {
    this.shown = drawn;
    if (drawn.frame?.kind === "flat") this.flat = drawn.frame;
  }

  /** @param {(parts: Set<Part>) => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  /** @param {Part[]} parts */
  tell(...parts) {
    const changed = new Set(parts);
    for (const listener of this.listeners) listener(changed);
  }

  /** Whether what is drawn has the same copies as the document. */
  get inStep() {
    return this.drawnShape === this.tag.shape;
  }

  /** The copy that fields and keys work on. @returns {Chosen|null} */
  get chosen() {
    return this.selected.length ? chosenOf(this.selected[this.selected.length - 1]) : null;
  }

  /** What is drawn of a copy, or null. @param {Chosen|null} chosen */
  copyDrawn(chosen) {
    if (!chosen || !this.inStep) return null;
    return this.drawn.copies.find((one) => one.element === chosen.element && one.copy === chosen.copy) ?? null;
  }

  /** @param {string[]} keys */
  select(keys) {
    const parts = this.reselect(keys);
    if (parts.length) this.tell(...parts);
  }

  /** Keep of a selection what there is. @param {string[]} keys @returns {Part[]} "selected" where it changed */
  reselect(keys) {
    const known = keys.filter((key) => this.has(chosenOf(key)));
    if (alike(known, this.selected)) return [];
    this.selected = known;
    return ["selected"];
  }

  /** @param {Chosen} chosen */
  has({ element, copy }) {
    const one = elementsOf(this.job)[element];
    return Boolean(one) && (goesRound(one) ? copy === 0 : copy < copiesOf(one).length);
  }

  /**
   * A drag in hand, or one that was dropped: that shows until the server's answer. Null calls it off.
   * @param {Changing|null} changing
   * @param {boolean} [dropped]
   */
  change(changing, dropped = false) {
    this.changing = changing;
    this.dropped = dropped;
    if (changing) this.tell("changing");
    else this.tell("changing", "drawn");
  }

  /**
   * Change the document and send it. While the server is asked for a step back or a set-up, the change waits for the
   * document that comes of it.
   * @param {(job: Job) => Job} change
   * @param {{selected?: string[], reshaped?: boolean, pause_ms?: number}} [how] `reshaped`: copies are counted anew.
   */
  edit(change, how = {}) {
    if (this.way?.ordered) {
      this.later.push({ change, how });
      return;
    }
    const next = withFields(change(this.job));
    if (next === this.job || alike(next, this.job)) {
      if (how.selected) this.select(how.selected);
      if (this.dropped) this.change(null);
      return;
    }
    this.job = next;
    this.tag = { step: this.tag.step + 1, shape: this.tag.shape + (how.reshaped ? 1 : 0) };
    this.tell("job", ...this.reselect(how.selected ?? this.selected));
    this.way?.save(next, this.tag, how.pause_ms);
  }

  /**
   * Take over what the server answered.
   * @param {{design: any, drawn: any}} reply
   * @param {{step: number, shape: number}|null} tag of the document that was sent; null when it was the server's own.
   * @param {boolean} more whether something newer waits
   */
  take(reply, tag, more) {
    this.design = reply.design;
    if (more && !(tag && tag.shape === this.tag.shape)) return this.tell("design");
    if (!more) {
      if (tag === null) this.tag = { step: this.tag.step + 1, shape: this.tag.shape + 1 };
      if (tag === null || tag.step === this.tag.step) this.job = reply.design.document;
      if (this.dropped) this.changing = null;
      this.dropped = false;
    }
    this.drawn = reply.drawn;
    this.drawnShape = tag === null ? this.tag.shape : tag.shape;
    this.tell("design", "job", "drawn", "changing", ...this.reselect(this.selected));
    this.caughtUp();
  }

  /** Do the edits that waited for the server's answer. */
  caughtUp() {
    for (const { change, how } of this.later.splice(0)) this.edit(change, how);
  }

  /** Show another drawing of the very document that is here: of another frame, or made here while the server is away. */
  redraw(drawn) {
    this.drawn = drawn;
    this.changing = null;
    this.tell("changing", "drawn");
  }
}
