/** What the element is made of, bottom to top. */

import { freshId, make } from "./shown/svg.js";

const KEYS = "Tab walks the copies. Arrow keys move the selected copy by half a millimetre, with Shift five, with Alt a"
  + " tenth. Square brackets turn it, plus and minus size it, Home and End bring it to the next side line. Z and X"
  + " zoom, 0 shows the whole wrap, T straightens a tapered one, Escape lets go.";

/**
 * A sheet over the whole view, on a layer of the browser's own: what does not change during a drag is not painted anew.
 * @param {string} name
 */
function sheet(name) {
  const svg = make("svg", { class: `wc-sheet wc-sheet-${name}`, "aria-hidden": "true" });
  const world = make("g", {}, svg);
  return { svg, world, art: make("g", { class: "wc-art" }, world) };
}

/** @param {HTMLElement} host @param {string} kind @param {string} text */
function paragraph(host, kind, text = "") {
  const one = document.createElement("p");
  one.className = kind;
  one.textContent = text;
  host.append(one);
  return one;
}

/** @param {HTMLElement} host @returns the layers, each an element */
export function layers(host) {
  const help = freshId("keys");
  const [below, held, above, still] = ["below", "held", "above", "still"].map(sheet);
  const defs = make("defs", {}, below.svg);
  const paper = make("g");
  below.world.prepend(paper);
  const beyond = make("g", {}, above.world);
  const guides = make("g", { class: "wc-guides" }, still.world);
  const scales = make("g", { class: "wc-scales" }, still.svg);
  const names = make("g", { class: "wc-names" }, still.svg);
  const rulers = make("g", { class: "wc-rulers" }, still.svg);
  const view = make("svg", {
    class: "wc-view", role: "application", "aria-roledescription": "wrap", "aria-label": "Wrap",
    "aria-describedby": help, tabindex: 0,
  });
  const world = make("g", {}, view);
  const holds = make("g", { class: "wc-holds" }, world);
  const over = make("g", { class: "wc-over", "aria-hidden": "true" }, view);
  const marks = make("g", { class: "wc-marks" }, over);
  const hints = make("g", { class: "wc-hints" }, over);
  const grips = make("g", { class: "wc-grips" }, over);
  host.replaceChildren(below.svg, held.svg, above.svg, still.svg, view);
  const note = paragraph(host, "wc-note");
  note.setAttribute("aria-hidden", "true");
  const words = paragraph(host, "wc-spoken", KEYS);
  words.id = help;
  words.hidden = true;
  const said = paragraph(host, "wc-spoken");
  said.setAttribute("aria-live", "polite");
  return {
    host, view, defs, paper, beyond, guides, holds, names, hints, grips, marks, rulers, scales, note, said,
    sheets: [below.svg, held.svg, above.svg, still.svg],
    worlds: [below.world, held.world, above.world, still.world, world],
    arts: [below.art, held.art, above.art],
    /** Let go of what keys have in hand: hands put their own in. */
    drop: () => {},
  };
}
