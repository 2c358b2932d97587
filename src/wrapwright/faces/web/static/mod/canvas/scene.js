/** Everything on the view and how it is drawn; hands ask it where things are and tell it what is in hand. */

import { format } from "../app/lengths.js";
import { Camera } from "./camera.js";
import { frameOf } from "./frame.js";
import { Held } from "./hands/held.js";
import { reach } from "./outline.js";
import { halves, lapsOf, standOfChange } from "./stand.js";
import { Grips } from "./shown/grips.js";
import { Hints, angleWords, placeWords, roundAt } from "./shown/hints.js";
import { Pieces } from "./shown/pieces.js";
import { BAR, Rulers } from "./shown/rulers.js";
import { DEEP, Scales, WIDE } from "./shown/scales.js";
import { Wrap } from "./shown/wrap.js";
import { put, showIf } from "./shown/svg.js";

/**
 * @typedef {import("./stand.js").CopyView} CopyView
 * @typedef {import("./stand.js").Stand} Stand
 * @typedef {import("./stand.js").Change} Change
 * @typedef {import("./frame.js").Frame} Frame
 * @typedef {import("./hands/snapping.js").Snap} Snap
 * @typedef {{frame: import("./frame.js").FrameView | null, solid: {coating: string} | null,
 *   lines: import("./outline.js").LineView[], copies: CopyView[]}} Drawn
 */

const FREE = 26; // px round the wrap
const NAMES = 26; // px for the names above it

export class Scene {
  /**
   * @param {ReturnType<typeof import("./layers.js").layers>} parts
   * @param {(name: string, detail?: object | null) => void} send
   */
  constructor(parts, send) {
    this.parts = parts;
    this.send = send;
    this.camera = new Camera();
    this.held = new Held(send);
    this.pieces = new Pieces(parts.arts, parts.holds);
    this.wrap = new Wrap(parts);
    this.grips = new Grips(parts.grips);
    this.hints = new Hints(parts.hints, parts.note);
    this.rulers = new Rulers(parts.rulers, parts.marks);
    this.scales = new Scales(parts.scales, parts.marks);
    /** @type {Drawn | null} */
    this.drawn = null;
    /** @type {Frame | null} */
    this.frame = null;
    /** @type {Map<string, CopyView>} */
    this.copies = new Map();
    /** @type {string[]} */
    this.selected = [];
    this.lap = 0;
    /** Elements whose width and height are each their own. @type {number[]} */
    this.both = [];
    /** A drag in hand elsewhere. @type {Change | null} */
    this.elsewhere = null;
    /** @type {{low: number, high: number}} */
    this.edges = { low: 0, high: 0 };
    this.soon = 0;
  }

  // What is shown.

  /** @param {Drawn | null} drawn */
  show(drawn) {
    const before = this.selectedCopy;
    const stood = before && this.frame && this.held.present(before, this.frame);
    const middle = this.frame && this.spot(this.camera.width / 2, this.camera.height / 2);
    this.drawn = drawn;
    this.frame = drawn?.frame ? frameOf(drawn.frame) : null;
    this.elsewhere = null;
    const shown = this.frame !== null && drawn !== null;
    for (const one of [...this.parts.sheets, this.parts.view]) showIf(one, shown);
    if (!shown || !this.frame) {
      this.copies = new Map();
      this.held.cancel();
      return;
    }
    this.copies = new Map(drawn.copies.map((copy) => [copy.key, copy]));
    this.held.redrawn(this.copies, this.frame);
    this.wrap.show(drawn.lines, this.frame, drawn.solid?.coating ?? "var(--sheet)");
    const bleed = drawn.lines.find((line) => line.kind === "bleed") ?? drawn.lines.find((line) => line.kind === "trim");
    this.edges = (bleed && reach(bleed.d, this.frame)) || { low: 0, high: this.frame.height };
    this.rulers.show(this.frame.sector ? null : this.frame);
    this.scales.show(this.frame.sector ? this.frame : null, this.edges.high);
    this.pieces.show(drawn.copies, this.frame);
    this.named(drawn.copies.length);
    this.keepLap(stood ?? null);
    if (this.camera.fitted) {
      this.fit();
      return;
    }
    // What was looked at stays in the middle, straightened or not.
    if (middle) this.camera.look(this.frame.placeTurn(middle.turn, middle.up));
    this.look();
  }

