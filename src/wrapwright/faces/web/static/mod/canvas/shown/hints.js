/** What shows only while something is in hand: lines snapped to with their words, the figures beside it, a drop's place. */

import { figure, format } from "../../app/lengths.js";
import { carried, joined } from "../matrix.js";
import { boxPoint, matrixOf } from "../stand.js";
import { shortTurn } from "../frame.js";
import { make, put, showIf } from "./svg.js";

/**
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../camera.js").Camera} Camera
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../hands/snapping.js").Snap} Snap
 */

const LETTER_PX = 6.2;
const NOTE = { width: 240, height: 24 }; // px, about

/**
 * @param {number} degrees
 * @returns {string} "12.5°"
 */
export function angleWords(degrees) {
  return `${figure(degrees, 1)}°`;
}

/** @param {Snap} snap @param {Frame} frame @param {Stand} stand @returns {string} what it is, and where */
export function snapWords(snap, frame, stand) {
  const edge = snap.part === "centre" ? "" : `${snap.part[0].toUpperCase()}${snap.part.slice(1)}: `;
  if (snap.axis === "up") return `${edge}${snap.name} · ${format(snap.up ?? 0)} up`;
  if (snap.opposite) return `${edge}${snap.name} · ${format(frame.turnLength(stand.up) / 2)} round`;
  return `${edge}${snap.name} · ${wayWords(frame, snap.turn ?? 0, stand.up)}`;
}

/**
 * @param {Frame} frame
 * @param {number} turn
 * @param {number} up
 * @returns {string} how far round on the ruler, or on a flat blank from its middle
 */
function wayWords(frame, turn, up) {
  if (!frame.view.plate) return format(roundAt(frame, turn, up));
  const across = frame.placeTurn(turn, up).x;
  return Math.abs(across) < 0.05 ? "middle" : `${format(Math.abs(across))} ${across > 0 ? "right" : "left"}`;
}

/**
 * @param {Frame} frame
 * @param {number} turn
 * @param {number} up
 * @returns {number} mm round from the paper's left end at that height, within one turn
 */
export function roundAt(frame, turn, up) {
  return frame.fromLeft(turn - 360 * Math.floor(turn / 360), up);
}

export class Hints {
  /** @param {SVGElement} layer @param {HTMLElement} note */
  constructor(layer, note) {
    this.layer = layer;
    this.note = note;
    this.lines = { round: hint(layer, note), up: hint(layer, note) };
    this.mark = make("path", { class: "wc-drop", d: "M-14 0H14M0 -14V14M-9 0A9 9 0 1 0 9 0A9 9 0 1 0 -9 0Z" }, layer);
    showIf(this.mark, false);
    this.noteShown = false;
    note.hidden = true;
  }

  /**
   * @param {Snap[]} snaps
   * @param {Frame} frame
   * @param {Stand} stand
   * @param {Camera} camera
   * @param {{low: number, high: number}} reach of the wrap with its bleed, mm up
   */
  snaps(snaps, frame, stand, camera, reach) {
    for (const axis of /** @type {("round" | "up")[]} */ (["round", "up"])) {
      const line = this.lines[axis];
      const snap = snaps.find((one) => one.axis === axis);
      showIf(line.group, Boolean(snap));
      if (line.words.hidden !== !snap) line.words.hidden = !snap;
      if (!snap) continue;
      const points = axis === "round"
        ? [frame.placeTurn(snap.turn ?? 0, reach.low), frame.placeTurn(snap.turn ?? 0, reach.high)]
        : level(frame, snap.up ?? 0);
      const px = points.map(({ x, y }) => camera.px(x, y));
      const d = `M${px.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}`;
      put(line.halo, "d", d);
      put(line.ink, "d", d);
      this.label(line, snapWords(snap, frame, stand), axis === "round" ? px[0] : px[px.length - 1], camera);
    }
  }

