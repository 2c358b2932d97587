/** Rulers of a straight wrap, along the view's upper and left side: mm from the paper's left end, and mm up. */

import { unitWord } from "../../app/lengths.js";
import { make, put, showIf } from "./svg.js";
import { ticks } from "./ticks.js";

/**
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../camera.js").Camera} Camera
 * @typedef {{turn: number, up: number}} Spot
 * @typedef {{turn: number, up: number, across: number, along: number}} Reach  half sizes in mm
 */

export const BAR = 24; // px
const LENGTHS = [5, 8, 12]; // px of a mark by its size

export class Rulers {
  /** @param {SVGElement} layer @param {SVGElement} marks what moves with the pointer and the selection */
  constructor(layer, marks) {
    this.layer = layer;
    this.marks = make("g", {}, marks);
    this.upper = bar(layer, this.marks, "upper");
    this.left = bar(layer, this.marks, "left");
    this.corner = make("rect", { class: "wc-bar", width: BAR, height: BAR }, layer);
    this.edge = make("path", { class: "wc-bar-edge" }, layer);
    this.unit = make("text", { class: "wc-unit", x: BAR / 2, y: BAR / 2 + 4 }, layer);
    /** @type {Frame | null} */
    this.frame = null;
    /** @type {Camera | null} */
    this.camera = null;
  }

  /** @param {Frame | null} frame null where another scale is used */
  show(frame) {
    this.frame = frame;
    showIf(this.layer, frame !== null);
    showIf(this.marks, frame !== null);
  }

  /** @param {Camera} camera */
  look(camera) {
    const { frame } = this;
    this.camera = camera;
    if (!frame) return;
    const { width, height, scale } = camera;
    this.unit.textContent = unitWord();
    put(this.upper.back, "width", width);
    put(this.upper.back, "height", BAR);
    put(this.left.back, "width", BAR);
    put(this.left.back, "height", height);
    put(this.edge, "d", `M${BAR - 0.5} ${height}V${BAR - 0.5}H${width}`);
    const zero = this.across(0);
    // Figures stand along the wrap alone: there is nothing to measure beside it.
    const wide = frame.lower - frame.view.gap_mm + frame.view.overlap_mm;
    const upper = ticks(Math.max(0, camera.mm(BAR, 0).x - zero), Math.min(wide, camera.mm(width, 0).x - zero), scale);
    const left = ticks(Math.max(0, -camera.mm(0, height).y), Math.min(frame.height, -camera.mm(0, BAR).y), scale);
    marked(this.upper, upper.map((tick) => ({ ...tick, px: camera.px(zero + tick.mm, 0).x })), (px, length) =>
      `M${px} ${BAR}v${-length}`, (px) => `translate(${px + 3} 10)`);
    marked(this.left, left.map((tick) => ({ ...tick, px: camera.px(0, -tick.mm).y })), (px, length) =>
      `M${BAR} ${px}h${-length}`, (px) => `translate(10 ${px - 3}) rotate(-90)`);
  }

  /** @param {number} mm from the left end @returns {number} canvas x */
  across(mm) {
    const frame = /** @type {Frame} */ (this.frame);
    return mm + frame.view.gap_mm / 2 - frame.lower / 2;
  }

  /** @param {Spot | null} spot where the pointer is */
  cursor(spot) {
    const { frame, camera } = this;
    const shown = spot !== null && frame !== null && camera !== null;
    showIf(this.upper.cursor, shown);
    showIf(this.left.cursor, shown);
    if (!shown) return;
    const { x, y } = camera.px(this.across(frame.fromLeft(spot.turn, spot.up)), -spot.up);
    this.upper.cursor.setAttribute("transform", `translate(${x} 0)`);
    this.left.cursor.setAttribute("transform", `translate(0 ${y})`);
  }

  /** @param {Reach | null} reach of the selection */
  selection(reach) {
    const { frame, camera } = this;
    const shown = reach !== null && frame !== null && camera !== null;
    showIf(this.upper.selection, shown);
    showIf(this.left.selection, shown);
    if (!shown) return;
    const { x, y } = camera.px(this.across(frame.fromLeft(reach.turn, reach.up)), -reach.up);
    const wide = reach.across * camera.scale;
    const tall = reach.along * camera.scale;
    this.upper.selection.setAttribute("transform", `translate(${x} ${BAR})`);
    this.left.selection.setAttribute("transform", `translate(${BAR} ${y}) rotate(-90)`);
    this.upper.span.setAttribute("transform", `scale(${wide} 1)`);
    this.left.span.setAttribute("transform", `scale(${tall} 1)`);
  }
}

/** @param {SVGElement} layer @param {SVGElement} moving @param {string} side */
function bar(layer, moving, side) {
  const group = make("g", { class: `wc-ruler wc-ruler-${side}` }, layer);
  const back = make("rect", { class: "wc-bar" }, group);
  const marks = make("path", { class: "wc-ticks" }, group);
  const figures = make("g", { class: "wc-figures" }, group);
  const cursor = make("path", { class: "wc-cursor", d: side === "upper" ? `M0 0V${BAR}` : `M0 0H${BAR}` }, moving);
  const selection = make("g", { class: "wc-marker" }, moving);
  const span = make("rect", { x: -1, y: -3, width: 2, height: 3 }, selection);
  // On the left the group is turned, so that the same arrow points to the wrap there.
  make("path", { d: "M-5 -9H5L0 -2Z" }, selection);
  showIf(cursor, false);
  showIf(selection, false);
  return { back, marks, figures, cursor, selection, span };
}

/**
 * @param {ReturnType<typeof bar>} one
 * @param {(import("./ticks.js").Tick & {px: number})[]} all
 * @param {(px: number, length: number) => string} mark
 * @param {(px: number) => string} place of a figure
 */
function marked(one, all, mark, place) {
  put(one.marks, "d", all.map((tick) => mark(Math.round(tick.px) + 0.5, LENGTHS[tick.size])).join(""));
  const figured = all.filter((tick) => tick.text);
  const { figures } = one;
  while (figures.children.length > figured.length) figures.lastElementChild?.remove();
  figured.forEach((tick, index) => {
    const text = figures.children[index] ?? make("text", {}, figures);
    if (text.textContent !== tick.text) text.textContent = tick.text;
    text.setAttribute("transform", place(Math.round(tick.px)));
  });
}
