// Fields whose value in the document is more than one figure or word: each reads it, and writes it back.

import { rounded, wordOf } from "../document/measures.js";
import { withPath } from "../document/elements.js";
import { choiceField, colourField, lengthField, numberField, toggleField } from "./control.js";

/**
 * @typedef {import("./control.js").Field} Field
 * @typedef {{
 *   element: () => Record<string, any>, seen: () => any, edit: (change: (element: Record<string, any>) => any) => void,
 *   families: () => {family: string, weights: number[], styles: string[]}[],
 * }} Hold What a field works on: the element, what is drawn of it, and the way to change it.
 * @typedef {(entry: any, hold: Hold) => Field[]} Maker
 */

const set = (path, value) => (element) => withPath(element, path.split("."), value);

/** All round the wrap, or a width of its own: what is seen now. @type {Maker} */
const round = (entry, hold) => [toggleField({
  label: entry.label, path: "round",
  get: () => wordOf(hold.element().width) === "wrap",
  commit: (yes) => hold.edit((element) => {
    if (yes) {
      const { turn: _turn, around: _around, at: _at, lay: _lay, ...rest } = element;
      return { ...rest, width: "wrap" };
    }
    const { join: _join, ...rest } = element;
    return { ...rest, width: "80 mm" };
  }),
})];

/** "blend 12 mm" or none. @type {Maker} */
const join = (entry, hold) => [lengthField({
  label: entry.label, path: "join", optional: true, above: 0, hint: "none",
  get: () => {
    const found = /^\s*blend\s+(.+)$/i.exec(String(hold.element().join ?? ""));
    return found ? found[1] : undefined;
  },
  commit: (value) => hold.edit(set("join", value === undefined ? undefined : `blend ${value}`)),
})];

/** @type {Maker} */
const mask = (entry, hold) => {
  const words = () => String(hold.element().mask ?? "").trim();
  const kind = () => (/^rounded\b/i.test(words()) ? "rounded" : /^circle$/i.test(words()) ? "circle" : words());
  const fields = [choiceField({
    label: entry.label, path: "mask", get: kind,
    options: () => [["", "as it is"], ["circle", "circle"], ["rounded", "rounded corners"]],
    commit: (value) => hold.edit(set("mask", value === "rounded" ? "rounded 4 mm" : value || undefined)),
  })];
  if (kind() === "rounded") {
    fields.push(lengthField({
      label: "Radius", path: "mask.radius", above: 0,
      get: () => words().replace(/^rounded\s*/i, ""),
      commit: (value) => hold.edit(set("mask", `rounded ${value}`)),
    }));
  }
  return fields;
};

const WHOLE = [0, 0, 1, 1];

/** One side's share that is cut off. @type {Maker} */
const crop = (entry, hold) => {
  const far = entry.side > 1;
  const shares = () => (Array.isArray(hold.element().crop) ? hold.element().crop : WHOLE);
  return [numberField({
    label: entry.label, path: `crop.${entry.side}`, unit: "%", scale: 100, least: 0, most: 99, step: 1,
    get: () => rounded(far ? 1 - shares()[entry.side] : shares()[entry.side]),
    commit: (share) => hold.edit((element) => {
      const next = shares().map((one, at) => (at === entry.side ? rounded(far ? 1 - share : share) : one));
      return withPath(element, ["crop"], next.every((one, at) => one === WHOLE[at]) ? undefined : next);
    }),
  })];
};

/** @type {Maker} */
const font = (entry, hold) => [choiceField({
  label: entry.label, path: "font", wide: true,
  get: () => hold.element().font ?? entry.fallback,
  options: () => hold.families().map((one) => [one.family, one.family]),
  commit: (value) => hold.edit(set("font", value === entry.fallback ? undefined : value)),
})];

const WEIGHTS = { 100: "100 thin", 200: "200", 300: "300 light", 400: "400 normal", 500: "500", 600: "600", 700: "700 bold", 800: "800", 900: "900 black" };

