// The figures of the design as a whole: title, blank, wrap, paper, and the values that its texts ask for.

import { pages } from "../../app/api.js";
import { format } from "../../app/lengths.js";
import { since } from "../../app/figures.js";
import { valueAt, withPath } from "../document/elements.js";
import { angleOf, isFlat, placeText } from "../document/places.js";
import { alike, fieldsOf } from "../document/wording.js";
import { button, make } from "../dom.js";
import { choiceField, lengthField, ownField, wordsField } from "./control.js";

/**
 * @typedef {import("../bench.js").Bench} Bench
 * @typedef {import("./control.js").Field} Field
 * @typedef {{blank: any, setups: any[], recipes: any[]}} Known What the workshop has: the design's blank at its newest, set-ups, recipes.
 */

/** The panel of the design; it stands while nothing is selected. */
export class DesignFields {
  /** @param {Bench} bench @param {() => Known} known @param {(setup: number) => void} useSetup */
  constructor(bench, known, useSetup) {
    this.bench = bench;
    this.known = known;
    this.useSetup = useSetup;
    this.node = make("div", { class: "compose-panel" });
    /** @type {Field[]} */
    this.fields = [];
    this.built = "";
  }

  show() {
    const { job, drawn } = this.bench;
    const known = this.known();
    const form = JSON.stringify([fieldsOf(job), known.setups.map((one) => one.id), known.recipes.map((one) => one.name), this.bench.job.press?.recipe, known.blank?.version, this.newer(), Boolean(job.blank?.handle), drawn.figures]);
    if (form !== this.built) this.build();
    this.built = form;
    for (const field of this.fields) field.show();
  }

  build() {
    const held = this.node.contains(document.activeElement) ? document.activeElement?.dataset.path : undefined;
    const open = [...this.node.querySelectorAll("details[open]")].map((one) => one.dataset.title);
    this.fields = [];
    this.node.replaceChildren(
      this.group("", [this.title()]),
      ...this.values(),
      this.blank(),
      this.paper(),
      this.heat(),
      this.wrap(open.includes("Wrap")),
    );
    if (held) this.node.querySelector(`[data-path="${CSS.escape(held)}"]`)?.focus();
  }

  /** @param {string} title @param {Field[]} fields @param {...Node} more */
  group(title, fields, ...more) {
    this.fields.push(...fields);
    const grid = make("div", { class: "field-grid" }, ...fields.map((one) => one.node));
    const legend = title ? [make("legend", {}, title)] : [];
    return make("fieldset", { class: "field-group" }, ...legend, ...more, fields.length ? grid : null);
  }

  /** A field's way to a value of the document. @param {string} path */
  value(path) {
    return {
      path,
      get: () => valueAt(this.bench.job, path),
      commit: (value, pause_ms) => this.bench.edit((job) => withPath(job, path.split("."), value), { pause_ms }),
    };
  }

  title() {
    const way = this.value("title");
    return wordsField({
      ...way, label: "Title", wide: true, hint: "Untitled",
      check: (text) => (text.length > 200 ? `A title has at most 200 characters; this one has ${text.length}.` : ""),
      commit: (text, pause_ms) => way.commit(text.trim() || undefined, pause_ms),
    });
  }

  /** The values of {name} and its like, each with a field. */
  values() {
    const names = fieldsOf(this.bench.job);
    if (!names.length) return [];
    const fields = names.map((name) => wordsField({
      label: name, path: `fields.${name}`,
      get: () => this.bench.job.fields?.[name],
      commit: (text, pause_ms) => this.bench.edit((job) => ({ ...job, fields: { ...job.fields, [name]: text } }), { pause_ms }),
    }));
    return [this.group("Values for the texts", fields)];
  }

  /** Whether the shelf has other readings for this blank than the design. */
  newer() {
    const { blank } = this.known();
    return Boolean(blank) && blank.version > this.bench.design.blank_version && !alike(blank.table, this.bench.job.blank);
  }

