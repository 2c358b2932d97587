/** The dial's own drawing: scale, wall, seam, overlap, handle, the window one eye can read, and what lies opposite. */

import { SIDES, capital, degrees } from "../view/angles.js";
import { made } from "../view/overlay.js";
import { arc, lean, sector, spoke, spot, ticks } from "./rings.js";
import { shortTurn } from "../canvas/frame.js";

/** @typedef {import("./rings.js").Sizes} Sizes */

/** @param {Sizes} sizes @param {number} at @param {number} radius @param {string} words @param {string} name */
export function word(sizes, at, radius, words, name) {
  const { x, y } = spot(sizes, at, radius);
  const text = made("text", {
    class: name, x: x.toFixed(1), y: y.toFixed(1), transform: `rotate(${lean(at).toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})`,
  });
  text.textContent = words;
  return text;
}

/** @param {Sizes} sizes @returns {SVGElement[]} the graduated ring with the sides' names and the angles between */
function scale(sizes) {
  const parts = [
    made("path", { class: "scale-ring", d: arc(sizes, sizes.scale, 0, 360) }),
    made("path", { class: "scale", d: ticks(sizes) }),
    ...SIDES.map(({ name, at }) => word(sizes, at, sizes.words, capital(name), "side")),
  ];
  for (let at = 30; at < 360; at += 30) {
    if (at % 90 !== 0) {
      parts.push(word(sizes, at, sizes.words, String(at), ""));
    }
  }
  return parts;
}

/** @returns {SVGElement[]} the sector that one far eye can read, centred where asked */
function readable(sizes, centre, readDeg) {
  const [from, to] = [centre - readDeg / 2, centre + readDeg / 2];
  return [
    made("path", { class: "window", d: sector(sizes, sizes.inner, sizes.wall, from, to) }),
    made("path", {
      class: "window-edge",
      d: spoke(sizes, from, sizes.inner, sizes.scale - 12) + spoke(sizes, to, sizes.inner, sizes.scale - 12),
    }),
  ];
}

/** @returns {1 | -1} the side of a mark on which its word is not hidden by the eye */
function freeSide(at, facing) {
  const off = shortTurn(facing - at);
  return off < 0 && off > -50 ? 1 : -1;
}

/** @returns {SVGElement[]} the seam and the strip that lies over it */
function seam(sizes, frame, facing) {
  const lap = (360 * frame.view.overlap_mm) / frame.turnLength(frame.height / 2);
  const parts = [];
  if (lap > 0.05) {
    parts.push(made("path", { class: "lap", d: arc(sizes, sizes.wall + 3.5, frame.seam, frame.seam + lap) }));
  }
  parts.push(made("path", { class: "seam", d: spoke(sizes, frame.seam, sizes.wall - 5, sizes.scale) }));
  parts.push(word(sizes, frame.seam + 15 * freeSide(frame.seam, facing), sizes.eye + 3, "Seam", "note"));
  return parts;
}

/** @returns {SVGElement[]} the handle from above, with the bare strip of the wall it stands on */
function handle(sizes, [at, gapMm], frame, facing) {
  const gap = (180 * gapMm) / frame.turnLength(frame.height / 2);
  const half = Math.max(4, 0.42 * gap * (Math.PI / 180) * sizes.wall);
  const { x, y } = spot(sizes, at, sizes.wall);
  const long = sizes.scale - sizes.wall - 3;
  const d = `M${-half} 0V${long - half}A${half} ${half} 0 0 0 ${half} ${long - half}V0Z`;
  return [
    made("path", { class: "gap", d: arc(sizes, sizes.wall, at - gap, at + gap) }),
    made("path", { class: "handle", d, transform: `translate(${x.toFixed(2)} ${y.toFixed(2)}) rotate(${-at})` }),
    made("path", {
      class: "scale", d: spoke(sizes, at - gap, sizes.wall - 5, sizes.wall + 5) + spoke(sizes, at + gap, sizes.wall - 5, sizes.wall + 5),
    }),
    word(sizes, at + (gap + 20) * freeSide(at, facing), sizes.eye + 3, "Handle", "note plain"),
  ];
}

