// The cut list, stroke by stroke, on the drawings of the sheets.

import { inUnit } from "../app/lengths.js";
import { byId } from "../sheet/dom.js";
import { drawn } from "./board.js";

const EACH_MS = 1400;

export class Cuts {
  /** @param {any} board */
  constructor(board) {
    this.board = board;
    /** @type {any[]} */
    this.strokes = [];
    this.all = 0;
    this.at = 0;
    this.timer = 0;
    byId("cut-before").addEventListener("click", () => this.go(this.at - 1));
    byId("cut-next").addEventListener("click", () => this.go(this.at + 1));
    byId("cut-play").addEventListener("click", () => this.play(!this.timer));
    byId("cut-at").addEventListener("input", () => { this.play(false); this.go(Number(byId("cut-at").value)); });
    document.addEventListener("wrapunit", () => this.draw());
  }

  /** @param {any} view */
  show(view) {
    this.strokes = view?.strokes ?? [];
    this.all = view?.strokes_all ?? 0;
    this.play(false);
    byId("cuts").hidden = this.strokes.length === 0;
    byId("cut-at").max = String(this.strokes.length);
    this.go(Math.min(this.at, this.strokes.length));
  }

  /** @param {boolean} on */
  play(on) {
    window.clearInterval(this.timer);
    this.timer = 0;
    if (on) {
      if (this.at >= this.strokes.length) this.go(0);
      this.timer = window.setInterval(() => {
        this.go(this.at + 1);
        if (this.at >= this.strokes.length) this.play(false);
      }, EACH_MS);
    }
    byId("cut-play").setAttribute("aria-pressed", String(on));
    byId("cut-play").textContent = on ? "Pause" : "Play";
    // While it plays, each sentence would be cut off by the next.
    byId("cut-words").setAttribute("aria-live", on ? "off" : "polite");
  }

  /** @param {number} to */
  go(to) {
    this.at = Math.min(Math.max(0, to), this.strokes.length);
    byId("cut-at").value = String(this.at);
    byId("cut-at").setAttribute("aria-valuetext", this.at ? `stroke ${this.at} of ${this.all}` : "before the first stroke");
    byId("cut-before").disabled = this.at === 0;
    byId("cut-next").disabled = this.at === this.strokes.length;
    this.draw();
  }

  draw() {
    const now = this.strokes[this.at - 1];
    const further = this.all > this.strokes.length ? ` (the first ${this.strokes.length} are shown here)` : "";
    byId("cut-words").textContent = now ? inUnit(now.words) : `${this.all} strokes${further}: step through them, or let them play.`;
    for (const { sheets, svg } of this.board.groups) {
      const layer = svg.querySelector(".t-strokes");
      if (!layer) continue;
      const mine = (/** @type {any} */ one) => one.layers.filter((/** @type {any} */ part) => sheets.includes(part.sheet));
      const done = this.strokes.slice(0, Math.max(0, this.at - 1)).flatMap(mine).map((/** @type {any} */ part) => line(part.cut, "t-cut"));
      const under = now ? mine(now) : [];
      layer.replaceChildren(
        ...done,
        ...under.map((/** @type {any} */ part) => {
          const [x, y, width, height] = part.box;
          return drawn("rect", { x, y, width, height, class: "t-under" });
        }),
        ...under.map((/** @type {any} */ part) => line(part.cut, "t-now")),
      );
      if (under.length && this.board.groups.length > 1) svg.closest("figure")?.scrollIntoView({ block: "nearest" });
    }
  }
}

/** @param {number[]} cut @param {string} look */
function line(cut, look) {
  return drawn("line", { x1: cut[0], y1: cut[1], x2: cut[2], y2: cut[3], class: look });
}
