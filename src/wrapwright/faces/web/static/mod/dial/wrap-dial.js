/**
 * `<wrap-dial>`: the blank seen from above as an instrument; every copy an arc that can be moved round it.
 *
 * Properties `drawn`, `selected`, `changing` and `facing` (degrees, also as an attribute) as the other views have them.
 * Events `wrapselect {keys}`, `wraplive`, `wrapchange`, `wrapcancel`, and `wrapfacing {deg}` when the mark of the eye is
 * moved. Copies that overlap lie on rings one inside the other; what goes all round is a thin whole ring.
 */

import { frameOf, shortTurn, wholeTurn } from "../canvas/frame.js";
import { degrees, oppositeOf, shortened, shownAngle, sideWords } from "../view/angles.js";
import { centreOf, spanOf } from "../view/copies.js";
import { Held } from "../view/held.js";
import { made } from "../view/overlay.js";
import { drawEye, offWords, overParts, placeName, placeOpposite, underParts } from "./face.js";
import { Hand } from "./hand.js";
import { arc, levelRing, levelsOf, roundRing, sector, sizesOf, spoke } from "./rings.js";
import { PARTS, STYLE } from "./style.js";

const LEAST_PX = 240;
const MOST_PX = 400;
const LETTER_PX = 6;

export class WrapDial extends HTMLElement {
  static observedAttributes = ["facing"];

  constructor() {
    super();
    const root = this.attachShadow({ mode: "open" });
    const style = document.createElement("style");
    style.textContent = STYLE;
    root.append(style, document.createRange().createContextualFragment(PARTS));
    this.figure = root.querySelector("svg");
    this.eye = root.querySelector(".eye");
    this.readout = root.querySelector("dl");
    this._drawn = null;
    this.told = false; // whether anything was drawn yet: nothing is said while it is still on its way
    this._selected = [];
    this._facing = 0;
    this.frameAsked = 0;
    this.sizes = null;
    this.levels = new Map();
    this.held = new Held(() => this.ask());
  }

  connectedCallback() {
    this.ending = new AbortController();
    const { signal } = this.ending;
    this.hand = new Hand(this, signal);
    this.watch = new ResizeObserver(() => this.measure());
    this.wide = -1;
    this.watch.observe(this);
    this.ownerDocument.addEventListener("wrapcancel", () => this.held.release(), { signal });
    this.ask();
  }

  disconnectedCallback() {
    this.dispose();
  }

  /** Free all listeners; putting the element into a page again starts it anew. */
  dispose() {
    this.hand?.finish();
    this.ending?.abort();
    this.watch?.disconnect();
    cancelAnimationFrame(this.frameAsked);
    this.frameAsked = 0;
    this.held.release();
  }

  attributeChangedCallback(_name, _before, value) {
    this.facing = Number(value);
  }

  get drawn() {
    return this._drawn;
  }

  set drawn(value) {
    this.told = Boolean(value);
    this._drawn = value?.solid && value.frame ? value : null;
    this.frame = this._drawn ? frameOf(this._drawn.frame) : null;
    this.levels = this._drawn ? this.placed() : new Map();
    this.held.answered();
    this.ask();
  }

  get selected() {
    return this._selected;
  }

  set selected(keys) {
    this._selected = [...(keys ?? [])];
    this.ask();
  }

  get changing() {
    return this.held.now;
  }

  set changing(value) {
    this.held.set(value ?? null);
  }

  get facing() {
    return this._facing;
  }

  set facing(deg) {
    if (Number.isFinite(Number(deg))) {
      this._facing = wholeTurn(Number(deg));
      this.ask();
    }
  }

  /** The eye was moved by hand. @param {number} deg */
  look(deg) {
    this.facing = deg;
    this.tell("wrapfacing", { deg: this._facing });
  }

  /** @param {string[]} keys */
  choose(keys) {
    if (keys.join() !== this._selected.join()) {
      this.selected = keys;
      this.tell("wrapselect", { keys });
    }
  }

  /** @param {string} key */
  copy(key) {
    return this._drawn?.copies.find((copy) => copy.key === key) ?? null;
  }

  /** @param {string} name @param {object} detail */
  tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  /** Levels by the places of the design, so that no ring jumps during a drag; the topmost copy outermost. */
  placed() {
    const spans = this._drawn.copies.filter((copy) => !copy.fixed).reverse()
      .map((copy) => ({ key: copy.key, at: copy.at_deg, ...spanOf(this.frame, copy, null) }));
    return levelsOf(spans);
  }

  ask() {
    if (!this.frameAsked && this.isConnected) {
      this.frameAsked = requestAnimationFrame(() => this.show());
    }
  }

