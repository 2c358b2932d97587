// The figures of the selected element: its place, size and all it has; they follow a drag as it goes.

import { elementsOf, nameProblem, namesOf, renamed, valueAt, withElement, withPath } from "../document/elements.js";
import { mmOf, rounded } from "../document/measures.js";
import { make } from "../dom.js";
import { choiceField, colourField, lengthField, numberField, toggleField, wordsField } from "./control.js";
import { groupsOf } from "./kinds.js";
import { placeFields, placeNow } from "./place.js";
import { SPECIAL } from "./special.js";

/**
 * @typedef {import("../bench.js").Bench} Bench
 * @typedef {import("./control.js").Field} Field
 */

const LIVE = /^(at|across|up|up\.middle|side|round\..+|turn|width|height|size)$/;

/** A panel of fields for whichever element is selected. */
export class ElementFields {
  /**
   * @param {Bench} bench
   * @param {() => any[]} families
   * @param {Record<string, (element: Record<string, any>) => HTMLElement[]>} actions buttons at the end of groups
   */
  constructor(bench, families, actions) {
    this.bench = bench;
    this.families = families;
    this.actions = actions;
    this.node = make("div", { class: "compose-panel" });
    /** @type {Field[]} */
    this.fields = [];
    this.built = "";
  }

  get element() {
    const chosen = this.bench.chosen;
    return chosen ? elementsOf(this.bench.job)[chosen.element] : undefined;
  }

  /** Build the fields anew when others are needed, else let each show its figure. */
  show() {
    const element = this.element;
    if (!element) return;
    const groups = groupsOf(element).map((group) => ({ ...group, entries: group.entries.filter((one) => this.asked(one, element)) }));
    const form = JSON.stringify([this.bench.selected, groups, this.families().length, String(element.mask).slice(0, 4)]);
    if (form !== this.built) this.build(groups, element);
    this.built = form;
    for (const field of this.fields) field.show();
  }

  /** How something lies on a taper is asked only where there is one, or where it was answered. */
  asked(entry, element) {
    const { figures } = this.bench.drawn;
    return entry.path !== "lay" || "lay" in element || !figures || figures.girth_top_mm !== figures.girth_bottom_mm;
  }

  /** Let the figures of a drag follow it; nothing else can change while it goes on. */
  follow() {
    for (const field of this.fields) if (LIVE.test(field.path)) field.show();
  }

  build(groups, element) {
    const held = this.node.contains(document.activeElement) ? document.activeElement?.dataset.path : undefined;
    const open = new Set([...this.node.querySelectorAll("details[open]")].map((one) => one.dataset.title));
    this.fields = [];
    const parts = [this.heading()];
    const place = placeFields(this.bench, element);
    if (place.length) parts.push(this.group("Place", place));
    for (const group of groups) {
      const fields = group.entries.flatMap((entry) => this.made(entry));
      parts.push(this.group(group.title, fields, group.closed && !open.has(group.title)));
    }
    for (const part of parts) {
      part.querySelector(".field-grid")?.append(...(this.actions[part.dataset.title]?.(element) ?? []));
    }
    this.node.replaceChildren(...parts);
    if (held) this.node.querySelector(`[data-path="${CSS.escape(held)}"]`)?.focus();
  }

  heading() {
    const at = this.bench.chosen.element;
    const field = wordsField({
      label: "Name", path: "name", wide: true,
      get: () => namesOf(this.bench.job)[at],
      check: (text) => nameProblem(this.bench.job, at, text),
      commit: (text, pause_ms) => this.bench.edit((job) => (nameProblem(job, at, text) ? job : renamed(job, at, text)), { pause_ms }),
    });
    this.fields.push(field);
    return make("div", { class: "field-grid" }, field.node);
  }

  /** @param {string} title @param {Field[]} fields @param {boolean} [closed] undefined: it cannot be closed */
  group(title, fields, closed) {
    this.fields.push(...fields);
    const grid = make("div", { class: "field-grid" }, ...fields.map((one) => one.node));
    if (closed === undefined) return make("fieldset", { class: "field-group", "data-title": title }, make("legend", {}, title), grid);
    return make("details", { class: "field-group", open: !closed, "data-title": title }, make("summary", {}, title), grid);
  }

  /** @returns {import("./special.js").Hold} */
  hold() {
    const at = this.bench.chosen.element;
    return {
      element: () => elementsOf(this.bench.job)[at] ?? {},
      seen: () => this.bench.copyDrawn(this.bench.chosen),
      families: this.families,
      edit: (change, pause_ms) => this.bench.edit((job) => withElement(job, at, change), { pause_ms }),
    };
  }

  /** @param {any} entry @returns {Field[]} */
  made(entry) {
    const hold = this.hold();
    if (SPECIAL[entry.type]) return SPECIAL[entry.type](entry, hold);
    const spec = {
      ...entry,
      get: () => this.live(entry.path) ?? valueAt(hold.element(), entry.path) ?? entry.fallback,
      options: () => entry.options.map((one) => [...one]),
      commit: (value, pause_ms) => hold.edit((element) => withPath(element, entry.path.split("."), unless(value, entry.fallback)), pause_ms),
    };
    const kinds = { length: lengthField, number: numberField, choice: choiceField, words: wordsField, toggle: toggleField, colour: colourField };
    return [kinds[entry.type](spec)];
  }

  /** What a drag in hand makes of a figure, or undefined. @param {string} path */
  live(path) {
    const place = placeNow(this.bench);
    const element = place?.table;
    if (path === "turn" && place?.live) return rounded(place.live.turn_deg);
    if (!place?.live || !["width", "height", "size"].includes(path) || mmOf(element[path]) === null) return undefined;
    const scale = path === "width" ? place.live.scale_x : place.live.scale_y;
    return rounded(mmOf(element[path]) * (scale ?? 1));
  }
}

/** A value, or nothing where the document takes it by itself. */
function unless(value, fallback) {
  if (value === fallback || value === "") return fallback === undefined && value === "" ? "" : undefined;
  return fallback === 0 && mmOf(value) === 0 ? undefined : value;
}
