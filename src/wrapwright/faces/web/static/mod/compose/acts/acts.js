// Everything that can be done to the design, whichever button, key or gesture asks for it.

import { frameOf } from "../../canvas/frame.js";
import { say } from "../../app/say.js";
import { addedCode, addedFill, addedPicture, addedText, addedTile } from "../document/adding.js";
import {
  changed, duplicated, elementsOf, goesRound, namesOf, oppositeCopy, removed, removedCopy, reordered, spread, withValue,
} from "../document/elements.js";
import { copiesOf, isFlat, onBlank, placeWords } from "../document/places.js";
import { chosenOf, keyOf } from "../bench.js";
import { ahead } from "./ahead.js";

/** @typedef {import("../bench.js").Bench} Bench */

export class Acts {
  /** @param {Bench} bench */
  constructor(bench) {
    this.bench = bench;
  }

  /** How much room there is, for the size that something new starts with. */
  room() {
    const { frame } = this.bench.drawn;
    if (!frame) return { turn_mm: 240, height_mm: 100 };
    return { turn_mm: frameOf(frame).turnLength(frame.height_mm / 2), height_mm: frame.height_mm };
  }

  /** @param {(job: any) => {job: any, element: number}} adding */
  add(adding) {
    const made = adding(this.bench.job);
    this.bench.edit((job) => adding(job).job, { selected: [keyOf(made.element, 0)], reshaped: true });
    say(`${namesOf(made.job)[made.element]} added.`);
  }

  /** A place as the document holds it. @param {any} [place] */
  spot(place) {
    return place && onBlank(this.bench.drawn.frame, place);
  }

  addText(place) {
    this.add((job) => addedText(job, "Your words", this.room(), this.spot(place)));
  }

  addFill() {
    this.add((job) => addedFill(job, "#cfe3de"));
  }

  addCode(place) {
    this.add((job) => addedCode(job, String(job.title ?? "") || "Words of the code", this.room(), this.spot(place)));
  }

  /** @param {{file: string, name: string, aspect: number}} picture @param {object} [place] */
  addPicture(picture, place) {
    this.add((job) => addedPicture(job, picture, this.room(), this.spot(place)));
  }

  /** @param {{file: string, name: string}} picture */
  addTile(picture) {
    this.add((job) => addedTile(job, picture, this.room()));
  }

  /** Put another picture in the place of the chosen element's. @param {string} file */
  replacePicture(file) {
    const { chosen } = this.bench;
    if (chosen) this.bench.edit((job) => withValue(job, chosen.element, "file", file));
  }

  /** What a drop or a burst of keys changed. @param {{key: string, element: number, copy: number, changes: any}} drop */
  drop(drop) {
    const seen = this.bench.copyDrawn(drop);
    if (!seen) {
      this.bench.change(null);
      say("The wrap shows an older state until the server answers; change this element by its figures.");
      return;
    }
    const { changes } = drop;
    const written = { ...drop, changes: onBlank(this.bench.drawn.frame, changes) };
    if (this.bench.saving.state === "away") {
      this.bench.edit((job) => changed(job, written, seen));
      return this.bench.redraw(ahead(this.bench.drawn, drop));
    }
    // Until the answer comes every view goes on showing what was dropped.
    this.bench.change({
      key: drop.key,
      at_deg: changes.at_deg ?? seen.at_deg,
      up_mm: changes.up_mm ?? seen.up_mm,
      turn_deg: changes.turn_deg ?? seen.turn_deg,
      scale_x: changes.width_mm === undefined ? 1 : changes.width_mm / seen.width_mm,
      scale_y: changes.height_mm === undefined ? 1 : changes.height_mm / seen.height_mm,
    }, true);
    this.bench.edit((job) => changed(job, written, seen));
  }

  duplicate() {
    const { chosen } = this.bench;
    if (!chosen) return;
    const made = duplicated(this.bench.job, chosen.element);
    this.bench.edit((job) => duplicated(job, chosen.element).job, { selected: [keyOf(made.element, 0)], reshaped: true });
    say(`${namesOf(made.job)[made.element]} added.`);
  }

  opposite() {
    const { chosen } = this.bench;
    const element = chosen && elementsOf(this.bench.job)[chosen.element];
    if (!element) return;
    if (isFlat(this.bench.job)) return say("A flat blank has only a front.");
    if (goesRound(element)) return say("This goes all round; it has no opposite.");
    const made = oppositeCopy(this.bench.job, chosen.element, chosen.copy);
    const selected = [keyOf(chosen.element, made.copy)];
    const where = placeWords(copiesOf(elementsOf(made.job)[chosen.element])[made.copy]);
    if (made.already) {
      this.bench.select(selected);
      return say(`There is a copy exactly opposite already, at ${where}; it is selected.`);
    }
    this.bench.edit((job) => oppositeCopy(job, chosen.element, chosen.copy).job, { selected, reshaped: true });
    say(`A copy stands exactly opposite, at ${where}.`);
  }

  /** @param {number} count */
  spread(count) {
    const { chosen } = this.bench;
    const element = chosen && elementsOf(this.bench.job)[chosen.element];
    if (!element || goesRound(element) || isFlat(this.bench.job)) return;
    this.bench.edit((job) => spread(job, chosen.element, chosen.copy, count), { selected: [keyOf(chosen.element, 0)], reshaped: true });
    say(count === 1 ? "One copy." : `${count} copies evenly round.`);
  }

  /** Remove the selected copies; an element goes with its last copy. */
  remove() {
    const keys = [...this.bench.selected].map(chosenOf).sort((one, other) => other.element - one.element || other.copy - one.copy);
    if (!keys.length) return;
    this.bench.edit(
      (job) => keys.reduce((next, { element, copy }) => removedCopy(next, element, copy), job), { selected: [], reshaped: true });
    say("Removed.");
  }

  /** Remove the chosen element with all its copies. */
  removeElement() {
    const { chosen } = this.bench;
    if (!chosen) return;
    this.bench.edit((job) => removed(job, chosen.element), { selected: [], reshaped: true });
    say("Removed.");
  }

  /** Move the chosen element in the order: 1 nearer to the front, -1 nearer to the back. @param {number} way */
  order(way) {
    const { chosen } = this.bench;
    const to = (chosen?.element ?? 0) + way;
    if (!chosen || to < 0) return;
    if (to >= elementsOf(this.bench.job).length) return;
    this.bench.edit((job) => reordered(job, chosen.element, to), { selected: [keyOf(to, chosen.copy)], reshaped: true });
    say(way > 0 ? "One nearer to the front." : "One nearer to the back.");
  }

  /** @param {"undo"|"redo"} verb */
  step(verb) {
    const { way, design, saving } = this.bench;
    if (!way || (way.settled && !(verb === "undo" ? design.can_undo : design.can_redo))) return;
    if (saving.state === "away") return say(`${verb === "undo" ? "Undo" : "Redo"} needs the server, which does not answer just now.`);
    way.order(verb);
  }
}
