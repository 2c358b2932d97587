// The side of figures: the selected element's or the design's, and what can be done with the element.

import { say } from "../../app/say.js";
import { elementsOf, goesRound, kindOf } from "../document/elements.js";
import { copiesOf } from "../document/places.js";
import { button, byId, make } from "../dom.js";
import { DesignFields } from "./design.js";
import { ElementFields } from "./element.js";

/**
 * @typedef {import("../bench.js").Bench} Bench
 * @typedef {import("../acts/acts.js").Acts} Acts
 * @typedef {{blank: any, setups: any[], families: any[]}} Known
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
    this.element = new ElementFields(bench, () => known().families, (element) => this.actions(element));
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

  /** Buttons for what can be done with an element. @param {Record<string, any>} element @returns {HTMLElement[]} */
  actions(element) {
    const { acts } = this;
    const round = goesRound(element);
    const copies = round ? 1 : copiesOf(element).length;
    const act = (words, does, path) => button(words, does, { "data-path": path });
    const rows = [];
    if (!round) rows.push(make("div", { class: "act-row" }, act("Opposite copy", () => acts.opposite(), "act.opposite"), ...this.spreading(copies)));
    const last = elementsOf(this.bench.job).length - 1;
    const at = this.bench.chosen?.element ?? 0;
    const nearer = act("To the front", () => acts.order(1), "act.nearer");
    const farther = act("To the back", () => acts.order(-1), "act.farther");
    nearer.title = "One step nearer to the front";
    farther.title = "One step nearer to the back";
    nearer.disabled = at >= last;
    farther.disabled = at <= 0;
    rows.push(make("div", { class: "act-row" }, act("Duplicate", () => acts.duplicate(), "act.duplicate"), nearer, farther));
    const removing = copies > 1
      ? [act("Remove this copy", () => acts.remove(), "act.remove"), act("Remove all copies", () => acts.removeElement(), "act.removeall")]
      : [act("Remove", () => acts.remove(), "act.remove")];
    const own = kindOf(element) === "picture" || kindOf(element) === "tile"
      ? [act("Another picture", () => this.more.replace(), "act.replace")]
      : kindOf(element) === "text" ? [this.fontButton()] : [];
    rows.push(make("div", { class: "act-row" }, ...removing, ...own));
    return [make("div", { class: "acts" }, ...rows)];
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
    return make("span", {}, input, make("label", { class: "button", for: "font-file", title: "Use only fonts you may use" }, "Add a font"));
  }
}
