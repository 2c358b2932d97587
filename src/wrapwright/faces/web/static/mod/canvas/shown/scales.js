/**
 * Scales of a tapered wrap. A straight ruler would say nothing true of an arc, so they follow the wrap: along the rim
 * the arc in mm at the band's middle height and the angle, every mark a line of one angle; along the left end mm up.
 * When that edge is out of view they ride along the view's own edge.
 */

import { unitWord } from "../../app/lengths.js";
import { make, put, showIf } from "./svg.js";
import { ticks } from "./ticks.js";

/**
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../camera.js").Camera} Camera
 * @typedef {import("./rulers.js").Spot} Spot
 * @typedef {import("./rulers.js").Reach} Reach
 */

export const DEEP = 64; // px the rim's scale takes outwards, the names below it included
export const WIDE = 48; // px the left end's takes
const FOOT = 24; // px from the rim to the scale's line
const SIDE = 12; // px from the left end to its line
const RIM_PX = 42; // least from the view's upper edge
const END_PX = 40; // least from its left edge
const LENGTHS = [4, 6, 9];
const DEGREES = [30, 90, 180];
const DEGREES_PX = 34; // least from one angle's figure to the next
const UNIT_PX = 30; // least from the last figure to the unit

export class Scales {
  /** @param {SVGElement} layer @param {SVGElement} marks what moves with the pointer and the selection */
  constructor(layer, marks) {
    this.layer = layer;
    this.moving = make("g", {}, marks);
    this.band = make("path", { class: "wc-scale-band" }, layer);
    this.marks = make("path", { class: "wc-ticks" }, layer);
    this.figures = make("g", { class: "wc-figures wc-figures-middle" }, layer);
    this.degrees = make("g", { class: "wc-degrees" }, layer);
    this.ups = make("g", { class: "wc-figures wc-figures-end" }, layer);
    this.cursors = [0, 1].map(() => make("path", { class: "wc-cursor" }, this.moving));
    this.markers = [0, 1].map(() => make("path", { class: "wc-marker", d: "M-5 -9H5L0 -1Z" }, this.moving));
    /** @type {Frame | null} */
    this.frame = null;
    /** @type {Camera | null} */
    this.camera = null;
    this.top = 0;
    /** Where the two scales lie: mm up, and a turn. */
    this.rim = 0;
    this.end = 0;
  }

  /** @param {Frame | null} frame null where rulers are used @param {number} top of the wrap with its bleed, mm up */
  show(frame, top) {
    this.frame = frame;
    this.top = top;
    showIf(this.layer, frame !== null);
    showIf(this.moving, frame !== null);
  }

  /** @param {Camera} camera */
  look(camera) {
    const { frame } = this;
    this.camera = camera;
    if (!frame) return;
    const { width, height, scale } = camera;
    const seen = (/** @type {number} */ x, /** @type {number} */ y) => {
      const { x: a, y: b } = camera.mm(x, y);
      return frame.read(a, b);
    };
    // Out of view, the edge's scale comes to lie where all of it is on the view.
    const shares = [0.08, 0.5, 0.92];
    this.rim = Math.min(this.top + FOOT / scale, ...shares.map((share) => seen(width * share, RIM_PX).up));
    const left = (360 * (frame.view.gap_mm / 2)) / frame.turnLength(frame.height / 2);
    this.end = Math.max(left, ...shares.map((share) => seen(END_PX + SIDE, height * share).turn));
    const right = 360 - left + (360 * frame.view.overlap_mm) / frame.turnLength(frame.height / 2);
    this.draw(frame, camera, left, right);
  }

