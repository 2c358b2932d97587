/** What the element is made of, bottom to top. */

import { freshId, make } from "./shown/svg.js";

const KEYS = "Tab walks the copies. Arrow keys move the selected copy by half a millimetre, with Shift five, with Alt a"
  + " tenth. Square brackets turn it, plus and minus size it, Home and End bring it to the next side line. Z and X"
  + " zoom, 0 shows the whole wrap, T straightens a tapered one, Escape lets go.";

/** @param {HTMLElement} host @returns the layers, each an element */
export function layers(host) {
  const help = freshId("keys");
  const view = make("svg", {
    class: "wc-view", role: "application", "aria-roledescription": "wrap", "aria-label": "Wrap",
    "aria-describedby": help, tabindex: 0,
  });
  const defs = make("defs", {}, view);
  const world = make("g", { class: "wc-world" }, view);
  const paper = make("g", { "aria-hidden": "true" }, world);
  const art = make("g", { class: "wc-art", "aria-hidden": "true" }, world);
  const beyond = make("g", { "aria-hidden": "true" }, world);
  const guides = make("g", { class: "wc-guides", "aria-hidden": "true" }, world);
  const holds = make("g", { class: "wc-holds" }, world);
  const over = make("g", { class: "wc-over", "aria-hidden": "true" }, view);
  const scales = make("g", { class: "wc-scales" }, over);
  const names = make("g", { class: "wc-names" }, over);
  const hints = make("g", { class: "wc-hints" }, over);
  const grips = make("g", { class: "wc-grips" }, over);
  const rulers = make("g", { class: "wc-rulers" }, over);
  const note = document.createElement("p");
  note.className = "wc-note";
  note.setAttribute("aria-hidden", "true");
  const words = document.createElement("p");
  words.className = "wc-spoken";
  words.id = help;
  words.hidden = true;
  words.textContent = KEYS;
  const said = document.createElement("p");
  said.className = "wc-spoken";
  said.setAttribute("aria-live", "polite");
  host.replaceChildren(view, note, words, said);
  return {
    host, view, defs, world, paper, art, beyond, guides, holds, names, hints, grips, rulers, scales, note, said,
    /** Let go of what keys have in hand: hands put their own in. */
    drop: () => {},
  };
}
