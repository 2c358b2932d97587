/** Mouse, pen and fingers: what they take hold of, and one step of it per animation frame. */

import { carried, undone } from "../matrix.js";
import { SPOTS } from "../shown/grips.js";
import { sizeWords, turnWords } from "../shown/hints.js";
import { evenSize, mainWay, moved, rounded, sizedTo, turnedTo } from "./drags.js";
import { snapped, snappedSize, targetsOf } from "./snapping.js";
import { Viewing } from "./viewing.js";

/**
 * @typedef {import("../scene.js").Scene} Scene
 * @typedef {import("../stand.js").CopyView} CopyView
 * @typedef {import("../matrix.js").Point} Point
 * @typedef {{key: string, lap: number, copy: CopyView}} Hit
 * @typedef {{kind: "move" | "size" | "turn" | "pan" | "press", id: number, at: Point, now: Point, shift: boolean,
 *   alt: boolean, slop: number, begun: boolean, hit: Hit | null, under: Hit | null, grip: string,
 *   from?: Point, targets?: import("./snapping.js").Targets}} Grasp
 */

const SNAP_PX = 6;
const SLOP_PX = { mouse: 3, pen: 4, touch: 7 };
const FINE_SCALE = 25; // px a mm, from which a hand can place finer than 0.1 mm

export class Pointer {
  /** @param {Scene} scene */
  constructor(scene) {
    this.scene = scene;
    this.view = scene.parts.view;
    /** @type {Grasp | null} */
    this.grasp = null;
    this.viewing = new Viewing(scene);
    this.frame = 0;
    /** @type {DOMRect | null} */
    this.rect = null;
    /** @type {Point | null} */
    this.hover = null;
    /** The space bar is down: what is pressed pans. */
    this.panning = false;
    /** Focus is being brought by a press. */
    this.pressing = false;
    const hear = (/** @type {string} */ name, /** @type {(event: any) => void} */ act) =>
      this.view.addEventListener(name, act, { passive: false });
    hear("pointerdown", (event) => this.down(event));
    hear("pointermove", (event) => this.move(event));
    hear("pointerup", (event) => this.up(event));
    hear("pointercancel", (event) => this.cancelled(event));
    hear("pointerenter", () => this.measure());
    hear("pointerleave", () => this.leave());
    hear("lostpointercapture", (event) => this.up(event));
    hear("mousedown", (event) => event.preventDefault());
    hear("wheel", (event) => this.wheel(event));
  }

  measure() {
    this.rect = this.view.getBoundingClientRect();
  }

  /** @param {{clientX: number, clientY: number}} event @returns {Point} px of the view */
  px(event) {
    if (!this.rect) this.measure();
    const rect = /** @type {DOMRect} */ (this.rect);
    return { x: event.clientX - rect.left, y: event.clientY - rect.top };
  }

  // Pressing.

  /** @param {PointerEvent} event */
  down(event) {
    if (!this.scene.frame) return;
    this.measure();
    const at = this.px(event);
    if (event.pointerType === "touch" && this.viewing.touch(event.pointerId, at)) {
      this.giveUp();
      return;
    }
    if (this.grasp || event.button > 1) return;
    try {
      this.view.setPointerCapture(event.pointerId);
    } catch {
      // A pointer made by a script cannot be captured; it works inside the view.
    }
    this.scene.parts.drop();
    const slop = SLOP_PX[/** @type {keyof typeof SLOP_PX} */ (event.pointerType)] ?? SLOP_PX.mouse;
    const base = {
      id: event.pointerId, at, now: at, shift: event.shiftKey, alt: event.altKey, slop, begun: false, hit: null,
      under: null, grip: "",
    };
    if (event.button === 1 || this.panning) this.grasp = { ...base, kind: "pan" };
    else this.grasp = this.taken(event, base);
    this.view.toggleAttribute("data-pressed", true);
  }

