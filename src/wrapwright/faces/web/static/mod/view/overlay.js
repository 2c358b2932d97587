/**
 * Lines over and under the picture of the piece: the selected borders, the line a moved copy is drawn to, and the
 * graduated table it stands on. They are projected with the same eye, so they lie where they belong.
 */

import { inSpace } from "./camera.js";
import { borderOnWall } from "./copies.js";
import { SIDES, capital } from "./angles.js";
import { atWall } from "./shape.js";
import { shortTurn } from "../canvas/frame.js";

const SVG = "http://www.w3.org/2000/svg";
const LETTER_PX = 8; // a letter of a name, wide ones and the space round it too

/**
 * @typedef {import("./camera.js").Camera} Camera
 * @typedef {import("./shape.js").Shape} Shape
 */

/** @param {string} name @param {Record<string, string | number>} words @returns {SVGElement} */
export function made(name, words = {}) {
  const element = document.createElementNS(SVG, name);
  for (const [word, value] of Object.entries(words)) {
    element.setAttribute(word, String(value));
  }
  return element;
}

/** @param {number} value */
function short(value) {
  return value.toFixed(1);
}

/** Places on the wall for one drawn: wall as objects, and the band's start. */
export class Wall {
  /** @param {any} solid */
  constructor(solid) {
    this.points = solid.wall.map(([y, r, s]) => ({ y, r, s }));
    this.from = solid.band_from_mm;
    this.top = this.points[this.points.length - 1].s;
  }

  /** @param {number} at @param {number} up from the band's lower edge @returns {{x: number, y: number, z: number}} */
  place(at, up) {
    const { y, r } = atWall(this.points, this.from + up);
    return inSpace(at, y, r);
  }

  /** @param {Camera} camera @param {number} at @param {number} up @returns {boolean} whether it faces the eye */
  faces(camera, at, up) {
    const s = this.from + up;
    const below = atWall(this.points, s - 0.5);
    const above = atWall(this.points, s + 0.5);
    const here = this.place(at, up);
    const normal = inSpace(at, below.r - above.r, above.y - below.y);
    const { eye } = camera;
    return normal.x * (eye.x - here.x) + normal.y * (eye.y - here.y) + normal.z * (eye.z - here.z) > 0;
  }
}

/**
 * @param {SVGElement} layer
 * @param {{camera: Camera, wall: Wall, frame: any, copies: any[], selected: string[], changing: any,
 *   line: {at: number, words: string} | null, band: number}} seen
 */
export function drawMarks(layer, { camera, wall, frame, copies, selected, changing, line, band }) {
  const parts = [];
  for (const copy of copies) {
    if (selected.includes(copy.key) && !copy.fixed) {
      const d = borderOnWall(frame, copy, changing).map((points) => onPiece(camera, wall, points)).join("");
      if (d) {
        parts.push(made("path", { class: "halo", d }), made("path", { class: "edge", d, "data-key": copy.key }));
      }
    }
  }
  if (line) {
    const upright = [];
    for (let i = 0; i <= 24; i += 1) {
      upright.push({ at: line.at, up: (band * i) / 24 });
    }
    const d = onPiece(camera, wall, upright);
    if (d) {
      parts.push(made("path", { class: "halo", d }), made("path", { class: "line", d }));
      const head = camera.project(wall.place(line.at, band));
      const words = made("text", { x: short(head.x), y: short(Math.max(12, head.y - 6)) });
      words.textContent = line.words;
      parts.push(words);
    }
  }
  layer.replaceChildren(...parts);
}

/** @returns {string} a line on the wall as seen; what lies on the far side is left out */
function onPiece(camera, wall, points) {
  let d = "";
  let pen = false;
  for (const { at, up } of points) {
    if (wall.faces(camera, at, up)) {
      const { x, y } = camera.project(wall.place(at, up));
      d += `${pen ? "L" : "M"}${short(x)} ${short(y)}`;
      pen = true;
    } else {
      pen = false;
    }
  }
  return d;
}

/**
 * The table: a ring with a tick each 15 degrees and the sides' names, hidden behind the piece by the picture over it.
 *
 * @param {SVGElement} layer
 * @param {Camera} camera
 * @param {Shape} shape
 * @param {number} facing
 */
export function drawTable(layer, camera, shape, facing) {
  const inner = 1.1 * shape.radius;
  const far = (at, factor) => camera.project(inSpace(at, shape.low, inner * factor));
  let ring = "";
  let ticks = "";
  for (let at = 0; at <= 360; at += 5) {
    const { x, y } = far(at, 1);
    ring += `${at ? "L" : "M"}${short(x)} ${short(y)}`;
    if (at % 15 === 0 && at < 360) {
      const end = far(at, at % 90 === 0 ? 1.06 : 1.03);
      ticks += `M${short(x)} ${short(y)}L${short(end.x)} ${short(end.y)}`;
    }
  }
  const show = camera.tilt >= 0;
  layer.style.display = show ? "" : "none";
  if (!show) {
    return;
  }
  layer.querySelector(".ring").setAttribute("d", ring);
  layer.querySelector(".ticks").setAttribute("d", ticks);
  const names = SIDES.filter(({ at }) => Math.abs(shortTurn(at - facing)) < 100).map(({ name, at }) => {
    const { x, y } = far(at, 1.1);
    const sideways = Math.sin(((at - facing) * Math.PI) / 180);
    const half = (LETTER_PX * name.length) / 2;
    const text = made("text", {
      x: short(Math.min(Math.max(x + 15 * sideways, half), camera.width - half)), y: short(y + 9 - 6 * Math.abs(sideways)),
      class: Math.abs(shortTurn(at - facing)) < 22.5 ? "near" : "",
    });
    text.textContent = capital(name);
    return text;
  });
  layer.querySelectorAll("text").forEach((text) => text.remove());
  layer.append(...names);
}
