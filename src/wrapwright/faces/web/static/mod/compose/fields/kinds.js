// The figures and choices that each kind of element has, in groups, in the order they are shown.

import { kindOf } from "../document/elements.js";
import { mmOf, wordOf } from "../document/measures.js";

/**
 * @typedef {{
 *   path: string, label: string, type: "length"|"number"|"choice"|"words"|"toggle"|"colour"|"font"|"weight",
 *   options?: [string, string][], fallback?: any, wide?: boolean, [key: string]: any,
 * }} Entry `fallback` is what the document takes when the key is left out; choosing it takes the key out.
 * @typedef {{title: string, entries: Entry[], closed?: boolean}} Group
 */

const length = (path, label, more = {}) => ({ path, label, type: "length", ...more });
const number = (path, label, more = {}) => ({ path, label, type: "number", ...more });
const choice = (path, label, options, more = {}) => ({ path, label, type: "choice", options, fallback: options[0][0], ...more });

const WIDTH = length("width", "Width", { above: 0, optional: true });
const HEIGHT = length("height", "Height", { above: 0, optional: true });
const TURN = number("turn", "Turn", { unit: "°", fallback: 0, least: -3600, most: 3600 });
const OPACITY = number("opacity", "Opacity", { unit: "%", scale: 100, fallback: 1, least: 0, most: 100, step: 5 });
const LAY = choice("lay", "On a taper", [["auto", "as suits"], ["true", "keep shape"], ["level", "follow rim"]]);
const PERCENT = { unit: "%", fallback: 0, least: -100, most: 100, step: 5 };

/** @param {Record<string, any>} element @returns {Group[]} */
function pictureGroups(element) {
  const round = wordOf(element.width) === "wrap";
  const both = mmOf(element.width) !== null && mmOf(element.height) !== null;
  const size = round
    ? [HEIGHT, { path: "join", label: "Blend the ends over", type: "join" }, choiceOfFit(element)]
    : [WIDTH, HEIGHT, both && choiceOfFit(element), TURN, LAY];
  return [
    { title: "Size", entries: [...size.filter(Boolean), { path: "width", label: "All round the wrap", type: "round" }] },
    {
      title: "Picture",
      entries: [
        { path: "mask", label: "Shape", type: "mask" },
        OPACITY,
        { path: "flip", label: "Mirrored left to right on the piece", type: "toggle", fallback: false, wide: true },
      ],
    },
    {
      title: "Colours",
      closed: true,
      entries: [
        number("adjust.lightness", "Lightness", PERCENT),
        number("adjust.contrast", "Contrast", PERCENT),
        number("adjust.chroma", "Colourfulness", PERCENT),
      ],
    },
    {
      title: "Cut off",
      closed: true,
      entries: ["left", "top", "right", "bottom"].map((side, at) => ({ path: "crop", label: side[0].toUpperCase() + side.slice(1), type: "crop", side: at })),
    },
  ];
}

function choiceOfFit(element) {
  if (mmOf(element.height) === null) return null;
  return choice("fit", "In its box", [["inside", "whole, inside"], ["cover", "cover, cut off"], ["stretch", "stretched"]]);
}

/** @param {Record<string, any>} element @returns {Group[]} */
function textGroups(element) {
  const boxed = element.size === undefined;
  return [
    { title: "Words", entries: [{ path: "text", label: "Text", type: "words", rows: 3, wide: true }] },
    {
      title: "Letters",
      entries: [
        { path: "font", label: "Font", type: "font", fallback: "Open Sans", wide: true },
        { path: "weight", label: "Weight", type: "weight", fallback: 400 },
        choice("style", "Slant", [["normal", "upright"], ["italic", "italic"]]),
        { path: "size", label: "Sized by", type: "sizedby" },
        ...(boxed ? [WIDTH, HEIGHT] : [length("size", "Height of a capital", { above: 0 })]),
        { path: "colour", label: "Colour", type: "colour", fallback: "#000000" },
      ],
    },
    {
      title: "Lines",
      entries: [
        choice("align", "Lines sit", [["middle", "middle"], ["start", "at the start"], ["end", "at the end"]]),
        number("leading", "Line distance", { unit: "em", fallback: 1.2, above: 0, most: 10, step: 0.05 }),
        length("spacing", "Between letters", { fallback: 0 }),
        length("arc", "Arc radius", { fallback: 0, hint: "straight" }),
        TURN,
        LAY,
      ],
    },
    {
      title: "Line round the letters",
      closed: element.outline === undefined,
      entries: [{ path: "outline.width", label: "Width", type: "outline" }, { path: "outline.colour", label: "Colour", type: "outlinecolour" }],
    },
    {
      title: "Writing",
      closed: true,
      entries: [
        choice("direction", "Direction", [["auto", "as written"], ["ltr", "left to right"], ["rtl", "right to left"]]),
        { path: "language", label: "Language", type: "words", fallback: "en" },
        OPACITY,
      ],
    },
  ];
}

/** @param {Record<string, any>} element @returns {Group[]} */
function fillGroups(element) {
  const along = wordOf(element.gradient?.along ?? "up");
  const change = [
    { path: "gradient.from", label: "From", type: "colour" },
    { path: "gradient.to", label: "To", type: "colour" },
    { path: "gradient.along", label: "Along", type: "along" },
    ...(along === "up" || along === "round" ? [] : [number("gradient.along", "Direction", { unit: "°", from_words: true })]),
  ];
  const one = [{ path: "colour", label: "Colour", type: "colour" }];
  return [{ title: "Fill", entries: [{ path: "gradient", label: "Fill with", type: "fillwith" }, ...(element.gradient ? change : one), OPACITY] }];
}

const TILE = [
  {
    title: "Pattern",
    entries: [
      length("width", "Width of one repeat", { above: 0 }),
      length("gap", "Space between", { least: 0, fallback: 0 }),
      number("shift", "Each row moved by", { unit: "%", scale: 100, fallback: 0.5, least: 0, most: 100, step: 5 }),
      { ...TURN, label: "Turn of each" },
      OPACITY,
    ],
  },
];

const LEVELS = [["M", "M, 15 %"], ["L", "L, 7 %"], ["Q", "Q, 25 %"], ["H", "H, 30 %"]];
const CODE = [
  {
    title: "Code",
    entries: [
      { path: "text", label: "What it says", type: "words", rows: 2, wide: true },
      length("width", "Width with its quiet zone", { above: 0 }),
      choice("level", "Damage it bears", LEVELS),
      { path: "colour", label: "Colour", type: "colour", fallback: "#000000" },
      TURN,
      OPACITY,
    ],
  },
];

/**
 * The groups of fields of an element; which there are depends on what it holds.
 * @param {Record<string, any>} element
 * @returns {Group[]}
 */
export function groupsOf(element) {
  const kind = kindOf(element);
  if (kind === "picture") return pictureGroups(element);
  if (kind === "text") return textGroups(element);
  if (kind === "fill") return fillGroups(element);
  if (kind === "tile") return TILE;
  return kind === "code" ? CODE : [];
}
