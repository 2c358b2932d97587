// One field of any kind: its label, its unit, what it shows, what comes of typing, and its error.

import { bare, plain, read, unit } from "../../app/lengths.js";
import { lengthText, mmOf, rounded } from "../document/measures.js";
import { freshId, make } from "../dom.js";

/**
 * @typedef {{
 *   label: string, get: () => any, commit: (value: any, pause_ms?: number) => void, unit?: string, hint?: string,
 *   words?: string[], optional?: boolean, least?: number, above?: number, most?: number, step?: number, digits?: number,
 *   path?: string, wide?: boolean, check?: (text: string) => string,
 * }} Spec
 * @typedef {{node: HTMLElement, show: () => void, path: string}} Field
 */

export const BURST_MS = 250;

/**
 * The frame of a field: label above, error below.
 * @param {Spec} spec
 * @param {any} input
 * @param {any} [inside] what stands in the place of the input, with the input in it
 * @returns {{node: HTMLElement, wrong: (words: string) => void}}
 */
export function framed(spec, input, inside = input) {
  input.id = freshId("field");
  if (spec.path) input.dataset.path = spec.path;
  const wrong = make("span", { class: "field-wrong", id: `${input.id}-wrong`, role: "alert", hidden: true });
  input.setAttribute("aria-describedby", wrong.id);
  const label = make("label", { for: input.id }, spec.label);
  const node = make("div", { class: spec.wide ? "field field-wide" : "field" }, label, inside, wrong);
  return {
    node,
    wrong: (words) => {
      wrong.textContent = words;
      wrong.hidden = !words;
      if (words) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    },
  };
}

/**
 * A field for a figure that is typed: a length, degrees, percent or a plain number.
 * @param {Spec} spec
 * @param {{say: (value: any) => string, hear: (text: string) => Promise<any>|any, unit: () => string, step: number}} way
 * @returns {Field}
 */
function figureField(spec, way) {
  const sign = make("span", { "aria-hidden": "true" });
  const input = make("input", {
    type: "text", inputmode: "text", autocomplete: "off", spellcheck: false, placeholder: spec.hint ?? "",
  });
  const frame = framed(spec, input, make("span", { class: "field-unit" }, input, sign));
  let timer = 0;
  const show = () => {
    sign.textContent = way.unit();
    const text = way.say(spec.get());
    if (document.activeElement === input && input.value !== input.dataset.shown && input.value !== text) return;
    input.value = text;
    input.dataset.shown = text;
    frame.wrong("");
  };
  const commit = async (pause_ms = 0) => {
    const text = input.value.trim();
    if (text === input.dataset.shown && input.getAttribute("aria-invalid") !== "true") return;
    try {
      const value = await heard(text, spec, way);
      input.dataset.shown = input.value;
      frame.wrong("");
      spec.commit(value, pause_ms);
    } catch (error) {
      frame.wrong([error.message, error.remedy].filter(Boolean).join(" "));
    }
  };
  input.addEventListener("change", () => commit());
  input.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { input.value = input.dataset.shown ?? ""; frame.wrong(""); }
    const way_up = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const now = way_up ? way.number?.(input.value) ?? null : null;
    if (!way_up || now === null) return;
    event.preventDefault();
    const size = way.step * (event.shiftKey ? 10 : event.altKey ? 0.2 : 1);
    input.value = plain(now + way_up * size, 4);
    window.clearTimeout(timer);
    timer = window.setTimeout(() => commit(), BURST_MS);
  });
  return { node: frame.node, show, path: spec.path ?? "" };
}

/** What a text means for the document: undefined for nothing, a word, else what is heard, within its limits. */
async function heard(text, spec, way) {
  if (!text && spec.optional) return undefined;
  const word = spec.words?.find((one) => one === text.toLowerCase());
  if (word) return word;
  const problem = spec.check?.(text);
  if (problem) throw new Error(problem);
  const value = await way.hear(text);
  const [number, own] = [way.limit ? way.limit(value) : value, way.unit()];
  if (spec.above !== undefined && number <= spec.above) throw new Error(`${text} ${own} is too little: it has to be more than ${spec.above}.`);
  if (spec.least !== undefined && number < spec.least) throw new Error(`${text} is less than ${spec.least} ${own}.`);
  if (spec.most !== undefined && number > spec.most) throw new Error(`${text} is more than ${spec.most} ${own}.`);
  return way.keep ? way.keep(value) : value;
}