  measure() {
    this.wide = -1;
    this.ask();
  }

  show() {
    this.frameAsked = 0;
    const root = this.shadowRoot;
    // Kept until it changes: reading it lays out the whole page anew in every frame of a drag.
    this.wide = this.wide < 0 ? this.clientWidth : this.wide;
    root.querySelector(".empty").hidden = Boolean(this._drawn) || !this.told;
    this.figure.style.display = this._drawn ? "" : "none";
    this.readout.hidden = !this._drawn;
    if (!this._drawn || !this.wide) {
      return;
    }
    const size = Math.round(Math.min(MOST_PX, Math.max(LEAST_PX, this.wide)));
    const whole = this._drawn.copies.filter((copy) => copy.fixed);
    const loose = this._drawn.copies.filter((copy) => !copy.fixed);
    this.sizes = sizesOf(size, whole.length);
    for (const [name, value] of [["width", size], ["height", size], ["viewBox", `0 0 ${size} ${size}`]]) {
      this.figure.setAttribute(name, String(value));
    }
    const chosen = this.chosen();
    root.querySelector(".under").replaceChildren(
      ...underParts(this.sizes, this._drawn, this.frame, {
        centre: chosen?.at ?? this._facing, chosen: Boolean(chosen), facing: this._facing,
      }));
    const opposite = chosen ? oppositeOf(this.asTheyLie(), { ...chosen.copy, at_deg: chosen.at }) : null;
    this.keyed(root.querySelector(".rounds"), whole, (group, copy, i) => this.drawRound(group, copy, i));
    this.keyed(root.querySelector(".arcs"), loose, (group, copy) => this.drawArc(group, copy, opposite));
    this.drawOver(chosen);
    drawEye(this.sizes, this.eye, this._facing);
    this.eye.setAttribute("aria-valuenow", String(shownAngle(this._facing)));
    this.eye.setAttribute("aria-valuetext", `${shownAngle(this._facing)} degrees, ${sideWords(this._facing)}`);
    this.read(chosen, opposite);
  }

  /** @returns {{copy: any, at: number, width: number} | null} the one selected, as it lies now */
  chosen() {
    const copy = this._selected.length === 1 ? this.copy(this._selected[0]) : null;
    if (!copy || copy.fixed) {
      return null;
    }
    const { from, to } = spanOf(this.frame, copy, this.held.now);
    return { copy, at: centreOf(copy, this.held.now).at, width: to - from };
  }

  asTheyLie() {
    return this._drawn.copies.map((copy) => ({ ...copy, at_deg: centreOf(copy, this.held.now).at }));
  }

  /** Give each copy its own group and keep it, so that focus and a drag survive new figures. */
  keyed(parent, copies, draw) {
    const left = new Map([...parent.children].map((group) => [group.dataset.key, group]));
    copies.forEach((copy, i) => {
      let group = left.get(copy.key);
      left.delete(copy.key);
      if (!group) {
        group = made("g", { tabindex: "0", "data-key": copy.key });
        parent.append(group);
      }
      draw(group, copy, i);
    });
    left.forEach((group) => group.remove());
  }

  drawRound(group, copy, i) {
    const d = arc(this.sizes, roundRing(this.sizes, i), 0, 360);
    const chosen = this._selected.includes(copy.key);
    said(group, { class: `all-round${chosen ? " chosen" : ""}`, role: "button", "aria-label": copy.spoken,
      "aria-pressed": String(chosen) });
    part(group, "path", "hit", { d, "stroke-width": 5, style: "fill:none" });
    part(group, "path", "body", { d });
    part(group, "path", "focus", { d: arc(this.sizes, roundRing(this.sizes, i) - 2.5, 0, 360) });
    title(group, copy.name);
  }

  drawArc(group, copy, opposite) {
    const { sizes } = this;
    const { at } = centreOf(copy, this.held.now);
    const { from, to } = spanOf(this.frame, copy, this.held.now);
    const count = Math.max(1, ...[...this.levels.values()].map((level) => level + 1));
    const { near, far } = levelRing(sizes, this.levels.get(copy.key) ?? 0, count);
    const middle = (near + far) / 2;
    const least = (24 / middle) * (90 / Math.PI);
    const chosen = this._selected.includes(copy.key);
    said(group, {
      class: `arc${chosen ? " chosen" : ""}${opposite?.copy.key === copy.key ? " opposite" : ""}`,
      role: "slider", "aria-label": copy.spoken, "aria-valuemin": "0", "aria-valuemax": "360",
      "aria-valuenow": String(shownAngle(at)), "aria-valuetext": `${shownAngle(at)} degrees, ${sideWords(at)}`,
    });
    const d = sector(sizes, near, far, at + from, at + to);
    part(group, "path", "hit", { d: sector(sizes, near - 1.5, far + 1.5, at + Math.min(from, -least), at + Math.max(to, least)) });
    part(group, "path", "body", { d });
    part(group, "path", "edge", { d: spoke(sizes, at, far - 4, far) });
    part(group, "path", "focus", { d: sector(sizes, near - 2, far + 2, at + from - 1, at + to + 1) });
    this.name(group, copy, { at, from, to, near, far });
    title(group, `${copy.name}, ${degrees(at)}`);
  }

