/**
 * The hand on the turning view: turning the piece, and moving a copy on it.
 */

import { wholeTurn } from "../canvas/frame.js";
import { changesOf, standOf } from "../canvas/stand.js";
import { HIGHEST, LOWEST, tubeHit, wallHit } from "./camera.js";
import { copyAt } from "./copies.js";
import { drawnTo, linesFor } from "./angles.js";

const SLOP = { mouse: 3, pen: 4, touch: 8 };
const SNAP_PX = 6;
const TILT_PER_PX = 0.35;

/**
 * @typedef {import("./turning-view.js").TurningView} TurningView
 * @typedef {{x: number, y: number, alt: boolean}} Spot a pointer in the stage's CSS pixels
 */

/** Listens to the stage from one press to its release. */
export class Hand {
  /** @param {TurningView} view */
  constructor(view) {
    this.view = view;
    /** @type {null | {id: number, kind: string, start: Spot, copy: any, act: "" | "turn" | "move", last: Spot, from: any}} */
    this.press = null;
    this.spot = null;
    /** @type {{at: number, words: string} | null} */
    this.line = null;
    const { stage } = view;
    const on = (name, act) => stage.addEventListener(name, act, { signal: view.ending.signal });
    on("pointerdown", (event) => this.down(event));
    on("pointermove", (event) => this.move(event));
    on("pointerup", (event) => this.up(event));
    on("pointercancel", () => this.cancel());
    on("lostpointercapture", (event) => this.press?.id === event.pointerId && this.cancel());
    on("pointerleave", () => stage.classList.remove("over", "over-own"));
  }

  /** @returns {Spot} */
  spotOf(event) {
    const box = this.view.stage.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top, alt: event.altKey };
  }

  down(event) {
    if (event.button !== 0 || this.press || !this.view.shape) {
      return;
    }
    const start = this.spotOf(event);
    const { copy, place } = this.view.pick(start.x, start.y);
    const kind = event.pointerType || "mouse";
    this.press = { id: event.pointerId, kind, start, last: start, copy, place, act: "", from: null };
    try {
      this.view.stage.setPointerCapture(event.pointerId);
    } catch {
      // A pointer made by a script cannot be captured.
    }
    if (copy && !copy.fixed && kind === "mouse" && !this.view.selected.includes(copy.key)) {
      this.view.choose([copy.key]);
    }
  }

  move(event) {
    if (!this.press) {
      this.hover(this.spotOf(event));
      return;
    }
    if (event.pointerId !== this.press.id) {
      return;
    }
    const { press } = this;
    this.spot = this.spotOf(event);
    if (!press.act) {
      const slop = SLOP[press.kind] ?? SLOP.mouse;
      if (Math.hypot(this.spot.x - press.start.x, this.spot.y - press.start.y) < slop) {
        return;
      }
      this.begin();
    }
    this.view.ask();
  }

  hover(spot) {
    const { stage } = this.view;
    const { copy } = this.view.shape ? this.view.pick(spot.x, spot.y) : { copy: null };
    stage.classList.toggle("over", Boolean(copy) && copy.fixed);
    stage.classList.toggle("over-own", Boolean(copy) && !copy.fixed);
  }

  /** A finger only moves what is selected, so that looking round never moves anything. */
  begin() {
    const { press, view } = this;
    const own = press.copy && !press.copy.fixed && view.selected.includes(press.copy.key);
    press.act = own ? "move" : "turn";
    view.stage.classList.toggle("turning", !own);
    view.stage.classList.toggle("moving", Boolean(own));
    if (own) {
      const { copy } = press;
      press.from = { place: press.place, at: copy.at_deg, up: copy.up_mm };
      this.lines = linesFor(view.drawn, copy.key);
    }
  }

  /** Carry out what the pointer did since the last picture. */
  frame() {
    const { press, spot } = this;
    if (!press?.act || !spot) {
      return;
    }
    this.spot = null;
    if (press.act === "turn") {
      const { view } = this;
      const turn = ((spot.x - press.last.x) / view.radiusPx()) * (180 / Math.PI);
      view.turnTo(view.facing - turn, view.tilt + (spot.y - press.last.y) * TILT_PER_PX);
    } else {
      this.carry(spot);
    }
    press.last = spot;
  }

  carry(spot) {
    const { press, view } = this;
    const place = view.placeNear(spot.x, spot.y);
    if (!place) {
      return;
    }
    const up = press.from.up + place.up - press.from.place.up;
    const free = wholeTurn(press.from.at + place.at - press.from.place.at);
    const found = spot.alt ? { at: free, line: null } : drawnTo(free, this.lines, SNAP_PX / view.pxPerDegree(free, up));
    this.line = found.line;
    press.now = { at: found.at, up };
    view.held.set(live(press.copy, press.now));
    view.tell("wraplive", live(press.copy, press.now));
  }

  up(event) {
    const { press, view } = this;
    if (!press || event.pointerId !== press.id) {
      return;
    }
    this.spot = press.act ? this.spotOf(event) : null;
    this.frame();
    this.end();
    if (press.act === "move" && press.now) {
      view.held.set(null);
      view.tell("wrapchange", {
        key: press.copy.key, element: press.copy.element, copy: press.copy.copy,
        changes: changesOf(press.copy, standOf(press.copy, view.frame), {
          ...standOf(press.copy, view.frame), turn: view.frame.turnOf(press.now.at), up: press.now.up,
        }, view.frame),
      });
    } else if (!press.act) {
      const key = press.copy?.key;
      if (event.shiftKey && key) {
        const rest = view.selected.filter((one) => one !== key);
        view.choose(rest.length === view.selected.length ? [...rest, key] : rest);
      } else {
        view.choose(key ? [key] : []);
      }
    }
  }

  /** Let go, and put everything back where it was. @returns {boolean} whether something was in hand */
  cancel() {
    const { press, view } = this;
    if (!press) {
      return false;
    }
    this.end();
    if (press.act === "move") {
      view.held.release();
      view.tell("wrapcancel", {});
    }
    return press.act === "move";
  }

  end() {
    const { press, view } = this;
    this.press = null;
    this.spot = null;
    this.line = null;
    view.stage.classList.remove("turning", "moving");
    try {
      view.stage.releasePointerCapture(press.id);
    } catch {
      // It may be gone already.
    }
    view.ask();
  }
}

