// The elements, front to back: chosen, put in order, with their copies and what lies exactly opposite.

import { KIND_WORDS, elementsOf, goesRound, kindOf, namesOf, reordered } from "../document/elements.js";
import { format } from "../../app/lengths.js";
import { mmOf } from "../document/measures.js";
import { acrossWords, copiesOf, isFlat, oppositeOf, placeWords } from "../document/places.js";
import { keyOf } from "../bench.js";
import { make } from "../dom.js";
import { draggable } from "./drag.js";

/** @typedef {import("../bench.js").Bench} Bench */

export class ElementList {
  /** @param {HTMLElement} node an ordered list @param {Bench} bench */
  constructor(node, bench) {
    this.node = node;
    this.bench = bench;
    node.addEventListener("click", (event) => this.pressed(event));
    node.addEventListener("keydown", (event) => this.keyed(event));
    draggable(node, (from, to) => this.reorder(from, to));
  }

  /** Show the rows; focus stays on the row that had it. */
  show() {
    const held = this.node.contains(document.activeElement) ? document.activeElement?.dataset.key : undefined;
    const names = namesOf(this.bench.job);
    const rows = elementsOf(this.bench.job).map((element, at) => this.row(element, at, names[at])).reverse();
    this.node.replaceChildren(...rows);
    this.mark();
    if (held !== undefined) (this.find(held) ?? this.find(this.bench.selected[0]) ?? this.node.querySelector("button"))?.focus();
  }

  /** Mark what is selected. */
  mark() {
    const { selected } = this.bench;
    for (const one of this.node.querySelectorAll("[data-key]")) {
      const [element, copy] = one.dataset.key.split(".");
      const on = selected.some((key) => key.split(".")[0] === element && (copy === undefined || key === one.dataset.key));
      one.setAttribute("aria-pressed", String(on));
    }
    const row = this.find(selected[0]);
    if (row) scrolled(this.node, row);
  }

  find(key) {
    return key === undefined ? null : this.node.querySelector(`[data-key="${key}"]`) ?? this.node.querySelector(`[data-key="${key.split(".")[0]}"]`);
  }

  row(element, at, name) {
    const kind = KIND_WORDS[kindOf(element)] ?? "unknown";
    const angles = goesRound(element) ? [] : copiesOf(element);
    const opposite = angles.length === 2 && oppositeOf(element, 0) === 1;
    const flat = isFlat(this.bench.job);
    const across = mmOf(element.across) ?? 0;
    const where = flat ? goesRound(element) ? "all over" : acrossWords(across, format(Math.abs(across)))
      : goesRound(element) ? "all round" : angles.length === 1 ? placeWords(angles[0]) : opposite ? "2, opposite" : `${angles.length} copies`;
    const press = make("button", { type: "button", class: "element-row", "data-key": String(at), "data-row": String(at) },
      make("span", { class: "element-grip", "aria-hidden": "true" }),
      make("span", { class: "element-name" }, name),
      make("span", { class: "element-kind" }, kind),
      make("span", { class: "element-where figure" }, where));
    const item = make("li", { "data-row": String(at) }, press);
    if (angles.length > 1) item.append(make("ul", { class: "element-copies", "aria-label": `Copies of ${name}` }, ...this.copies(element, at, angles)));
    return item;
  }

  copies(element, at, angles) {
    return angles.map((angle, copy) => {
      const across = oppositeOf(element, copy);
      const words = across < 0 ? "" : `opposite ${placeWords(angles[across])}`;
      return make("li", {}, make("button", { type: "button", class: "element-row element-copy", "data-key": keyOf(at, copy) },
        make("span", { class: "element-name figure" }, placeWords(angle)),
        make("span", { class: "element-where" }, words)));
    });
  }

  pressed(event) {
    const key = event.target.closest("[data-key]")?.dataset.key;
    if (key === undefined) return;
    const full = key.includes(".") ? key : keyOf(Number(key), 0);
    this.bench.select([full]);
  }

  /** Arrows go from row to row; with Alt they move the element in the order. @param {KeyboardEvent} event */
  keyed(event) {
    const way = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    const here = /** @type {HTMLElement|null} */ (event.target)?.closest?.("[data-key]");
    if (!way || !here) return;
    event.preventDefault();
    event.stopPropagation();
    if (event.altKey) {
      const at = Number(here.dataset.key.split(".")[0]);
      this.reorder(at, at - way);
      return;
    }
    const all = [...this.node.querySelectorAll("[data-key]")];
    /** @type {HTMLElement|undefined} */ (all[all.indexOf(here) + way])?.focus();
  }

  /** @param {number} from @param {number} to indices in the document, back to front */
  reorder(from, to) {
    const count = elementsOf(this.bench.job).length;
    if (to < 0 || to >= count || to === from) return;
    const held = this.node.contains(document.activeElement);
    const copy = this.bench.chosen?.copy ?? 0;
    this.bench.edit((job) => reordered(job, from, to), { selected: [keyOf(to, copy)], reshaped: true });
    if (held) this.find(String(to))?.focus();
  }
}

/** Scroll the list, and nothing else, until a row is seen. @param {HTMLElement} list @param {HTMLElement} row */
function scrolled(list, row) {
  const [seen, own] = [list.getBoundingClientRect(), row.getBoundingClientRect()];
  if (own.top < seen.top) list.scrollTop -= seen.top - own.top;
  else if (own.bottom > seen.bottom) list.scrollTop += own.bottom - seen.bottom;
}