/** The weights to choose from: a family that names two has all between, or the nearest is taken. @param {number[]} own */
function weightsOf(own) {
  if (own.length !== 2) return own.length ? own : [400, 700];
  const hundreds = Array.from({ length: 9 }, (_, at) => (at + 1) * 100);
  return hundreds.filter((one) => one >= own[0] && one <= own[1]);
}

/** @type {Maker} */
const weight = (entry, hold) => [choiceField({
  label: entry.label, path: "weight",
  get: () => hold.element().weight ?? entry.fallback,
  options: () => {
    const family = String(hold.element().font ?? "Open Sans").toLowerCase();
    const found = hold.families().find((one) => one.family.toLowerCase() === family);
    return weightsOf(found?.weights ?? []).map((one) => [String(one), WEIGHTS[one] ?? String(one)]);
  },
  commit: (value) => hold.edit(set("weight", Number(value) === entry.fallback ? undefined : Number(value))),
})];

/** Height of a capital, or a box to fill: each begins with what is seen now. @type {Maker} */
const sizedby = (entry, hold) => [choiceField({
  label: entry.label, path: "sizedby",
  get: () => (hold.element().size === undefined ? "box" : "size"),
  options: () => [["size", "height of a capital"], ["box", "a box to fill"]],
  commit: (value) => {
    const seen = hold.seen();
    hold.edit((element) => {
      const { size: _size, width: _width, height: _height, ...rest } = element;
      if (value === "size") return { ...rest, size: `${rounded(Math.max(2, (seen?.height_mm ?? 9) * 0.7)).toFixed(1)} mm` };
      const [width, height] = [seen?.width_mm ?? 60, seen?.height_mm ?? 15].map((mm) => `${rounded(Math.ceil(mm))} mm`);
      return { ...rest, width, height };
    });
  },
})];

const OUTLINE = { width: "0.5 mm", colour: "#ffffff" };

/** A line round the letters has a width and a colour, or is none. @type {Maker} */
const outline = (entry, hold) => [lengthField({
  label: entry.label, path: entry.path, optional: true, above: 0, hint: "none",
  get: () => hold.element().outline?.width,
  commit: (width) => hold.edit(set("outline", width === undefined ? undefined : { ...OUTLINE, ...hold.element().outline, width })),
})];

/** @type {Maker} */
const outlinecolour = (entry, hold) => [colourField({
  label: entry.label, path: entry.path, optional: true, hint: "none",
  get: () => hold.element().outline?.colour,
  commit: (colour, pause_ms) => hold.edit(
    set("outline", colour === undefined ? undefined : { ...OUTLINE, ...hold.element().outline, colour }), pause_ms),
})];

/** @type {Maker} */
const along = (entry, hold) => [choiceField({
  label: entry.label, path: entry.path,
  get: () => {
    const word = wordOf(hold.element().gradient?.along ?? "up");
    return word === "up" || word === "round" ? word : "angle";
  },
  options: () => [["up", "base to rim"], ["round", "end to end"], ["angle", "at an angle"]],
  commit: (value) => hold.edit(set(entry.path, value === "up" ? undefined : value === "angle" ? 45 : value)),
})];

/** @type {Maker} */
const fillwith = (entry, hold) => [choiceField({
  label: entry.label, path: "fillwith",
  get: () => (hold.element().gradient ? "gradient" : "colour"),
  options: () => [["colour", "one colour"], ["gradient", "a change of colour"]],
  commit: (value) => hold.edit((element) => {
    const { colour, gradient, ...rest } = element;
    if (value === "colour") return { ...rest, colour: gradient?.from ?? colour ?? "#0e3a5a" };
    return { ...rest, gradient: { from: colour ?? "#0e3a5a", to: "#ffffff" } };
  }),
})];

/** @type {Record<string, Maker>} */
export const SPECIAL = { round, join, mask, crop, font, weight, sizedby, outline, outlinecolour, along, fillwith };