/** @returns {import("./held.js").Changing} */
function live(copy, { at, up }) {
  return { key: copy.key, at_deg: at, up_mm: up, turn_deg: copy.turn_deg, scale_x: 1, scale_y: 1 };
}

/** The keys of the stage. @param {TurningView} view @param {KeyboardEvent} event */
export function onKey(view, event) {
  if (event.ctrlKey || event.metaKey || event.altKey) {
    return;
  }
  const steps = { ArrowLeft: [-15, 0], ArrowRight: [15, 0], ArrowUp: [0, 5], ArrowDown: [0, -5] };
  const step = steps[event.key];
  if (event.key === "Escape") {
    if (view.hand.cancel()) {
      event.preventDefault();
    }
  } else if (event.key === "Home") {
    event.preventDefault();
    view.turnTo(0, view.tilt);
  } else if (step) {
    event.preventDefault();
    view.turnTo(view.facing + step[0], view.tilt + step[1]);
  }
}

/**
 * What is under a pixel of the stage; the handle hides what lies behind it.
 *
 * @param {TurningView} view
 * @param {import("./camera.js").Camera} camera
 * @param {{x: number, y: number}} spot
 * @returns {{place: {at: number, up: number} | null, copy: any | null}}
 */
export function picked({ drawn, frame, shape, changing }, camera, spot) {
  const ray = camera.ray(spot.x, spot.y);
  const hit = wallHit(drawn.solid.wall, ray);
  if (!hit) {
    return { place: null, copy: null };
  }
  const place = { at: hit.at, up: hit.s - drawn.solid.band_from_mm };
  const onBand = place.up >= 0 && place.up <= drawn.solid.band_height_mm;
  const hidden = shape.tube !== null && tubeHit(shape.tube, ray) < hit.t;
  return { place, copy: onBand && !hidden ? copyAt(frame, drawn.copies, place, changing) : null };
}

/** @param {number} tilt @returns {number} within what the view shows */
export function limited(tilt) {
  return Math.min(HIGHEST, Math.max(LOWEST, tilt));
}

