/**
 * `<wrap-canvas>`: the flat wrap as seen, on which copies are selected, moved, sized and turned.
 *
 * Properties: `drawn` (what the server drew; setting it ends every `changing`), `selected` (array of one copy key or
 * none), `changing` (a drag in hand anywhere, null for none), `both` (indices of elements whose width and height are
 * each their own), `zoom` (px a mm, read only).
 * Methods: `fit()`, `zoomTo(pxPerMm, {at_deg, up_mm}?)`, `zoomBy(factor)`, `look(key)`, `putBack()`.
 * Events (bubbling, composed): `wrapselect`, `wraplive`, `wrapchange`, `wrapcancel`, `wrapcursor` (detail null when the
 * pointer has left; x_mm round from the paper's left end at that height, y_mm up), `wrapdrop`, `wrapstraight`, `wrapzoom`.
 * The light DOM is the element's own; its looks are in canvas.css.
 */

import { hearFiles } from "./hands/files.js";
import { Keys } from "./hands/keys.js";
import { Pointer } from "./hands/pointer.js";
import { layers } from "./layers.js";
import { Scene } from "./scene.js";
import { changeOf } from "./stand.js";

/**
 * @typedef {import("./scene.js").Drawn} Drawn
 * @typedef {import("./stand.js").Change} Change
 */

export class WrapCanvas extends HTMLElement {
  constructor() {
    super();
    /** @type {Scene | null} */
    this.scene = null;
    /** @type {ResizeObserver | null} */
    this.sizes = null;
    /** What was set before the element stood on a page. @type {Record<string, unknown>} */
    this.early = {};
    this.redraw = () => {
      if (this.scene) this.drawn = this.scene.drawn;
    };
  }

  connectedCallback() {
    if (!this.scene) {
      this.scene = new Scene(layers(this), (name, detail) => this.send(name, detail));
      const pointer = new Pointer(this.scene);
      new Keys(this.scene, pointer);
      hearFiles(this.scene, pointer);
      // Set before the element was known: as own properties, which would hide the real ones.
      for (const name of ["both", "drawn", "selected", "changing"]) {
        if (!Object.hasOwn(this, name)) continue;
        this.early[name] = Reflect.get(this, name);
        Reflect.deleteProperty(this, name);
      }
      for (const name of ["both", "drawn", "selected", "changing"]) {
        if (name in this.early) Reflect.set(this, name, this.early[name]);
      }
      this.early = {};
    }
    this.sizes = new ResizeObserver(() => this.scene?.resize(this.clientWidth, this.clientHeight));
    this.sizes.observe(this);
    document.addEventListener("wrapunit", this.redraw);
  }

  disconnectedCallback() {
    this.sizes?.disconnect();
    document.removeEventListener("wrapunit", this.redraw);
  }

  /** @param {string} name @param {object | null} [detail] */
  send(name, detail = null) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, detail }));
  }

  /** @returns {Drawn | null} */
  get drawn() {
    return this.scene?.drawn ?? null;
  }

  set drawn(drawn) {
    if (this.scene) this.scene.show(drawn);
    else this.early.drawn = drawn;
  }

  /** @returns {string[]} */
  get selected() {
    return [...(this.scene?.selected ?? [])];
  }

  set selected(keys) {
    const wanted = keys ?? [];
    if (!this.scene) this.early.selected = wanted;
    else if (wanted[0] !== this.scene.selected[0]) this.scene.select(wanted, 0, false);
  }

  /** @returns {Change | null} what is in hand, here or elsewhere */
  get changing() {
    const { scene } = this;
    if (!scene) return null;
    const { held } = scene;
    if (held.copy && held.stand && held.frame) return changeOf(held.copy.key, held.stand, held.frame);
    return scene.elsewhere;
  }

  set changing(change) {
    if (this.scene) this.scene.changed(change);
    else this.early.changing = change;
  }

  /** @returns {number[]} */
  get both() {
    return [...(this.scene?.both ?? [])];
  }

  set both(elements) {
    if (!this.scene) {
      this.early.both = elements;
      return;
    }
    this.scene.both = [...elements];
    this.scene.grips.show(this.scene.selectedCopy, this.scene.frame, this.scene.sizesBoth());
  }

  /** @returns {number} px a mm */
  get zoom() {
    return this.scene?.camera.scale ?? 0;
  }

  /** @returns {boolean} whether the whole wrap is shown */
  get fitted() {
    return this.scene?.camera.fitted ?? true;
  }

  fit() {
    this.scene?.fit();
  }

  /** @param {number} pxPerMm @param {{at_deg: number, up_mm: number}} [place] put in the middle */
  zoomTo(pxPerMm, place) {
    const { scene } = this;
    if (!scene?.frame) return;
    scene.camera.zoom(pxPerMm);
    if (place) scene.camera.look(scene.frame.place(place.at_deg, place.up_mm));
    scene.look();
  }

  /** @param {number} factor about the selection, else the middle of the view */
  zoomBy(factor) {
    if (this.scene?.frame) this.scene.zoomBy(factor);
  }

  /** @param {string} key put that copy in the middle of the view */
  look(key) {
    const { scene } = this;
    const copy = scene?.copies.get(key);
    if (!scene?.frame || !copy) return;
    scene.camera.look(scene.frame.place(copy.at_deg, copy.up_mm));
    scene.look();
  }

  /** Show every copy as it was last drawn: what was dropped could not be kept. */
  putBack() {
    this.scene?.forget();
  }
}

customElements.define("wrap-canvas", WrapCanvas);