/** Millimetres by the server's own reader; a plain figure is also understood while the server is away. */
async function millimetres(text) {
  try {
    return await read(text);
  } catch (error) {
    const own = mmOf(/[a-z"]$/i.test(text) ? text : `${text} ${unit()}`);
    if (error.kind === "offline" && own !== null) return own;
    throw error;
  }
}

/**
 * A length: shown in the chosen unit, read as the command line reads it ("3 1/8 in"), kept as "79.375 mm".
 * @param {Spec} spec
 * @returns {Field}
 */
export function lengthField(spec) {
  const own = () => spec.get();
  return figureField(spec, {
    say: (value) => (value === undefined || value === null ? "" : mmOf(value) === null ? String(value) : bare(mmOf(value), spec.digits ?? 3)),
    hear: millimetres,
    limit: (mm) => mm,
    keep: lengthText,
    // A length written with a unit of its own needs no other beside it.
    unit: () => (typeof own() === "string" && mmOf(own()) === null && /\d/.test(own()) ? "" : unit()),
    number: (text) => numberIn(text),
    step: unit() === "in" ? 0.02 : 0.5,
  });
}

/** The number a field holds, or null. @param {string} text */
export function numberIn(text) {
  const bareText = text.trim().replace(/\s*(°|deg|%)$/i, "").replace("\u2212", "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(bareText) ? Number(bareText) : null;
}

function number(text) {
  const value = numberIn(text);
  if (value === null) throw new Error(`"${text.slice(0, 40)}" is not a number.`);
  return value;
}

/**
 * A plain number, degrees or percent; `scale` is what the document's 1 is here (100 for shares shown as percent).
 * @param {Spec & {scale?: number, whole?: boolean}} spec
 * @returns {Field}
 */
export function numberField(spec) {
  const scale = spec.scale ?? 1;
  return figureField(spec, {
    say: (value) => (typeof value === "number" ? plain(value * scale, spec.digits ?? 3) : String(value ?? "")),
    hear: (text) => (spec.whole ? Math.round(number(text)) : number(text)),
    keep: (value) => rounded(value / scale),
    unit: () => spec.unit ?? "",
    number: numberIn,
    step: spec.step ?? 1,
  });
}

/**
 * A figure with a reader of its own.
 * @param {Spec} spec
 * @param {any} way
 * @returns {Field}
 */
export function ownField(spec, way) {
  return figureField(spec, way);
}

/**
 * One of a few words; `options` are [value, words] pairs.
 * @param {Spec & {options: () => [string, string][]}} spec
 * @returns {Field}
 */
export function choiceField(spec) {
  const input = make("select", { onchange: () => spec.commit(input.value) });
  const frame = framed(spec, input);
  const show = () => {
    const value = String(spec.get() ?? "");
    const options = spec.options();
    if (!options.some(([one]) => one === value)) options.push([value, value]);
    input.replaceChildren(...options.map(([one, words]) => make("option", { value: one }, words)));
    input.value = value;
  };
  return { node: frame.node, show, path: spec.path ?? "" };
}

/**
 * Words; typing is sent after a short pause.
 * @param {Spec & {rows?: number}} spec
 * @returns {Field}
 */
export function wordsField(spec) {
  const input = make(spec.rows ? "textarea" : "input", { autocomplete: "off", placeholder: spec.hint ?? "" });
  if (spec.rows) input.rows = spec.rows;
  const frame = framed(spec, input);
  const commit = (pause_ms) => {
    const problem = spec.check?.(input.value) ?? "";
    frame.wrong(problem);
    if (!problem) spec.commit(input.value, pause_ms);
  };
  input.addEventListener("input", () => commit(BURST_MS));
  input.addEventListener("change", () => commit(0));
  const show = () => {
    const text = String(spec.get() ?? "");
    if (document.activeElement !== input && input.value !== text) input.value = text;
  };
  return { node: frame.node, show, path: spec.path ?? "" };
}

/**
 * Yes or no.
 * @param {Spec} spec
 * @returns {Field}
 */
export function toggleField(spec) {
  const input = make("input", { type: "checkbox", id: freshId("field"), onchange: () => spec.commit(input.checked) });
  if (spec.path) input.dataset.path = spec.path;
  const node = make("label", { class: "field-toggle field-wide", for: input.id }, input, spec.label);
  return { node, show: () => { input.checked = Boolean(spec.get()); }, path: spec.path ?? "" };
}

/**
 * A colour: a swatch to choose it by eye, and its "#rrggbb".
 * @param {Spec} spec
 * @returns {Field}
 */
export function colourField(spec) {
  const swatch = make("input", { type: "color", "aria-label": `${spec.label}, by eye`, class: "field-swatch" });
  const input = make("input", { type: "text", autocomplete: "off", spellcheck: false, placeholder: spec.hint ?? "" });
  const frame = framed(spec, input, make("span", { class: "field-unit field-colour" }, swatch, input));
  const commit = (text, pause_ms) => {
    const found = /^#?([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(text.trim());
    if (!text.trim() && spec.optional) return spec.commit(undefined);
    frame.wrong(found ? "" : `"${text.slice(0, 30)}" is not a colour. Write, for example, #0e3a5a.`);
    if (found) spec.commit(`#${found[1].toLowerCase()}`, pause_ms);
  };
  swatch.addEventListener("input", () => { input.value = swatch.value; commit(swatch.value, BURST_MS); });
  input.addEventListener("change", () => commit(input.value));
  const show = () => {
    const text = String(spec.get() ?? "");
    if (document.activeElement !== input) input.value = text;
    if (/^#[0-9a-f]{6}$/i.test(text)) swatch.value = text.toLowerCase();
    frame.wrong("");
  };
  return { node: frame.node, show, path: spec.path ?? "" };
}
