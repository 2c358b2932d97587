// The sheets as they lie: drawn in millimetres, alike sheets once with their number.

import { api } from "../app/api.js";
import { format, inUnit } from "../app/lengths.js";
import { byId, made } from "../sheet/dom.js";

const SVG = "http://www.w3.org/2000/svg";
const TALL_PX = 340;
const MOST = 60; // drawings; the cut list and the PDF have them all

/** @param {string} kind @param {Record<string, string | number>} [values] */
export function drawn(kind, values = {}) {
  const one = document.createElementNS(SVG, kind);
  for (const [key, value] of Object.entries(values)) one.setAttribute(key, String(value));
  return one;
}

export class Board {
  /** @param {any} state */
  constructor(state) {
    this.state = state;
    /** @type {{sheets: number[], svg: SVGSVGElement}[]} */
    this.groups = [];
    document.addEventListener("wrapunit", () => { if (state.view) this.show(state.view); });
  }

  /** @param {any} view */
  show(view) {
    const board = byId("board");
    const focus = /** @type {HTMLElement | null} */ (document.activeElement)?.dataset?.key ?? "";
    if (!view) {
      this.groups = [];
      board.replaceChildren(made("p", "Nothing lies on a sheet yet.", "empty"));
      return;
    }
    this.shapes(view);
    const alike = grouped(view.sheets);
    const scale = TALL_PX / Math.max(1, ...view.sheets.map((/** @type {any} */ one) => Math.min(one.height_mm, one.width_mm * 1.6)));
    this.groups = alike.slice(0, MOST).map((sheets) => ({ sheets, svg: this.svg(view, sheets[0], scale) }));
    const figures = this.groups.map(({ sheets, svg }) => this.figure(view, sheets, svg));
    if (alike.length > MOST) figures.push(made("p", `${alike.length - MOST} further kinds of sheet are not drawn here.`, "note"));
    board.replaceChildren(...figures);
    if (focus) /** @type {HTMLElement | null} */ (board.querySelector(`[data-key="${focus}"]`))?.focus({ preventScroll: true });
  }

  /** Each design's shape once; the sheets use it. @param {any} view */
  shapes(view) {
    byId("shapes").replaceChildren(...view.pieces.flatMap((/** @type {any} */ piece, /** @type {number} */ at) => {
      if (!piece.outline) return [];
      const clip = drawn("clipPath", { id: `trim-${at}` });
      clip.append(drawn("path", { d: piece.outline }));
      const group = drawn("g", { id: `shape-${at}` });
      const [x, y, width, height] = piece.art;
      const picture = drawn("image", { x, y, width, height, preserveAspectRatio: "none", "clip-path": `url(#trim-${at})` });
      picture.setAttribute("href", api.proofUrl(piece.design, piece.revision, 384, "flat"));
      group.append(picture, drawn("path", { d: piece.outline, class: "t-trim" }));
      return [clip, group];
    }));
  }

  /** @param {any} view @param {number[]} sheets @param {SVGSVGElement} svg */
  figure(view, sheets, svg) {
    const sheet = view.sheets[sheets[0]];
    const figure = made("figure", "", "t-sheet");
    const many = sheets.length === 1 ? `Sheet ${sheets[0] + 1}` : `${sheets.length} sheets alike: ${runs(sheets.map((one) => one + 1))}`;
    const caption = made("figcaption");
    const count = sheet.copies.length === 1 ? "1 piece" : `${sheet.copies.length} pieces`;
    caption.append(made("b", many), made("span", `${sheet.paper}, ${count}`, "note"));
    if (sheet.rest_words) caption.append(made("span", inUnit(sheet.rest_words), "note"));
    figure.append(svg, caption);
    return figure;
  }

  /** @param {any} view @param {number} number @param {number} scale px per mm */
  svg(view, number, scale) {
    const sheet = view.sheets[number];
    const svg = /** @type {SVGSVGElement} */ (drawn("svg", {
      viewBox: `0 0 ${sheet.width_mm} ${sheet.height_mm}`, width: Math.round(sheet.width_mm * scale), height: Math.round(sheet.height_mm * scale),
      class: "t-paper", role: "group", "aria-label": `Sheet ${number + 1}, ${sheet.paper}, ${format(sheet.width_mm)} by ${format(sheet.height_mm)}`,
    }));
    svg.dataset.sheet = String(number);
    const [x, y, width, height] = sheet.printable;
    svg.append(drawn("rect", { x, y, width, height, class: "t-printable" }));
    if (sheet.rest) {
      const [left, top, wide, high] = sheet.rest;
      svg.append(drawn("rect", { x: left, y: top, width: wide, height: high, class: "t-rest" }));
    }
    svg.append(...sheet.copies.map((/** @type {any} */ copy) => this.copy(view, copy, number)));
    svg.append(drawn("g", { class: "t-strokes" }));
    return svg;
  }

  /** @param {any} view @param {any} copy @param {number} sheet */
  copy(view, copy, sheet) {
    const piece = view.pieces[copy.piece];
    const group = /** @type {SVGGElement} */ (drawn("g", { class: copy.pinned ? "t-copy t-pinned" : "t-copy", tabindex: 0, role: "button" }));
    const [x, y, width, height] = copy.box;
    const held = copy.pinned ? ", held by hand" : "";
    group.setAttribute("aria-label", `${piece.title}, copy ${copy.copy + 1}, ${format(x)} from the left and ${format(y)} from the top, turned ${copy.turn_deg} degrees${held}`);
    group.dataset.key = `${copy.piece}-${copy.copy}`;
    group.dataset.sheet = String(sheet);
    const use = drawn("use", { href: `#shape-${copy.piece}`, transform: `matrix(${copy.matrix.join(" ")})` });
    const [left, top, wide, high] = copy.clear;
    group.append(drawn("rect", { x: left, y: top, width: wide, height: high, class: "t-clear" }), use);
    group.append(drawn("rect", { x, y, width, height, class: "t-hit" }));
    if (copy.pinned) group.append(drawn("circle", { cx: x + 4, cy: y + 4, r: 2.2, class: "t-pin" }));
    return group;
  }
}

/** Indices of sheets, those laid alike together. @param {any[]} sheets */
function grouped(sheets) {
  /** @type {Map<string, number[]>} */
  const found = new Map();
  sheets.forEach((sheet, at) => {
    // What was put by hand is its own sheet: it can be taken up again.
    const held = sheet.copies.some((/** @type {any} */ one) => one.pinned);
    const places = sheet.copies.map((/** @type {any} */ one) => [one.piece, ...one.box.map((/** @type {number} */ v) => v.toFixed(2)), one.turn_deg].join()).sort();
    const key = held ? `held ${at}` : `${sheet.paper} ${sheet.width_mm} ${sheet.height_mm} ${places.join(";")}`;
    found.set(key, [...(found.get(key) ?? []), at]);
  });
  return [...found.values()];
}

/** "1–3, 5" @param {number[]} numbers */
function runs(numbers) {
  /** @type {[number, number][]} */
  const made = [];
  for (const one of numbers) {
    const last = made[made.length - 1];
    if (last && one === last[1] + 1) last[1] = one;
    else made.push([one, one]);
  }
  return made.map(([a, b]) => (a === b ? `${a}` : `${a}–${b}`)).join(", ");
}
