/** What shows the selection: its border, the grips by which it is sized, and the one by which it is turned. */

import { carried, joined, written } from "../matrix.js";
import { boxPoint, matrixOf } from "../stand.js";
import { make, put, showIf } from "./svg.js";

/**
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../camera.js").Camera} Camera
 * @typedef {import("../matrix.js").Point} Point
 * @typedef {{name: string, across: number, along: number}} Spot
 */

/** @type {Spot[]} */
export const SPOTS = [
  { name: "n", across: 0, along: -1 }, { name: "e", across: 1, along: 0 },
  { name: "s", across: 0, along: 1 }, { name: "w", across: -1, along: 0 },
  { name: "nw", across: -1, along: -1 }, { name: "ne", across: 1, along: -1 },
  { name: "se", across: 1, along: 1 }, { name: "sw", across: -1, along: 1 },
];

const SIZE = 9; // px of a grip
const STEM = 26; // px from the upper edge to the turning grip
const REACH = { fine: 24, coarse: 44 }; // px of what takes the pointer
const CURSORS = ["ns-resize", "nesw-resize", "ew-resize", "nwse-resize"];

export class Grips {
  /** @param {SVGElement} layer px of the view */
  constructor(layer) {
    this.layer = layer;
    this.frameGroup = make("g", { class: "wc-frame" }, layer);
    this.halo = make("path", { class: "wc-frame-halo" }, this.frameGroup);
    this.box = make("path", { class: "wc-frame-box" }, this.frameGroup);
    this.line = make("path", { class: "wc-frame-ink" }, this.frameGroup);
    this.stem = make("path", { class: "wc-stem" }, layer);
    /** @type {Map<string, {group: SVGElement, hit: SVGElement, facing: number}>} */
    this.grips = new Map();
    for (const { name } of SPOTS) this.grips.set(name, this.made(name, "rect"));
    this.grips.set("turn", this.made("turn", "circle"));
    this.coarse = window.matchMedia("(pointer: coarse)").matches;
    showIf(layer, false);
  }

  /** @param {string} name @param {string} shape */
  made(name, shape) {
    const group = make("g", { class: `wc-grip wc-grip-${name}` }, this.layer);
    const half = SIZE / 2;
    if (shape === "rect") make("rect", { x: -half, y: -half, width: SIZE, height: SIZE }, group);
    else make("circle", { r: half + 1 }, group);
    const hit = make("rect", { class: "wc-grip-hit", "data-grip": name }, group);
    return { group, hit, facing: NaN };
  }

  /**
   * @param {CopyView | null} copy
   * @param {Frame | null} frame
   * @param {boolean} both whether width and height are each its own
   */
  show(copy, frame, both) {
    showIf(this.layer, copy !== null && frame !== null);
    if (!copy || !frame) return;
    put(this.box, "d", copy.fixed ? "" : boxPath(copy, frame));
    put(this.halo, "d", copy.border);
    put(this.line, "d", copy.border);
    const reach = this.coarse ? REACH.coarse : REACH.fine;
    for (const [name, { group, hit }] of this.grips) {
      showIf(group, !copy.fixed && (both || name.length !== 1));
      for (const [key, value] of [["x", -reach / 2], ["y", -reach / 2], ["width", reach], ["height", reach]]) {
        put(hit, /** @type {string} */ (key), value);
      }
    }
    showIf(this.stem, !copy.fixed);
  }

  /**
   * Follow where it stands: only transforms change.
   * @param {CopyView} copy
   * @param {Frame} frame
   * @param {Stand} stand
   * @param {number} lap the one whose copy was taken
   * @param {Camera} camera
   */
  place(copy, frame, stand, lap, camera) {
    const whole = joined(camera.matrix, frame.lap(lap), matrixOf(copy, frame, stand));
    this.frameGroup.setAttribute("transform", written(whole));
    if (copy.fixed) return;
    /** @param {number} across @param {number} along @returns {Point} */
    const seen = (across, along) => {
      const { x, y } = boxPoint(copy, frame, across, along);
      return carried(whole, x, y);
    };
    const middle = seen(0, 0);
    const top = seen(0, -1);
    for (const { name, across, along } of SPOTS) this.put(name, seen(across, along), middle);
    const up = away(middle, top, STEM, whole[1], -whole[0]);
    this.put("turn", up, top);
    this.stem.setAttribute("d", `M${top.x} ${top.y}L${up.x} ${up.y}`);
  }

  /** @param {string} name @param {Point} at @param {Point} middle its grip takes the pointer a little outwards */
  put(name, at, middle) {
    const grip = this.grips.get(name);
    if (!grip) return;
    const angle = Math.atan2(at.y - middle.y, at.x - middle.x);
    const degrees = (angle * 180) / Math.PI;
    grip.group.setAttribute("transform", `translate(${at.x} ${at.y})`);
    // While a copy only moves, its grips go on facing the same way.
    if (Math.abs(angle - grip.facing) < 1e-3) return;
    grip.facing = angle;
    const out = this.coarse ? 12 : 6;
    grip.hit.setAttribute("transform", `translate(${out * Math.cos(angle)} ${out * Math.sin(angle)})`);
    const eighth = ((Math.round((90 - degrees) / 45) % 4) + 4) % 4;
    grip.hit.style.cursor = name === "turn" ? "grab" : CURSORS[eighth];
  }
}

/** @param {CopyView} copy @param {Frame} frame @returns {string} its box in the art frame, bent where the copy is */
function boxPath(copy, frame) {
  const steps = copy.rigid ? 1 : 10;
  const points = [];
  for (const [a, b, da, db] of [[-1, -1, 2, 0], [1, -1, 0, 2], [1, 1, -2, 0], [-1, 1, 0, -2]]) {
    for (let i = 0; i < steps; i += 1) points.push(boxPoint(copy, frame, a + (da * i) / steps, b + (db * i) / steps));
  }
  return `M${points.map(({ x, y }) => `${x.toFixed(3)} ${y.toFixed(3)}`).join("L")}Z`;
}

/**
 * @param {Point} middle
 * @param {Point} top
 * @param {number} length px
 * @param {number} x direction where the two are one
 * @param {number} y
 * @returns {Point} beyond `top`, on the line from the middle
 */
function away(middle, top, length, x, y) {
  let [dx, dy] = [top.x - middle.x, top.y - middle.y];
  if (Math.hypot(dx, dy) < 1e-6) [dx, dy] = [x, y];
  const far = Math.hypot(dx, dy) || 1;
  return { x: top.x + (dx / far) * length, y: top.y + (dy / far) * length };
}