  blank() {
    const { blank } = this.known();
    const { figures } = this.bench.drawn;
    const name = blank ? `${blank.name}, version ${this.bench.design.blank_version}` : "readings of its own";
    const rows = [["Blank", name]];
    if (figures) {
      const { girth_top_mm: top, girth_bottom_mm: bottom } = figures;
      if (isFlat(this.bench.job)) rows.push(["Size", `${format(figures.width_mm)} × ${format(figures.height_mm)}`]);
      else rows.push(["Girth", Math.abs(top - bottom) < 0.05 ? format(top) : `${format(top)} above, ${format(bottom)} below`]);
      if (!isFlat(this.bench.job)) {
        rows.push(["Flat wrap", `${format(figures.width_mm)} × ${format(figures.height_mm)}`]);
        rows.push(["Opposite holds within", `±${format(figures.opposite_error_mm)}`]);
      }
    }
    const list = make("dl", { class: "compose-figures" }, ...rows.flatMap(([term, words]) => [make("dt", {}, term), make("dd", {}, words)]));
    if (blank) list.append(make("dt", {}, "Readings"), make("dd", {}, make("a", { href: pages.measure(blank.id) }, "measure again")));
    if (!this.newer()) return this.group("Blank", [], list);
    const take = button(`Take the readings of version ${blank.version}`, () => {
      this.bench.edit((job) => ({ ...job, blank: structuredClone(blank.table) }));
    });
    const words = `${blank.name} was measured again ${since(new Date(blank.added), new Date())}.`;
    return this.group("Blank", [], list, make("p", { class: "note" }, words), take);
  }

  paper() {
    const { setups } = this.known();
    const used = () => {
      const { colour = {} } = this.bench.job;
      const { setup: _name, ...sheet } = this.bench.job.sheet ?? {};  // it is told by its figures
      return setups.find((one) => alike(one.sheet, sheet) && alike(one.colour, colour));
    };
    const sheet = () => String(this.bench.job.sheet?.paper ?? "Letter");
    if (!setups.length) {
      const words = `Paper: ${sheet()}. A set-up holds printer, paper and colour together; there is none yet. `;
      return this.group("Set-up", [], make("p", { class: "note" }, words, make("a", { href: "/setups" }, "Add one")));
    }
    const field = choiceField({
      label: "Printer and paper", path: "setup", wide: true,
      get: () => String(used()?.id ?? ""),
      options: () => [
        ...(used() ? [] : [["", `its own figures (${sheet()})`]]),
        ...setups.map((one) => [String(one.id), one.name]),
      ],
      commit: (value) => { if (value) this.useSetup(Number(value)); },
    });
    return this.group("Set-up", [field]);
  }

  /** The recipe that it is to be heated with: its figures go on the ticket, and the overlap allows for the growth. */
  heat() {
    const { recipes } = this.known();
    const way = this.value("press.recipe");
    const same = (one) => one.name.toLowerCase() === String(way.get() ?? "").trim().toLowerCase();
    const field = choiceField({
      ...way, label: "Recipe", wide: true,
      get: () => recipes.find(same)?.name ?? way.get(),
      options: () => [["", "none named"], ...recipes.map((one) => [one.name, one.content.title])],
      commit: (value) => way.commit(value || undefined),
    });
    const told = Object.fromEntries(recipes.find(same)?.words ?? []);
    const words = told["set to"] ? `${told["set to"]}; ${told.dwell}. ` : "What it is heated with goes on the ticket. ";
    const note = make("p", { class: "note" }, words, make("a", { href: "/press/recipes" }, "Recipes"));
    const made = this.group("Heat", [field]);
    made.append(note);
    return made;
  }

  /** @param {boolean} open */
  wrap(open) {
    const length = (path, label, more = {}) => lengthField({ ...this.value(path), label, optional: true, least: 0, ...more });
    const handle = Boolean(this.bench.job.blank?.handle);
    const flat = isFlat(this.bench.job);
    const fields = [
      ...(flat ? [] : [
        length("wrap.band.from", "Band from", { hint: "lower edge" }),
        length("wrap.band.height", "Band height", { hint: "whole wall", least: undefined, above: 0 }),
      ]),
      ...(handle || flat ? [] : [this.seam(), length("wrap.overlap", "Overlap", { hint: "auto", words: ["auto"] })]),
      length("wrap.bleed", "Bleed", { hint: "2 mm" }),
      length("wrap.safe", "Safe margin", { hint: "4 mm" }),
    ];
    this.fields.push(...fields);
    const grid = make("div", { class: "field-grid" }, ...fields.map((one) => one.node));
    return make("details", { class: "field-group", open, "data-title": "Wrap" }, make("summary", {}, flat ? "Transfer" : "Wrap"), grid);
  }

  seam() {
    const way = this.value("wrap.seam");
    return ownField({ ...way, label: "Seam at", optional: true, hint: "left" }, {
      say: (value) => String(value ?? ""),
      hear: (text) => {
        const angle = angleOf(text);
        if (angle === null) throw new Error(`"${text.slice(0, 30)}" is not a place. Write left, back or degrees.`);
        return placeText(angle);
      },
      unit: () => "", number: () => null, step: 1,
    });
  }
}
