/** The bare wrap: paper, what lies beyond the trim, the named lines and their names. */

import { heads, reach } from "../outline.js";
import { carried, joined, shift, turned, written } from "../matrix.js";
import { freshId, make, put, showIf } from "./svg.js";

/**
 * @typedef {import("../frame.js").Frame} Frame
 * @typedef {import("../camera.js").Camera} Camera
 * @typedef {import("../outline.js").LineView} LineView
 * @typedef {{text: SVGElement, turn: number, up: number | null, rank: number, width: number}} Name
 */

const HATCH_PX = 6;
const NAME_PX = 8; // from the edge to the foot of a name
const LEFT_PX = 28; // what the left ruler takes, and a little
const LETTER_PX = 6.4; // of 11 px type, a little generous
// What is named where two names would lie on each other: the earlier one.
const RANKS = ["seam", "handle", "side", "keepout"];

export class Wrap {
  /**
   * @param {{defs: SVGElement, paper: SVGElement, arts: SVGElement[], beyond: SVGElement, guides: SVGElement,
   *   names: SVGElement}} layers
   */
  constructor(layers) {
    this.layers = layers;
    const clip = freshId("clip");
    const hatch = freshId("hatch");
    this.clip = make("path", {}, make("clipPath", { id: clip }, layers.defs));
    this.hatch = make("pattern", {
      id: hatch, width: HATCH_PX, height: HATCH_PX, patternUnits: "userSpaceOnUse",
    }, layers.defs);
    make("path", { d: `M0 0V${HATCH_PX}`, class: "wc-hatch" }, this.hatch);
    this.hatchFill = `url(#${hatch})`;
    for (const art of layers.arts) art.setAttribute("clip-path", `url(#${clip})`);
    this.ground = make("path", { class: "wc-ground-paper" }, layers.paper);
    this.beyond = make("path", { class: "wc-veil", "fill-rule": "evenodd" }, layers.beyond);
    /** @type {Name[]} */
    this.names = [];
    /** @type {Frame | null} */
    this.frame = null;
    this.top = 0;
  }

  /**
   * @param {LineView[]} lines
   * @param {Frame} frame
   * @param {string} coating colour of the bare blank
   */
  show(lines, frame, coating) {
    this.frame = frame;
    const trim = lines.find((line) => line.kind === "trim")?.d ?? "";
    const bleed = lines.find((line) => line.kind === "bleed")?.d ?? trim;
    this.top = reach(bleed, frame)?.high ?? frame.height;
    put(this.clip, "d", bleed);
    put(this.ground, "d", bleed);
    put(this.ground, "fill", coating);
    put(this.beyond, "d", bleed === trim ? "" : bleed + trim);
    this.layers.guides.replaceChildren();
    for (const line of lines) this.line(line);
    this.layers.names.replaceChildren();
    this.names = lines.flatMap((line) => this.named(line, frame));
  }

  /** @param {LineView} line */
  line(line) {
    const group = make("g", { class: `wc-line wc-line-${line.kind}` }, this.layers.guides);
    if (line.kind === "keepout") make("path", { d: line.d, class: "wc-hatched", style: `fill: ${this.hatchFill}` }, group);
    make("path", { d: line.d, class: "wc-line-halo" }, group);
    make("path", { d: line.d, class: "wc-line-ink" }, group);
  }

  /** @param {LineView} line @param {Frame} frame @returns {Name[]} one for each of its ends */
  named(line, frame) {
    const rank = RANKS.indexOf(line.kind);
    if (rank < 0) return [];
    const spots = line.kind === "keepout" ? middles(line, frame) : heads(line, frame);
    return spots.map((spot) => {
      const text = make("text", { class: `wc-name wc-name-${line.kind}` }, this.layers.names);
      text.textContent = line.name;
      return { text, turn: spot.turn, up: line.kind === "keepout" ? spot.up : null, rank, width: line.name.length * LETTER_PX };
    });
  }

  /** Put everything that keeps its size on the screen where it belongs. @param {Camera} camera */
  look(camera) {
    put(this.hatch, "patternTransform", `scale(${1 / camera.scale}) rotate(45)`);
    const { frame } = this;
    if (!frame) return;
    /** @type {{x: number, y: number, half: number}[]} */
    const taken = [];
    for (const name of [...this.names].sort((one, other) => one.rank - other.rank)) {
      const top = frame.placeTurn(name.turn, name.up ?? this.top);
      const at = camera.px(top.x, top.y);
      const half = name.width / 2;
      // A long name at an end stays on the view, beside its line's head rather than over it.
      const aside = frame.sector ? 0 : Math.max(0, LEFT_PX + half - at.x) - Math.max(0, at.x + half + 2 - camera.width);
      const within = at.x > LEFT_PX - 4 && at.x < camera.width;
      const foot = joined(shift(at.x, at.y), turned(top.lean), shift(within ? aside : 0, name.up === null ? -NAME_PX : NAME_PX + 6));
      const { x, y } = carried(foot, 0, 0);
      const free = taken.every((one) => Math.hypot(one.x - x, one.y - y) > one.half + half + 6);
      showIf(name.text, free);
      if (!free) continue;
      taken.push({ x, y, half });
      name.text.setAttribute("transform", written(foot));
    }
  }
}

/** @param {LineView} line @param {Frame} frame @returns {{turn: number, up: number}[]} below the middle of its box */
function middles(line, frame) {
  const found = reach(line.d, frame);
  if (!found) return [];
  const across = (found.left + found.right) / 2 + frame.view.gap_mm / 2;
  return [{ turn: (360 * across) / frame.turnLength(found.low), up: found.low }];
}
