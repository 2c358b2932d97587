// What is drawn, moved on by ourselves while the server cannot draw it.

import { frameOf } from "../../canvas/frame.js";
import { matrixOf, standOf, standOfChange } from "../../canvas/stand.js";

/**
 * The drawing with one element changed: the copy by all of it, the element's other copies by what they share.
 * @param {any} drawn
 * @param {{element: number, copy: number, changes: Record<string, number>}} drop
 * @returns {any}
 */
export function ahead(drawn, { element, copy, changes }) {
  if (!drawn.frame) return drawn;
  const frame = frameOf(drawn.frame);
  const copies = drawn.copies.map((one) => {
    if (one.element !== element) return one;
    const to = {
      key: one.key,
      at_deg: (one.copy === copy ? changes.at_deg : undefined) ?? one.at_deg,
      up_mm: changes.up_mm ?? one.up_mm,
      turn_deg: changes.turn_deg ?? one.turn_deg,
      scale_x: (changes.width_mm ?? one.width_mm) / one.width_mm,
      scale_y: (changes.height_mm ?? one.height_mm) / one.height_mm,
    };
    const stand = standOfChange(to, one, frame);
    return {
      ...one, at_deg: to.at_deg, up_mm: to.up_mm, turn_deg: to.turn_deg,
      width_mm: one.width_mm * to.scale_x, height_mm: one.height_mm * to.scale_y,
      matrix: one.fixed ? one.matrix : matrixOf(one, frame, stand),
      laps: laps(frame, standOf(one, frame).turn, stand.turn, one.laps),
    };
  });
  return { ...drawn, copies };
}

/** Laps counted from the new place: it may have been carried past an end. */
function laps(frame, before, after, known) {
  const turns = Math.floor(after / 360) - Math.floor(before / 360);
  return turns === 0 ? known : [...new Set([...known, -turns, 0])];
}