  /**
   * @param {PointerEvent} event
   * @param {Omit<Grasp, "kind">} base
   * @returns {Grasp} what the press took hold of
   */
  taken(event, base) {
    const { scene } = this;
    const grip = /** @type {Element} */ (event.target).getAttribute?.("data-grip") ?? "";
    const selected = scene.selectedCopy;
    if (grip && selected) {
      const hit = { key: selected.key, lap: scene.lap, copy: selected };
      return { ...base, kind: grip === "turn" ? "turn" : "size", hit, grip };
    }
    const hits = this.hits(event);
    const free = hits.filter((hit) => !hit.copy.fixed);
    if (free.length === 0) return { ...base, kind: "press", under: hits[0] ?? null };
    // A selected copy under another can be moved; a click without a move takes the upper one.
    const mine = free.find((hit) => hit.key === scene.selected[0]);
    const hit = mine ?? free[0];
    this.choose(hit);
    return { ...base, kind: "move", hit, under: mine && mine !== free[0] ? free[0] : null };
  }

  /** @param {{clientX: number, clientY: number}} event @returns {Hit[]} the copies there, upper ones first */
  hits({ clientX, clientY }) {
    const out = [];
    for (const one of document.elementsFromPoint(clientX, clientY)) {
      if (!this.view.contains(one)) continue;
      const key = one.getAttribute("data-key");
      const copy = key ? this.scene.copies.get(key) : undefined;
      if (key && copy) out.push({ key, lap: Number(one.getAttribute("data-lap")), copy });
    }
    return out;
  }

  /** @param {Hit | null} hit */
  choose(hit) {
    const { scene } = this;
    scene.select(hit ? [hit.key] : [], hit?.lap ?? 0);
    const focus = hit ? scene.pieces.get(hit.key)?.border(0) : this.view;
    this.pressing = true;
    /** @type {SVGElement | undefined} */ (focus)?.focus({ preventScroll: true });
    this.pressing = false;
    scene.parts.host.removeAttribute("data-by-keys");
  }

  // Moving.

  /** @param {PointerEvent} event */
  move(event) {
    if (!this.scene.frame) return;
    this.hover = this.px(event);
    if (event.pointerType === "touch") this.viewing.finger(event.pointerId, this.hover);
    const { grasp } = this;
    if (grasp && grasp.id === event.pointerId) {
      grasp.now = this.hover;
      grasp.shift = event.shiftKey;
      grasp.alt = event.altKey;
    }
    this.next();
  }

  /** Keys that change how a drag goes. @param {KeyboardEvent} event */
  held(event) {
    if (!this.grasp?.begun) return;
    this.grasp.shift = event.shiftKey;
    this.grasp.alt = event.altKey;
    this.next();
  }