  /** @param {number} count of copies */
  named(count) {
    const frame = /** @type {Frame} */ (this.frame);
    const round = format(Math.max(frame.lower, frame.turnLength(frame.height)) + frame.view.overlap_mm
      - frame.view.gap_mm);
    put(this.parts.view, "aria-label", frame.view.plate
      ? `Flat blank, ${format(frame.lower)} wide, ${format(frame.height)} high; copies on it: ${count}`
      : `Wrap, ${round} round, ${format(frame.height)} high; copies on it: ${count}`);
  }

  /**
   * After a new drawing the handles stay on the visible copy that had them, which may now be another lap.
   * @param {Stand | null} stood
   */
  keepLap(stood) {
    const copy = this.selectedCopy;
    const frame = this.frame;
    this.selected = this.selected.filter((key) => this.copies.has(key));
    if (copy && frame && stood) {
      this.lap = this.shownLap(this.lap + Math.round((stood.turn - this.held.present(copy, frame).turn) / 360));
    }
    this.pieces.select(this.selected);
    this.grips.show(this.selectedCopy, this.frame, this.sizesBoth());
  }

  /** Draw what depends on the view's size, zoom and place. */
  look() {
    const { camera, frame } = this;
    if (!frame || camera.width === 0) return;
    const [a, b, c, d, e, f] = camera.matrix;
    for (const world of this.parts.worlds) world.setAttribute("transform", `matrix(${a} ${b} ${c} ${d} ${e} ${f})`);
    this.wrap.look(camera);
    this.rulers.look(camera);
    this.scales.look(camera);
    this.followAll();
    this.send("wrapzoom", { px_per_mm: camera.scale, fitted: camera.fitted });
  }

  /** Show the whole wrap. */
  fit() {
    const { camera, frame } = this;
    if (!frame || camera.width === 0) return;
    const edges = frame.sector
      ? { top: DEEP + FREE, right: FREE, bottom: FREE, left: WIDE + 8 }
      : { top: BAR + NAMES, right: FREE, bottom: FREE, left: BAR + FREE };
    camera.fit(frame.view.box, edges);
    this.look();
  }

  /** @param {number} width px @param {number} height px */
  resize(width, height) {
    if (width === this.camera.width && height === this.camera.height) return;
    this.camera.resize(width, height);
    if (this.camera.fitted) this.fit();
    else this.look();
  }

  // What is selected.

  /** @returns {CopyView | null} */
  get selectedCopy() {
    return this.copies.get(this.selected[0]) ?? null;
  }

  /** @param {number} lap wanted @returns {number} that one where the selected copy shows at it, else one where it does */
  shownLap(lap) {
    const copy = this.selectedCopy;
    if (!copy || !this.frame) return 0;
    const laps = lapsOf(copy, this.frame, this.standing(copy));
    return laps.includes(lap) || laps.length === 0 ? lap : laps.includes(0) ? 0 : laps[0];
  }

  sizesBoth() {
    const copy = this.selectedCopy;
    return copy !== null && this.both.includes(copy.element);
  }

  /**
   * @param {string[]} keys
   * @param {number} lap the visible copy that was taken
   * @param {boolean} tell whether listeners hear of it
   */
  select(keys, lap = 0, tell = true) {
    const known = keys.filter((key) => this.copies.has(key)).slice(0, 1);
    const same = known.length === this.selected.length && known[0] === this.selected[0];
    if (!same) this.parts.drop();
    this.selected = known;
    this.lap = this.shownLap(lap);
    this.pieces.select(known);
    this.grips.show(this.selectedCopy, this.frame, this.sizesBoth());
    this.followSelected();
    if (!same && tell) this.send("wrapselect", { keys: [...known] });
  }

  // What moves.

  /** @param {CopyView} copy @returns {Stand} where it is on the screen */
  standing(copy) {
    const frame = /** @type {Frame} */ (this.frame);
    const { elsewhere, held } = this;
    if (elsewhere?.key === copy.key && held.copy?.key !== copy.key) return standOfChange(elsewhere, copy, frame);
    return held.present(copy, frame);
  }

  /** @param {string} key draw that copy where it stands now */
  follow(key) {
    const copy = this.copies.get(key);
    if (!copy || !this.frame) return;
    this.pieces.get(key)?.place(this.standing(copy));
    if (this.selected[0] === key) this.followSelected();
  }

  followAll() {
    for (const [key, copy] of this.copies) {
      const piece = this.pieces.get(key);
      const stand = this.standing(copy);
      if (piece && piece.stand !== stand) piece.place(stand);
    }
    this.followSelected();
  }