/**
 * @param {Sizes} sizes
 * @param {any} drawn
 * @param {import("../canvas/frame.js").Frame} frame
 * @param {{centre: number, chosen: boolean, facing: number}} seen centre of the window one eye can read, whether a copy is
 *   selected, and where the eye is
 * @returns {SVGElement[]} what lies under the copies
 */
export function underParts(sizes, drawn, frame, { centre, chosen, facing }) {
  const { solid } = drawn;
  const parts = [made("circle", { class: "floor", cx: sizes.middle, cy: sizes.middle, r: sizes.wall }), ...scale(sizes)];
  parts.push(...readable(sizes, centre, solid.read_deg));
  if (solid.handle) {
    const gap = (180 * solid.handle[1]) / frame.turnLength(frame.height / 2);
    parts.push(made("path", { class: "wall", d: arc(sizes, sizes.wall, solid.handle[0] + gap, solid.handle[0] + 360 - gap) }));
    parts.push(...handle(sizes, solid.handle, frame, facing));
  } else {
    parts.push(made("path", { class: "wall", d: arc(sizes, sizes.wall, 0, 360) }), ...seam(sizes, frame, facing));
  }
  if (chosen) {
    parts.push(
      made("path", { class: "across", d: spoke(sizes, centre, sizes.inner - 2, sizes.outer)
        + spoke(sizes, centre + 180, sizes.inner - 2, sizes.wall + 6) }),
      made("path", { class: "across-end", d: arc(sizes, sizes.wall + 6, centre + 178, centre + 182) }),
    );
  }
  return parts;
}

/**
 * @param {Sizes} sizes
 * @param {number | null} line the angle that a copy in hand is drawn to
 * @param {{label: string, figure: string}} figure for the middle
 * @returns {SVGElement[]} what lies over the copies
 */
export function overParts(sizes, line, figure) {
  const parts = line === null ? [] : [made("path", { class: "snap", d: spoke(sizes, line, sizes.wall, sizes.scale) })];
  const label = made("text", { class: "label", x: sizes.middle, y: sizes.middle - 10 });
  label.textContent = figure.label;
  const number = made("text", { class: "figure", x: sizes.middle, y: sizes.middle + 8 });
  number.textContent = figure.figure;
  return [...parts, label, number];
}

/** @param {Sizes} sizes @param {SVGElement} group @param {number} facing the mark of the eye */
export function drawEye(sizes, group, facing) {
  const { x, y } = spot(sizes, facing, sizes.eye);
  if (!group.firstChild) {
    group.append(
      made("path", { class: "sight" }),
      made("circle", { class: "hit", r: 14 }),
      made("path", { class: "lid", d: "M-10 0Q0 -9 10 0Q0 9 -10 0Z" }),
      made("circle", { class: "pupil", r: 3 }),
      made("circle", { class: "focus", r: 13 }),
    );
  }
  const [sight, ...rest] = group.children;
  sight.setAttribute("d", spoke(sizes, facing, sizes.wall + 1, sizes.eye));
  rest.forEach((part) => part.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`));
}

/** @param {number} off degrees, signed to the right @returns {string} */
export function offWords(off) {
  const size = Math.abs(off).toFixed(1);
  return size === "0.0" ? "0.0° off" : `${size}° to the ${off > 0 ? "right" : "left"}`;
}

/** @param {number} at @returns {string} the side's name where it is exactly one, else the angle */
export function placeName(at) {
  const side = SIDES.find((one) => Math.abs(shortTurn(at - one.at)) < 0.05);
  return side ? side.name : degrees(at);
}

/** @param {number} at @param {any} drawn @returns {string} what stands there when no copy does */
export function placeOpposite(at, drawn) {
  const far = at + 180;
  const { handle } = drawn.solid;
  if (handle && Math.abs(shortTurn(far - handle[0])) < 15) {
    return "the handle";
  }
  const seam = drawn.frame.seam_deg;
  if (!handle && Math.abs(shortTurn(far - seam)) < 0.5) {
    return "the seam";
  }
  return "nothing";
}
