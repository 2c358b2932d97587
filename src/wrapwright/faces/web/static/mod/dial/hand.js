/** The hand on the dial: dragging arcs and the eye round it, and the keys. */

import { shortTurn, wholeTurn } from "../canvas/frame.js";
import { SIDES, capital, drawnTo, linesFor } from "../view/angles.js";
import { readSpot } from "./rings.js";

const SNAP_PX = 6;
const SNAP_DEG = 3;
const SLOP_PX = 3;
const BURST_MS = 250;

/** @typedef {import("./wrap-dial.js").WrapDial} WrapDial */

export class Hand {
  /** @param {WrapDial} dial @param {AbortSignal} signal */
  constructor(dial, signal) {
    this.dial = dial;
    this.press = null;
    this.burst = null;
    this.snapped = false;
    const { figure } = dial;
    const on = (name, act) => figure.addEventListener(name, act, { signal });
    on("pointerdown", (event) => this.down(event));
    on("pointermove", (event) => this.move(event));
    on("pointerup", (event) => this.up(event));
    on("pointercancel", () => this.cancel());
    on("keydown", (event) => this.key(event));
    on("focusout", () => this.finish());
  }

  /** @returns {{at: number, radius: number}} */
  read(event) {
    const box = this.dial.figure.getBoundingClientRect();
    const zoom = this.dial.sizes.size / box.width;
    return readSpot(this.dial.sizes, (event.clientX - box.left) * zoom, (event.clientY - box.top) * zoom);
  }

  down(event) {
    if (event.button !== 0 || this.press || !this.dial.sizes) {
      return;
    }
    this.finish();
    const held = event.target.closest("[data-key], .eye");
    const key = held?.dataset.key;
    const copy = key ? this.dial.copy(key) : null;
    const spot = this.read(event);
    this.press = { id: event.pointerId, copy, eye: Boolean(held) && !key, start: event, spot, far: false };
    if (copy && !event.shiftKey) {
      this.dial.choose([key]);
    } else if (copy) {
      const { selected } = this.dial;
      this.dial.choose(selected.includes(key) ? selected.filter((one) => one !== key) : [...selected, key]);
    }
    try {
      this.dial.figure.setPointerCapture(event.pointerId);
    } catch {
      // A pointer made by a script cannot be captured.
    }
  }

  move(event) {
    const { press, dial } = this;
    if (!press || event.pointerId !== press.id) {
      return;
    }
    if (!press.far && Math.hypot(event.clientX - press.start.clientX, event.clientY - press.start.clientY) < SLOP_PX) {
      return;
    }
    press.far = true;
    const turn = shortTurn(this.read(event).at - press.spot.at);
    if (press.eye) {
      dial.figure.classList.add("moving");
      press.from ??= dial.facing;
      const lines = SIDES.map(({ name, at }) => ({ at, words: capital(name) }));
      dial.look(event.altKey ? wholeTurn(press.from + turn) : drawnTo(press.from + turn, lines, this.reach(dial.sizes.eye)).at);
    } else if (press.copy && !press.copy.fixed) {
      dial.figure.classList.add("moving");
      press.lines ??= linesFor(dial.drawn, press.copy.key);
      const free = press.copy.at_deg + turn;
      const found = event.altKey ? { at: wholeTurn(free), line: null }
        : drawnTo(free, press.lines, this.reach(Math.max(40, press.spot.radius)));
      this.snapped = Boolean(found.line);
      press.now = found.at;
      this.show(press.copy, found.at);
    }
  }

  /** @param {number} radius px @returns {number} degrees within which something is drawn to a line */
  reach(radius) {
    const zoom = this.dial.sizes.size / (this.dial.figure.getBoundingClientRect().width || 1);
    return Math.min(SNAP_DEG, ((SNAP_PX * zoom) / radius) * (180 / Math.PI));
  }

  show(copy, at) {
    const detail = { key: copy.key, at_deg: at, up_mm: copy.up_mm, turn_deg: copy.turn_deg, scale_x: 1, scale_y: 1 };
    this.dial.held.set(detail);
    this.dial.tell("wraplive", detail);
  }

  up(event) {
    const { press, dial } = this;
    if (!press || event.pointerId !== press.id) {
      return;
    }
    this.let();
    if (press.now !== undefined) {
      this.drop(press.copy, press.now);
    } else if (!press.copy && !press.eye && !press.far && press.spot.radius <= dial.sizes.wall) {
      dial.choose([]);
    }
  }

  drop(copy, at) {
    this.dial.held.set(null);
    const { key, element, copy: number } = copy;
    this.dial.tell("wrapchange", { key, element, copy: number, changes: { at_deg: Number(at.toFixed(6)) % 360 } });
  }

  let() {
    const { press, dial } = this;
    this.press = null;
    this.snapped = false;
    dial.figure.classList.remove("moving");
    try {
      dial.figure.releasePointerCapture(press.id);
    } catch {
      // It may be gone already.
    }
    dial.ask();
  }

  /** Put back what is in hand. @returns {boolean} whether something was */
  cancel() {
    const { press, burst, dial } = this;
    const moving = press?.now !== undefined || burst !== null;
    if (press) {
      this.let();
    }
    clearTimeout(burst?.timer);
    this.burst = null;
    if (moving) {
      dial.held.release();
      dial.tell("wrapcancel", {});
    }
    return moving;
  }

  key(event) {
    const held = event.target.closest("[data-key], .eye");
    if (!held || event.ctrlKey || event.metaKey) {
      return;
    }
    const key = held.dataset.key;
    const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (event.key === "Escape") {
      if (this.cancel()) {
        event.preventDefault();
      }
    } else if (key && (event.key === "Enter" || event.key === " ")) {
      event.preventDefault();
      this.dial.choose([key]);
    } else if (way) {
      event.preventDefault();
      const step = way * (event.shiftKey ? 15 : event.altKey ? 0.1 : 1);
      if (key) {
        this.nudge(this.dial.copy(key), step);
      } else {
        this.dial.look(wholeTurn(Math.round((this.dial.facing + step) * 10) / 10));
      }
    }
  }

  /** One key of a burst; the change is told once, when the keys rest. */
  nudge(copy, step) {
    if (!copy || copy.fixed) {
      return;
    }
    if (this.burst && this.burst.copy.key !== copy.key) {
      this.finish();
    }
    this.dial.choose([copy.key]);
    clearTimeout(this.burst?.timer);
    const from = this.burst?.at ?? copy.at_deg;
    const at = wholeTurn(Math.round((from + step) * 1e6) / 1e6);
    this.burst = { copy, at, timer: setTimeout(() => this.finish(), BURST_MS) };
    this.show(copy, at);
  }

  /** The keys rest: tell the change. */
  finish() {
    const { burst } = this;
    if (burst) {
      clearTimeout(burst.timer);
      this.burst = null;
      this.drop(burst.copy, burst.at);
    }
  }
}