  /** @param {Frame} frame @param {Camera} camera @param {number} left turn @param {number} right turn */
  draw(frame, camera, left, right) {
    const middle = frame.turnLength(frame.height / 2);
    const arc = ticks(0, (middle * (right - left)) / 360, (camera.scale * frame.turnLength(this.rim)) / middle);
    const ups = ticks(0, frame.height, camera.scale);
    const turnOf = (/** @type {number} */ mm) => (360 * (mm + frame.view.gap_mm / 2)) / middle;
    const round = arc.map((tick) => ({ ...tick, at: this.rimSpot(turnOf(tick.mm)) }));
    const along = ups.map((tick) => ({ ...tick, at: this.endSpot(tick.mm) }));
    const line = [];
    for (let i = 0; i <= 60; i += 1) line.push(this.rimSpot(left + ((right - left) * i) / 60));
    const rail = line.map(({ x, y }) => `${x} ${y}`).join("L");
    const [foot, head] = [this.endSpot(0), this.endSpot(frame.height)];
    const side = `M${foot.x} ${foot.y}L${head.x} ${head.y}`;
    put(this.band, "d", `M${line.map((at) => beside(at, 0, -20)).join("L")}M${beside(foot, -20, 0)}L${beside(head, -20, 0)}`);
    put(this.marks, "d", `M${rail}${side}${round.map((one) => stroke(one.at, 0, -LENGTHS[one.size])).join("")}${
      along.map((one) => stroke(one.at, -LENGTHS[one.size], 0)).join("")}`);
    // The unit stands where the figures end.
    const close = UNIT_PX / ((camera.scale * frame.turnLength(this.rim)) / middle);
    for (const tick of round) if ((middle * (right - left)) / 360 - tick.mm < close) tick.text = "";
    round.push({ mm: 0, size: 0, text: unitWord(), at: line[line.length - 1] });
    written(this.figures, round, 0, -12);
    written(this.ups, along, -12, 4);
    const degrees = [];
    const apart = (camera.scale * frame.turnLength(this.rim)) / 360;
    const step = DEGREES.find((one) => one * apart >= DEGREES_PX) ?? 360;
    for (let at = 0; at < 360; at += step) {
      const turn = frame.turnOf(at);
      if (turn >= left && turn <= right) degrees.push({ text: `${at}°`, at: this.rimSpot(turn) });
    }
    written(this.degrees, degrees, 0, -26);
  }

  /** @param {number} turn @returns {{x: number, y: number, lean: number}} px on the rim's scale */
  rimSpot(turn) {
    const frame = /** @type {Frame} */ (this.frame);
    const camera = /** @type {Camera} */ (this.camera);
    const { x, y, lean } = frame.placeTurn(turn, this.rim);
    return { ...camera.px(x, y), lean };
  }

  /** @param {number} up @returns {{x: number, y: number, lean: number}} px on the left end's scale */
  endSpot(up) {
    const frame = /** @type {Frame} */ (this.frame);
    const camera = /** @type {Camera} */ (this.camera);
    const { x, y, lean } = frame.placeTurn(this.end, up);
    const at = camera.px(x, y);
    const angle = (lean * Math.PI) / 180;
    return { x: at.x - SIDE * Math.cos(angle), y: at.y - SIDE * Math.sin(angle), lean };
  }

  /** @param {Spot | null} spot */
  cursor(spot) {
    const shown = spot !== null && this.frame !== null && this.camera !== null;
    for (const one of this.cursors) showIf(one, shown);
    if (!shown) return;
    put(this.cursors[0], "d", stroke(this.rimSpot(spot.turn), 0, -14));
    put(this.cursors[1], "d", stroke(this.endSpot(spot.up), -14, 0));
  }

  /** @param {Reach | null} reach */
  selection(reach) {
    const shown = reach !== null && this.frame !== null && this.camera !== null;
    for (const one of this.markers) showIf(one, shown);
    if (!shown) return;
    const rim = this.rimSpot(reach.turn);
    const end = this.endSpot(reach.up);
    this.markers[0].setAttribute("transform", `translate(${rim.x} ${rim.y}) rotate(${rim.lean})`);
    this.markers[1].setAttribute("transform", `translate(${end.x} ${end.y}) rotate(${end.lean - 90})`);
  }
}

/** @param {{x: number, y: number, lean: number}} at @param {number} a px to the right @param {number} b px down */
function beside({ x, y, lean }, a, b) {
  const cos = Math.cos((lean * Math.PI) / 180);
  const sin = Math.sin((lean * Math.PI) / 180);
  return `${(x + a * cos - b * sin).toFixed(2)} ${(y + a * sin + b * cos).toFixed(2)}`;
}

/** @param {{x: number, y: number, lean: number}} at @param {number} a px to the right @param {number} b px down */
function stroke(at, a, b) {
  return `M${at.x.toFixed(2)} ${at.y.toFixed(2)}L${beside(at, a, b)}`;
}

/**
 * @param {SVGElement} group
 * @param {{text: string, at: {x: number, y: number, lean: number}}[]} all
 * @param {number} a px to the right of the mark
 * @param {number} b px below it
 */
function written(group, all, a, b) {
  const figured = all.filter((one) => one.text);
  while (group.children.length > figured.length) group.lastElementChild?.remove();
  figured.forEach(({ text, at }, index) => {
    const one = group.children[index] ?? make("text", {}, group);
    if (one.textContent !== text) one.textContent = text;
    one.setAttribute("transform", `translate(${at.x} ${at.y}) rotate(${at.lean}) translate(${a} ${b})`);
  });
}
