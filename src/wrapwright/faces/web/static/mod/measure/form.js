// The measuring form as plain tables, and tables back into the form.

import { unit } from "../app/lengths.js";

/** @typedef {{blank: Record<string, any>, wrap: Record<string, any>}} Tables */

const OWN_UNIT = /[a-z"'′″’”]/i;
const HOWS = ["girth", "diameter", "flat"];

export class Form {
  /** @param {HTMLFormElement} root */
  constructor(root) {
    this.root = root;
    this.how = /** @type {HTMLSelectElement} */ (root.querySelector("#how"));
    this.tall = /** @type {HTMLSelectElement} */ (root.querySelector("#tall"));
    this.plate = /** @type {HTMLSelectElement} */ (root.querySelector("#plate"));
    /** The points of a flat blank's own outline, as they were kept. @type {unknown} */
    this.outline = undefined;
    /** What a printed gauge was printed with, as it was kept. @type {Record<string, unknown>} */
    this.gauge = {};
    this.handled = /** @type {HTMLInputElement} */ (root.querySelector("#handled"));
    this.pick = /** @type {HTMLInputElement} */ (root.querySelector("#coating-pick"));
  }

  /** straight, tapered, profile, or "" */
  get kind() {
    return /** @type {HTMLInputElement | null} */ (this.root.querySelector('[name="kind"]:checked'))?.value ?? "";
  }

  /** Show only what the chosen shape is measured with. */
  arrange() {
    const { kind } = this;
    for (const one of /** @type {NodeListOf<HTMLElement>} */ (this.root.querySelectorAll("[data-kind], [data-tall], [data-plate]"))) {
      const { kind: kinds, how, tall, plate } = one.dataset;
      const off = (kinds !== undefined && !kinds.split(" ").includes(kind))
        || (how !== undefined && how !== this.how.value) || (tall !== undefined && tall !== this.tall.value)
        || (plate !== undefined && !plate.split(" ").includes(this.plate.value));
      one.hidden = off;
      if (one instanceof HTMLFieldSetElement) one.disabled = off;
    }
    const handle = /** @type {HTMLFieldSetElement} */ (this.root.querySelector("#handle-part"));
    handle.hidden = handle.disabled = !this.handled.checked || kind === "flat";
    // Only a blank with a wall has a seam, a band and a handle; only a flat one a place across.
    this.root.toggleAttribute("data-flat", kind === "flat");
    const seam = /** @type {HTMLElement} */ (this.root.querySelector("#seam-part"));
    seam.hidden = this.handled.checked;
  }

  /** All fields that count: those of another shape do not. */
  fields() {
    const all = /** @type {NodeListOf<HTMLInputElement | HTMLSelectElement>} */ (this.root.querySelectorAll("[data-field]"));
    const stray = this.kind === "flat" ? ".m-walled" : ".m-plate";
    return [...all].filter((one) => !one.closest(stray) && !one.closest("[hidden]:not(details *)") && !one.closest("fieldset:disabled"));
  }

  /** @returns {Tables} every value as typed, empty ones too */
  read() {
    /** @type {any} */
    const made = { blank: {}, wrap: {} };
    if (this.kind) made.blank.kind = this.kind;
    if (this.handled.checked && this.kind !== "flat") made.blank.handle = {};
    if (this.kind === "flat" && this.plate.value === "outline") made.blank.outline = this.outline ?? "";
    for (const field of this.fields()) {
      // A tape's own words are its default: what was never chosen is not kept.
      if (field instanceof HTMLSelectElement && field.value === "") continue;
      put(made, String(field.dataset.field).split("."), field.value);
    }
    if (made.blank.tape?.kind === "gauge" && this.how.value === "flat") Object.assign(made.blank.tape, this.gauge);
    return made;
  }

  /** @param {Tables} tables */
  fill(tables) {
    const { blank, wrap } = tables;
    const kind = String(blank.kind ?? "").toLowerCase();
    for (const one of /** @type {NodeListOf<HTMLInputElement>} */ (this.root.querySelectorAll('[name="kind"]'))) {
      one.checked = one.value === kind;
    }
    this.how.value = HOWS.find((one) => one in blank || `${one}_top` in blank) ?? "girth";
    this.tall.value = "height" in blank ? "height" : "wall";
    this.outline = blank.outline;
    this.gauge = Object.fromEntries(["setup", "scale", "lies", "pieces"].filter((key) => key in (blank.tape ?? {})).map((key) => [key, blank.tape[key]]));
    this.plate.value = "circle" in blank ? "circle" : "outline" in blank ? "outline" : "sides";
    this.handled.checked = Boolean(blank.handle);
    this.arrange();
    for (const field of /** @type {NodeListOf<HTMLInputElement | HTMLSelectElement>} */ (this.root.querySelectorAll("[data-field]"))) {
      setField(field, at({ blank, wrap }, String(field.dataset.field).split(".")));
    }
    this.matchPick();
    if (blank.keepout || Object.keys(wrap ?? {}).some((key) => key !== "seam") || !["left", undefined].includes(wrap?.seam)) {
      /** @type {HTMLDetailsElement} */ (this.root.querySelector("#more")).open = true;
    }
  }

  /** Let the colour chooser show what is typed, as far as it is a colour. */
  matchPick() {
    const typed = /** @type {HTMLInputElement} */ (this.root.querySelector("#coating")).value.trim();
    if (/^#[0-9a-f]{6}$/i.test(typed)) this.pick.value = typed.toLowerCase();
    else if (!typed) this.pick.value = "#ffffff";
  }

  /**
   * Write the old unit after every bare number, so that a switch changes no reading.
   * @param {string} old
   */
  pin(old) {
    for (const field of /** @type {NodeListOf<HTMLInputElement>} */ (this.root.querySelectorAll("[data-length]"))) {
      if (/[0-9¼½¾⅓⅔⅛⅜⅝⅞]\s*$/.test(field.value) && !OWN_UNIT.test(field.value)) field.value = `${field.value.trim()} ${old}`;
      else if (ends(field.value, unit())) field.value = field.value.trim().slice(0, -unit().length).trim();
    }
  }

  /** A field whose text says its own unit shows no other. */
  suffixes() {
    for (const one of this.root.querySelectorAll("[data-unit-word]")) {
      const field = /** @type {HTMLInputElement | null} */ (one.parentElement?.querySelector("input"));
      one.textContent = field && OWN_UNIT.test(field.value) ? "" : unit();
    }
  }

  /** Show the unit in every field, and which keys a phone's keyboard needs. */
  showUnit() {
    const word = unit();
    this.suffixes();
    for (const one of this.root.querySelectorAll("[data-length]")) one.setAttribute("inputmode", word === "mm" ? "decimal" : "text");
    for (const one of this.root.querySelectorAll("[data-to-unit]")) {
      one.setAttribute("aria-pressed", String(/** @type {HTMLElement} */ (one).dataset.toUnit === word));
    }
  }
}

/** @param {any} made @param {string[]} path @param {string} value */
function put(made, path, value) {
  let here = made;
  path.forEach((key, at) => {
    if (at === path.length - 1) here[key] = value;
    else here = here[key] ??= /^\d+$/.test(path[at + 1]) ? [] : {};
  });
}

/** @param {any} from @param {string[]} path */
function at(from, path) {
  return path.reduce((here, key) => here?.[key], from);
}

/**
 * Show a kept value; the unit of the screen is not repeated in its field.
 * @param {HTMLInputElement | HTMLSelectElement} field
 * @param {unknown} value
 */
export function setField(field, value) {
  const text = value === undefined || value === null ? "" : String(value);
  if (field instanceof HTMLInputElement) {
    field.value = field.hasAttribute("data-length") && ends(text, unit()) ? text.slice(0, -unit().length).trim() : text;
    return;
  }
  const chosen = text || field.dataset.default || "";
  const usual = chosen === (field.dataset.default ?? "");
  const known = [...field.options].find((one) => one.value === chosen || (one.value === "" && (usual || one.text === chosen)));
  if (known) known.selected = true;
  else field.add(new Option(chosen, chosen, true, true));
}

/** @param {string} text @param {string} word */
function ends(text, word) {
  return new RegExp(`[0-9¼½¾⅛⅜⅝⅞]\\s*${word}$`).test(text.trim());
}