  followSelected() {
    const copy = this.selectedCopy;
    const { frame, camera } = this;
    if (!copy || !frame || camera.width === 0) {
      this.rulers.selection(null);
      this.scales.selection(null);
      return;
    }
    const stand = this.standing(copy);
    this.grips.place(copy, frame, stand, this.lap, camera);
    const { across, along } = halves(copy, frame, stand);
    const mark = copy.fixed ? null : { turn: stand.turn + 360 * this.lap, up: stand.up, across, along };
    this.rulers.selection(mark);
    this.scales.selection(mark);
  }

  /**
   * What is in hand stands here now: drawn at the next frame, told once a frame.
   * @param {Stand} stand
   * @param {Snap[]} [snaps]
   * @param {string} [words] figures beside it
   */
  carry(stand, snaps = [], words = "") {
    const { held, frame, camera } = this;
    if (!held.copy || !frame) return;
    held.stand = stand;
    this.follow(held.copy.key);
    const lapped = snaps.map((snap) => ({ ...snap, turn: (snap.turn ?? 0) + 360 * this.lap }));
    this.hints.snaps(lapped, frame, stand, camera, this.edges);
    this.hints.figures(words || placeWords(frame, stand), held.copy, frame, stand, this.lap, camera);
    held.live();
  }

  /** @param {CopyView} copy begin to carry it */
  take(copy) {
    if (!this.frame) return;
    this.elsewhere = null;
    this.held.take(copy, this.frame);
    this.parts.host.toggleAttribute("data-carrying", true);
  }

  /** Let go of what is in hand. */
  drop() {
    const dropped = this.held.drop();
    this.settle();
    if (!dropped || !this.frame) return;
    const stand = this.held.present(dropped, this.frame);
    const at = angleWords(this.frame.atOf(stand.turn)).replace("°", " degrees");
    this.parts.said.textContent = this.frame.view.plate
      ? `${dropped.name}: ${placeWords(this.frame, stand)}`
      : `${dropped.name}: ${at} round, ${format(stand.up)} up`;
  }

  /** Put back what is in hand. */
  putBack() {
    const copy = this.held.cancel();
    this.settle();
    if (copy) this.follow(copy.key);
  }

  settle() {
    this.hints.clear();
    this.parts.host.toggleAttribute("data-carrying", false);
  }

  /** @param {Change | null} change a drag in hand elsewhere, shown here too */
  changed(change) {
    const before = this.elsewhere;
    if (change && this.held.copy?.key === change.key) return;
    this.elsewhere = change;
    if (before && before.key !== change?.key) this.follow(before.key);
    if (change) this.follow(change.key);
  }

  /** Draw every copy as the last drawing has it. */
  forget() {
    this.held.cancel();
    this.held.forget();
    this.elsewhere = null;
    this.settle();
    this.followAll();
  }

  // Where things are.

  /**
   * @param {number} x px of the view
   * @param {number} y
   * @returns {{at: number, up: number, turn: number}} the place on the wrap, beyond its edges too
   */
  spot(x, y) {
    const frame = /** @type {Frame} */ (this.frame);
    const mm = this.camera.mm(x, y);
    return frame.read(mm.x, mm.y);
  }

  /** @param {{at: number, up: number, turn: number} | null} spot under the pointer */
  pointed(spot) {
    const { frame } = this;
    this.rulers.cursor(spot);
    this.scales.cursor(spot);
    const x = spot && frame ? roundAt(frame, spot.turn, spot.up) : 0;
    this.send("wrapcursor", spot && { at_deg: spot.at, up_mm: spot.up, x_mm: x, y_mm: spot.up });
  }

  /** @returns {number[]} angles of the side lines */
  sides() {
    const lines = this.drawn?.lines.filter((line) => line.kind === "side" && line.at_deg !== null) ?? [];
    return lines.length > 0 ? lines.map((line) => Number(line.at_deg)) : [0, 90, 180, 270];
  }

  /** @returns {boolean} whether the wrap is a sector, or one shown straightened */
  tapers() {
    return this.frame !== null && (this.frame.sector || this.frame.view.kind === "straight");
  }

  /** @param {number} factor */
  zoomBy(factor) {
    const { camera } = this;
    const copy = this.selectedCopy;
    const at = copy && this.frame ? this.frame.placeTurn(this.standing(copy).turn + 360 * this.lap, copy.up_mm) : null;
    const px = at ? camera.px(at.x, at.y) : { x: camera.width / 2, y: camera.height / 2 };
    camera.zoom(camera.scale * factor, px.x, px.y);
    this.look();
  }
}
