// The side of figures: the selected element's or the design's, and what can be done with the element.

import { say } from "../../app/say.js";
import { goesRound, kindOf } from "../document/elements.js";
import { copiesOf, isFlat } from "../document/places.js";
import { button, byId, make } from "../dom.js";
import { DesignFields } from "./design.js";
import { ElementFields } from "./element.js";

/**
 * @typedef {import("../bench.js").Bench} Bench
 * @typedef {import("../acts/acts.js").Acts} Acts
 * @typedef {{blank: any, setups: any[], families: any[], recipes: any[]}} Known
 */

export class Side {
  /**
   * @param {Bench} bench
   * @param {Acts} acts
   * @param {() => Known} known
   * @param {{replace: () => void, font: (file: File) => Promise<void>}} more
   */
  constructor(bench, acts, known, more) {
    this.bench = bench;
    this.acts = acts;
    this.more = more;
    this.element = new ElementFields(bench, () => known().families, {
      Place: (element) => this.copies(element),
      Picture: (element) => this.own(element),
      Pattern: (element) => this.own(element),
      Letters: (element) => this.own(element),
    });
    this.design = new DesignFields(bench, known, (setup) => bench.way?.order({ setup }));
    this.panel = byId("fields");
    this.tabs = { element: byId("tab-element"), design: byId("tab-design") };
    this.tabs.element.addEventListener("click", () => this.turn("element"));
    this.tabs.design.addEventListener("click", () => this.turn("design"));
    this.panel.append(this.element.node, this.design.node);
    for (const tab of Object.values(this.tabs)) tab.addEventListener("keydown", (event) => this.keyed(event));
    this.open = "design";
  }

  keyed(event) {
    if (event.key !== "ArrowLeft" && event.key !== "ArrowRight") return;
    event.preventDefault();
    this.turn(this.open === "design" ? "element" : "design");
    this.tabs[this.open].focus();
  }

  /** @param {"element"|"design"} to */
  turn(to) {
    this.open = to === "element" && !this.bench.chosen ? "design" : to;
    for (const [name, tab] of Object.entries(this.tabs)) {
      const on = name === this.open;
      tab.setAttribute("aria-selected", String(on));
      tab.tabIndex = on ? 0 : -1;
      this[name].node.hidden = !on;
    }
    this.tabs.element.disabled = !this.bench.chosen;
    this.panel.setAttribute("aria-labelledby", this.tabs[this.open].id);
    this[this.open].show();
  }

  /** The selection changed: its figures come to the front. */
  selected() {
    this.turn(this.bench.chosen ? "element" : "design");
  }

  show() {
    this.turn(this.open);
  }

  /** A drag is in hand. */
  follow() {
    if (this.open === "element") this.element.follow();
  }

  /** Buttons below the place of an element: its copies. @param {Record<string, any>} element @returns {HTMLElement[]} */
  copies(element) {
    if (goesRound(element) || isFlat(this.bench.job)) return [];
    const { acts } = this;
    const count = copiesOf(element).length;
    const act = (words, does, path) => button(words, does, { "data-path": path });
    const row = make("div", { class: "act-row field-wide" }, act("Opposite copy", () => acts.opposite(), "act.opposite"), ...this.spreading(count));
    if (count > 1) row.append(act(`Remove all ${count} copies`, () => acts.removeElement(), "act.removeall"));
    return [row];
  }

  /** Buttons for the file or font of an element. @param {Record<string, any>} element @returns {HTMLElement[]} */
  own(element) {
    const kind = kindOf(element);
    if (kind === "text") return [this.fontButton()];
    if (kind !== "picture" && kind !== "tile") return [];
    const words = make("span", { class: "note act-file" }, String(element.file ?? ""));
    return [make("div", { class: "act-row field-wide" }, words, button("Another picture", () => this.more.replace(), { "data-path": "act.replace" }))];
  }

  /** @param {number} copies */
  spreading(copies) {
    const input = make("input", {
      type: "number", min: 1, max: 100, value: Math.max(3, copies), "aria-label": "How many copies", class: "input act-count", "data-path": "act.count",
    });
    const go = () => {
      const count = Math.round(Number(input.value));
      if (count >= 1 && count <= 100) this.acts.spread(count);
      else say("1 to 100 copies can be spread round.");
    };
    input.addEventListener("keydown", (event) => { if (event.key === "Enter") go(); });
    return [make("span", { class: "act-spread" }, button("Spread", go, { "data-path": "act.spread" }), input, "round")];
  }

  fontButton() {
    const input = make("input", { type: "file", accept: ".ttf,.otf,.ttc,.otc", class: "only-spoken", id: "font-file" });
    input.addEventListener("change", () => { if (input.files?.[0]) this.more.font(input.files[0]); });
    const label = make("label", { class: "button", for: "font-file" }, "Add a font");
    return make("div", { class: "act-row field-wide" }, input, label, make("span", { class: "note" }, "Use only fonts you may use."));
  }
}