  next() {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.step());
  }

  /** One animation frame's work. */
  step() {
    this.frame = 0;
    this.cursor();
    if (this.viewing.pinched()) return;
    const { grasp, scene } = this;
    if (!grasp) return;
    const far = Math.hypot(grasp.now.x - grasp.at.x, grasp.now.y - grasp.at.y);
    if (!grasp.begun && far < grasp.slop) return;
    if (!grasp.begun) this.begin(grasp);
    if (grasp.kind === "press" || grasp.kind === "pan") {
      if (grasp.kind === "pan" || !scene.camera.fitted) this.viewing.pan(grasp);
    } else this.drag(grasp);
  }

  /** @param {Grasp} grasp */
  begin(grasp) {
    const { scene } = this;
    grasp.begun = true;
    const { frame, drawn } = scene;
    if (!grasp.hit || !frame || !drawn) return;
    const copy = grasp.hit.copy;
    scene.take(copy);
    grasp.from = this.ownPoint(grasp, grasp.at);
    grasp.targets = targetsOf(frame, drawn.lines, drawn.copies, copy.key);
  }

  /** @param {Grasp} grasp @param {Point} px @returns {Point} canvas mm at the lap of the copy in hand */
  ownPoint(grasp, px) {
    const mm = this.scene.camera.mm(px.x, px.y);
    const lap = grasp.hit?.lap ?? 0;
    if (lap === 0 || !this.scene.frame) return mm;
    return carried(undone(this.scene.frame.lap(lap)), mm.x, mm.y);
  }

  /** @param {Grasp} grasp */
  drag(grasp) {
    const { scene } = this;
    const { frame, held, camera } = scene;
    const { from, targets } = grasp;
    const start = held.from;
    if (!frame || !held.copy || !start || !from || !targets) return;
    const to = this.ownPoint(grasp, grasp.now);
    const grain = camera.scale > FINE_SCALE ? 0.01 : 0.1;
    if (grasp.kind === "turn") {
      const { stand } = turnedTo(frame, start, from, to, { free: grasp.alt, stepped: grasp.shift });
      scene.carry(stand, [], turnWords(stand));
    } else if (grasp.kind === "size") this.size(grasp, held.copy, to, grain);
    else this.shift(grasp, held.copy, to, grain);
  }

  /** @param {Grasp} grasp @param {CopyView} copy @param {Point} to @param {number} grain mm */
  shift(grasp, copy, to, grain) {
    const { scene } = this;
    const { frame, camera } = scene;
    const { from, targets } = grasp;
    const start = scene.held.from;
    if (!frame || !start || !from || !targets) return;
    const free = moved(copy, frame, start, from, to);
    const only = grasp.shift ? mainWay(frame, start, free) : "";
    if (only === "round") free.up = start.up;
    else free.up = rounded(free.up, grain);
    if (only === "up") free.turn = start.turn;
    else free.turn = rounded(free.turn + frame.seam, grain) - frame.seam;
    if (grasp.alt) {
      scene.carry(free);
      return;
    }
    const { stand, snaps } = snapped(copy, frame, free, targets, SNAP_PX / camera.scale, only);
    scene.carry(stand, snaps);
  }

  /** @param {Grasp} grasp @param {CopyView} copy @param {Point} to @param {number} grain mm */
  size(grasp, copy, to, grain) {
    const { scene } = this;
    const { frame, camera } = scene;
    const { from, targets } = grasp;
    const start = scene.held.from;
    const spot = SPOTS.find((one) => one.name === grasp.grip);
    if (!frame || !start || !from || !targets || !spot) return;
    const keep = spot.name.length === 2 && (!scene.sizesBoth() || grasp.shift);
    const sized = sizedTo(copy, frame, start, from, to, spot, keep);
    if (!keep) {
      if (sized.sx !== start.sx) sized.sx = Math.max(grain, rounded(copy.width_mm * sized.sx, grain)) / copy.width_mm;
      if (sized.sy !== start.sy) sized.sy = Math.max(grain, rounded(copy.height_mm * sized.sy, grain)) / copy.height_mm;
      scene.carry(sized, [], sizeWords(copy, sized));
      return;
    }
    const near = snappedSize(copy, frame, sized, targets, SNAP_PX / camera.scale);
    const stand = grasp.alt || near.snaps.length === 0
      ? evenSize(copy, sized, grain)
      : { ...sized, sx: sized.sx * near.factor, sy: sized.sy * near.factor };
    scene.carry(stand, grasp.alt ? [] : near.snaps, sizeWords(copy, stand));
  }

  cursor() {
    const { scene, hover } = this;
    if (!hover || !scene.frame) return;
    const spot = scene.spot(hover.x, hover.y);
    scene.pointed(spot);
  }

  // Letting go.

  /** @param {PointerEvent} event */
  up(event) {
    this.viewing.lift(event.pointerId);
    const { grasp } = this;
    if (!grasp || grasp.id !== event.pointerId) return;
    if (event.type === "pointerup") grasp.now = this.px(event);
    this.flush();
    this.grasp = null;
    this.view.toggleAttribute("data-pressed", false);
    if (grasp.kind === "pan") return;
    if (grasp.begun && grasp.hit) this.scene.drop();
    else if (!grasp.begun) this.click(grasp);
  }

  /** Do now what the next frame would have done. */
  flush() {
    cancelAnimationFrame(this.frame);
    this.step();
  }

  /** @param {Grasp} grasp */
  click(grasp) {
    if (grasp.kind === "move" && grasp.under) this.choose(grasp.under);
    else if (grasp.kind === "press") this.choose(this.scene.selected.length > 0 ? null : grasp.under);
  }

  /** @param {PointerEvent} event */
  cancelled(event) {
    this.viewing.lift(event.pointerId);
    if (this.grasp?.id === event.pointerId) this.giveUp();
  }

  /** Put back what is in hand. @returns {boolean} whether something was */
  giveUp() {
    const { grasp } = this;
    this.grasp = null;
    this.view.toggleAttribute("data-pressed", false);
    if (!grasp?.begun || !grasp.hit) return false;
    this.scene.putBack();
    return true;
  }

  leave() {
    if (this.grasp) return;
    this.hover = null;
    this.scene.pointed(null);
  }

  /** @param {WheelEvent} event */
  wheel(event) {
    if (!this.scene.frame) return;
    this.measure();
    if (this.viewing.wheel(event, this.px(event))) event.preventDefault();
  }
}
