/** What the turning view says, how it reads colours, and what stands in for the piece where it cannot be drawn. */

import { shortTurn } from "../canvas/frame.js";
import { shownAngle, sideWords } from "./angles.js";

const MOST_NAMED = 8;

/** @param {string} colour "#rrggbb" @returns {number[]} light 0..1 by the shader's own power law; mid grey if unreadable */
export function linearOf(colour) {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  return found
    ? found.slice(1).map((code) => (parseInt(code, 16) / 255) ** 2.2)
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

const GONE = "The graphics card stopped drawing for a moment. The flat wrap is shown until it is back.";
const NEVER = "This browser does not draw in three dimensions (WebGL2 is off), so the piece cannot be turned here. "
  + "The flat wrap shows the same print, and everything else works.";

/**
 * Show the piece, or words and the flat proof where it cannot be drawn.
 *
 * @param {ShadowRoot} root of the view
 * @param {any} drawn
 * @param {{ready: boolean, lost: boolean}} painter
 */
export function showStandIn(root, drawn, painter) {
  const solid = Boolean(drawn?.solid);
  const works = painter.ready && !painter.lost;
  const empty = root.querySelector(".empty");
  empty.hidden = solid || !drawn; // nothing is said while it is still on its way
  empty.textContent = "The piece turns here once the blank's readings can be used.";
  for (const part of root.querySelectorAll("canvas, .table, .marks")) {
    part.style.visibility = works && solid ? "" : "hidden";
  }
  const flat = root.querySelector(".flat");
  flat.hidden = works || !solid;
  if (!flat.hidden) {
    flat.querySelector("p").textContent = painter.ready ? GONE : NEVER;
    const url = drawn.proof?.url ?? "";
    const picture = flat.querySelector("img");
    picture.hidden = !url;
    if (url && picture.getAttribute("src") !== url) {
      picture.src = url;
    }
  }
}
