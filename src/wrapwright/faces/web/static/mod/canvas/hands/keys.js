/** The keyboard: a burst of keys is one change, told when the keys have rested. */

import { sizeWords, turnWords } from "../shown/hints.js";

/**
 * @typedef {import("../scene.js").Scene} Scene
 * @typedef {import("./pointer.js").Pointer} Pointer
 * @typedef {import("../stand.js").Stand} Stand
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../frame.js").Frame} Frame
 */

const REST_MS = 250;
const ZOOM = 1.25;
const PAN_PX = 40;
/** @type {Record<string, [number, number]>} right, up */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** @param {KeyboardEvent} event @returns {number} mm an arrow moves */
function step(event) {
  if (event.shiftKey) return 5;
  return event.altKey ? 0.1 : 0.5;
}

export class Keys {
  /** @param {Scene} scene @param {Pointer} pointer */
  constructor(scene, pointer) {
    this.scene = scene;
    this.pointer = pointer;
    this.rest = 0;
    this.frame = 0;
    this.words = "";
    scene.parts.drop = () => this.drop();
    const { host, view } = scene.parts;
    view.addEventListener("keydown", (event) => this.down(/** @type {KeyboardEvent} */ (event)));
    view.addEventListener("keyup", (event) => this.up(/** @type {KeyboardEvent} */ (event)));
    // On the element itself: browsers let the Tab key stop at an SVG group that hears of focus.
    host.addEventListener("focusin", (event) => this.focused(/** @type {Element} */ (event.target)));
    host.addEventListener("focusout", () => this.left());
  }

  /** @param {Element} target the keyboard came to a copy: it is the one keys move */
  focused(target) {
    // Focus that no press brought came by keys: its copy is framed more heavily.
    this.scene.parts.host.toggleAttribute("data-by-keys", !this.pointer.pressing);
    const key = target.getAttribute("data-key");
    if (key && this.scene.selected[0] !== key) this.scene.select([key]);
  }

  left() {
    this.drop();
    this.pointer.panning = false;
    this.scene.parts.view.toggleAttribute("data-panning", false);
  }

  /** @param {KeyboardEvent} event */
  down(event) {
    if (!this.scene.frame || event.isComposing) return;
    this.pointer.held(event);
    if (event.ctrlKey || event.metaKey) return;
    if (this.used(event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }

  /** @param {KeyboardEvent} event */
  up(event) {
    this.pointer.held(event);
    if (event.key !== " ") return;
    this.pointer.panning = false;
    this.scene.parts.view.toggleAttribute("data-panning", false);
  }

  /** @param {KeyboardEvent} event @returns {boolean} whether it meant something here */
  used(event) {
    if (event.key === "Escape") return this.escape();
    if (event.key === " " || event.key === "Enter") return this.pressed(event);
    if (this.pointer.grasp?.begun) return false;
    return this.viewed(event) || this.shifted(event) || this.sized(event) || this.walked(event);
  }

  /** @returns {boolean} */
  escape() {
    const { scene, pointer } = this;
    if (pointer.giveUp()) return true;
    if (this.rest !== 0) {
      this.stop();
      scene.putBack();
      return true;
    }
    if (scene.selected.length === 0) return false;
    scene.select([]);
    /** @type {SVGElement} */ (scene.parts.view).focus({ preventScroll: true });
    return true;
  }

  /** @param {KeyboardEvent} event @returns {boolean} */
  pressed(event) {
    const target = /** @type {Element} */ (event.target);
    const key = target.getAttribute("data-key");
    if (key && this.scene.selected[0] !== key) this.scene.select([key]);
    if (event.key !== " ") return key !== null;
    this.pointer.panning = true;
    this.scene.parts.view.toggleAttribute("data-panning", true);
    return true;
  }

  /** @param {KeyboardEvent} event @returns {boolean} */
  viewed(event) {
    const { scene } = this;
    const key = event.key.toLowerCase();
    if (key === "0") scene.fit();
    else if (key === "z") scene.zoomBy(ZOOM);
    else if (key === "x") scene.zoomBy(1 / ZOOM);
    else if (key === "t" && scene.tapers()) scene.send("wrapstraight");
    else return false;
    return true;
  }

  /** @param {KeyboardEvent} event @returns {boolean} arrows: the copy, or without one the view */
  shifted(event) {
    const way = ARROWS[event.key];
    if (!way) return false;
    const { scene } = this;
    if (!scene.selectedCopy) {
      scene.camera.pan(-way[0] * PAN_PX, way[1] * PAN_PX);
      scene.look();
      return true;
    }
    const mm = step(event);
    return this.change((stand, frame) => ({
      ...stand,
      turn: stand.turn + (360 * mm * way[0]) / frame.turnLength(stand.up),
      up: Number((stand.up + mm * way[1]).toFixed(6)),
    }), () => "");
  }

  /** @param {KeyboardEvent} event @returns {boolean} turning and sizing */
  sized(event) {
    const turn = { "[": -1, "{": -1, "]": 1, "}": 1 }[event.key];
    if (turn !== undefined) {
      const degrees = turn * (event.shiftKey ? 15 : 1);
      return this.change((stand) => ({ ...stand, turnDeg: Number((stand.turnDeg + degrees).toFixed(6)) }),
        (stand) => turnWords(stand));
    }
    const grow = { "+": 1, "=": 1, "-": -1, _: -1 }[event.key];
    if (grow === undefined) return false;
    const factor = (event.shiftKey ? 1.1 : 1.01) ** grow;
    return this.change((stand) => ({ ...stand, sx: stand.sx * factor, sy: stand.sy * factor }),
      (stand, copy) => sizeWords(copy, stand));
  }

  /** @param {KeyboardEvent} event @returns {boolean} to the next side line */
  walked(event) {
    if (event.key !== "Home" && event.key !== "End") return false;
    const way = event.key === "End" ? 1 : -1;
    const sides = this.scene.sides();
    return this.change((stand, frame) => {
      // The nearest side further on; one that it stands on already is not further.
      const far = sides.map((at) => {
        const gap = (((way * (frame.turnOf(at) - stand.turn)) % 360) + 360) % 360;
        return gap < 1e-6 || gap > 360 - 1e-6 ? 360 : gap;
      });
      return { ...stand, turn: stand.turn + way * Math.min(...far) };
    }, () => "");
  }

  /**
   * @param {(stand: Stand, frame: Frame) => Stand} how
   * @param {(stand: Stand, copy: CopyView) => string} words figures beside it, "" for its place
   * @returns {boolean} whether a copy is there to be changed
   */
  change(how, words) {
    const { scene } = this;
    const copy = scene.selectedCopy;
    if (!copy || copy.fixed || !scene.frame) return false;
    if (!scene.held.active) scene.take(copy);
    const { held } = scene;
    if (!held.stand || !held.copy) return false;
    held.stand = how(held.stand, scene.frame);
    this.words = words(held.stand, held.copy);
    clearTimeout(this.rest);
    this.rest = window.setTimeout(() => this.drop(), REST_MS);
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.show());
    return true;
  }

  show() {
    this.frame = 0;
    const { held } = this.scene;
    if (held.stand) this.scene.carry(held.stand, [], this.words);
  }

  stop() {
    clearTimeout(this.rest);
    cancelAnimationFrame(this.frame);
    this.rest = 0;
    this.frame = 0;
  }

  /** The keys rest: what they did is one change. */
  drop() {
    if (this.rest === 0) return;
    const late = this.frame !== 0;
    this.stop();
    if (late) this.show();
    this.scene.drop();
  }
}