  /** The copy's name along its arc, where there is room. */
  name(group, copy, { at, from, to, near, far }) {
    const middle = (near + far) / 2;
    const room = (to - from) * (Math.PI / 180) * middle;
    const letters = Math.floor((room - 8) / LETTER_PX);
    const fits = far - near >= 10.5 && letters >= Math.min(5, copy.name.length);
    let text = group.querySelector("text");
    if (!fits) {
      text?.remove();
      return;
    }
    const below = Math.cos((at * Math.PI) / 180) >= 0;
    const line = part(group, "path", "way", {
      id: `way-${copy.key.replace(".", "-")}`, fill: "none",
      d: below ? arc(this.sizes, middle + 4, at + from, at + to) : arc(this.sizes, middle - 4, at + to, at + from),
    });
    if (!text) {
      text = made("text", { style: "dominant-baseline:auto" });
      text.append(made("textPath", { href: `#${line.id}`, startOffset: "50%" }));
      group.append(text);
    }
    text.firstChild.textContent = shortened(copy.name, letters);
  }

  drawOver(chosen) {
    const figure = chosen
      ? { label: "Selected", figure: degrees(chosen.at) }
      : { label: "Facing", figure: degrees(this._facing) };
    const line = this.hand.snapped && chosen ? chosen.at : null;
    this.shadowRoot.querySelector(".over").replaceChildren(...overParts(this.sizes, line, figure));
  }

  /** The figures in words under the dial: always three rows, so that nothing below moves. */
  read(chosen, opposite) {
    const rows = chosen ? this.chosenRows(chosen, opposite) : this.facingRows();
    const text = JSON.stringify(rows);
    if (text !== this.rowsSaid) {
      this.rowsSaid = text;
      this.readout.replaceChildren(...rows.flatMap(([name, value]) => {
        const [term, says] = [document.createElement("dt"), document.createElement("dd")];
        term.textContent = name;
        says.textContent = value;
        term.title = name;
        says.title = value;
        return [term, says];
      }));
    }
  }

  chosenRows({ copy, at, width }, opposite) {
    const { read_deg: readable } = this._drawn.solid;
    return [
      [copy.name, `${degrees(at)}, ${sideWords(at)}`],
      ["Opposite", opposite
        ? `${opposite.copy.name}, ${placeName(opposite.copy.at_deg)}, ${offWords(opposite.off)}`
        : placeOpposite(at, this._drawn)],
      ["One view", width <= readable
        ? `${width.toFixed(0)}° of ${readable.toFixed(0)}° readable`
        : `${width.toFixed(0)}°, ${(width - readable).toFixed(0)}° too wide`],
    ];
  }

  facingRows() {
    const { read_deg: readable } = this._drawn.solid;
    const near = this.asTheyLie().filter((copy) => !copy.fixed
      && Math.abs(shortTurn(copy.at_deg - this._facing)) <= readable / 2);
    return [
      ["Facing", `${degrees(this._facing)}, ${sideWords(this._facing)}`],
      ["In view", [...new Set(near.map((copy) => copy.name))].join(", ") || "nothing on this side"],
      ["One view", `${readable.toFixed(0)}° round, ${(readable / 2).toFixed(0)}° each way`],
    ];
  }
}

/** @param {Element} element @param {Record<string, string>} words */
function said(element, words) {
  for (const [word, value] of Object.entries(words)) {
    if (element.getAttribute(word) !== value) {
      element.setAttribute(word, value);
    }
  }
}

/** @returns {SVGElement} the part of that class, made when it is not there */
function part(group, tag, name, words) {
  let found = group.querySelector(`:scope > .${name}`);
  if (!found) {
    found = made(tag, { class: name });
    group.append(found);
  }
  said(found, words);
  return found;
}

function title(group, words) {
  const found = group.querySelector(":scope > title") ?? group.appendChild(made("title"));
  if (found.textContent !== words) {
    found.textContent = words;
  }
}

if (!customElements.get("wrap-dial")) {
  customElements.define("wrap-dial", WrapDial);
}
