/** What the turning view says and how it reads colours. */

import { shortTurn } from "../canvas/frame.js";
import { shownAngle, sideWords } from "./angles.js";

const MOST_NAMED = 8;

/** @param {string} colour "#rrggbb" @returns {number[]} linear light 0..1 (IEC 61966-2-1); mid grey if unreadable */
export function linearOf(colour) {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  return found
    ? found.slice(1).map((code) => {
        const share = parseInt(code, 16) / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      })
    : [0.2, 0.2, 0.2];
}

/** @param {number} tilt @returns {string} */
function tiltWords(tilt) {
  const whole = Math.round(tilt);
  return whole > 0 ? `from ${whole} degrees above` : whole < 0 ? `from ${-whole} degrees below` : "from level";
}

/** @param {any} drawn @param {number} facing @param {number} tilt @returns {string} */
export function pieceWords(drawn, facing, tilt) {
  if (!drawn?.solid) {
    return "The piece: nothing to show yet.";
  }
  const sight = drawn.copies
    .filter((copy) => !copy.fixed && Math.abs(shortTurn(copy.at_deg - facing)) < 80)
    .sort((a, b) => Math.abs(shortTurn(a.at_deg - facing)) - Math.abs(shortTurn(b.at_deg - facing)));
  const round = drawn.copies.filter((copy) => copy.fixed).map((copy) => copy.name);
  const named = sight.slice(0, MOST_NAMED).map((copy) => copy.name);
  const rest = sight.length - named.length;
  const parts = [
    `The piece seen at ${shownAngle(facing)} degrees, ${sideWords(facing)}, ${tiltWords(tilt)}.`,
    named.length ? `In sight: ${named.join(", ")}${rest > 0 ? ` and ${rest} more` : ""}.` : "Nothing in sight on this side.",
  ];
  if (round.length) {
    parts.push(`All round: ${round.join(", ")}.`);
  }
  return parts.join(" ");
}