  /**
   * @param {ReturnType<typeof hint>} line
   * @param {string} words
   * @param {{x: number, y: number}} end px
   * @param {Camera} camera
   */
  label(line, words, end, camera) {
    if (line.words.textContent !== words) line.words.textContent = words;
    // Its width is only guessed at: asking for it would cost a layout each frame.
    const half = (words.length * LETTER_PX) / 2 + 8;
    const x = Math.min(camera.width - half - 4, Math.max(half + 28, end.x));
    const y = Math.min(camera.height - NOTE.height - 4, Math.max(28, end.y + 4));
    line.words.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translateX(-50%)`;
  }

  /**
   * The figures below what is in hand.
   * @param {string} words
   * @param {CopyView} copy
   * @param {Frame} frame
   * @param {Stand} stand
   * @param {number} lap
   * @param {Camera} camera
   */
  figures(words, copy, frame, stand, lap, camera) {
    const whole = joined(camera.matrix, frame.lap(lap), matrixOf(copy, frame, stand));
    let low = -Infinity;
    for (const [a, b] of [[-1, -1], [1, -1], [1, 1], [-1, 1]]) {
      const { x, y } = boxPoint(copy, frame, a, b);
      low = Math.max(low, carried(whole, x, y).y);
    }
    const middle = boxPoint(copy, frame, 0, 0);
    const across = carried(whole, middle.x, middle.y).x;
    const x = Math.min(camera.width - NOTE.width / 2, Math.max(NOTE.width / 2 + 28, across));
    const y = Math.min(camera.height - NOTE.height - 8, Math.max(32, low + 16));
    if (!this.noteShown) this.note.hidden = false;
    this.noteShown = true;
    if (this.note.textContent !== words) this.note.textContent = words;
    this.note.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translateX(-50%)`;
  }

  clear() {
    for (const { group, words } of [this.lines.round, this.lines.up]) {
      showIf(group, false);
      words.hidden = true;
    }
    this.note.hidden = true;
    this.noteShown = false;
  }

  /** @param {{x: number, y: number} | null} at px, where dropped files would go */
  drop(at) {
    showIf(this.mark, at !== null);
    if (at) this.mark.setAttribute("transform", `translate(${at.x} ${at.y})`);
  }
}

/** @param {Frame} frame @param {number} up @returns {{x: number, y: number}[]} a level from end to end */
function level(frame, up) {
  const count = frame.sector ? 60 : 1;
  const perMm = 360 / frame.turnLength(up);
  const left = (frame.view.gap_mm / 2) * perMm;
  const right = 360 - left + frame.view.overlap_mm * perMm;
  return Array.from({ length: count + 1 }, (_, i) => frame.placeTurn(left + ((right - left) * i) / count, up));
}

/** @param {SVGElement} layer @param {HTMLElement} note beside which its words go */
function hint(layer, note) {
  const group = make("g", { class: "wc-snap" }, layer);
  const halo = make("path", { class: "wc-snap-halo" }, group);
  const ink = make("path", { class: "wc-snap-ink" }, group);
  showIf(group, false);
  const words = /** @type {HTMLElement} */ (note.cloneNode());
  words.classList.add("wc-snap-words");
  words.hidden = true;
  note.before(words);
  return { group, halo, ink, words };
}

/**
 * @param {Frame} frame
 * @param {Stand} stand
 * @returns {string} where it stands: on the ruler, up, and the angle; on a flat blank from its middle, and up
 */
export function placeWords(frame, stand) {
  if (frame.view.plate) return `${wayWords(frame, stand.turn, stand.up)}   ${format(stand.up)} up`;
  return `${format(roundAt(frame, stand.turn, stand.up))} round   ${format(stand.up)} up   ${angleWords(frame.atOf(stand.turn))}`;
}

/** @param {CopyView} copy @param {Stand} stand @returns {string} */
export function sizeWords(copy, stand) {
  return `${format(copy.width_mm * stand.sx)} × ${format(copy.height_mm * stand.sy)}`;
}

/** @param {Stand} stand @returns {string} */
export function turnWords(stand) {
  return `turned ${angleWords(shortTurn(stand.turnDeg))}`;
}
