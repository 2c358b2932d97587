// The tray on this screen: changed here, laid and kept by the server.

import { api, ApiError } from "../app/api.js";
import { say, sayError } from "../app/say.js";
import { byId } from "../sheet/dom.js";

const WAIT_MS = 120; // after a change, before it is laid
const QUICK_S = 0.4;
const LONG_S = 4; // a second, longer search when nothing has changed for a while
const CALM_MS = 1200;

export class State {
  /** @param {any} start @param {(view: any) => void} show */
  constructor(start, show) {
    /** @type {any} */
    this.tray = start.tray;
    this.revision = start.revision;
    this.show = show;
    /** @type {any} */
    this.view = null;
    this.turn = 0;
    this.window = Array.from(crypto.getRandomValues(new Uint32Array(2)), (one) => one.toString(36)).join("");
    this.timer = 0;
    this.saving = Promise.resolve();
    /** @type {AbortController | null} */
    this.asked = null;
  }

  /** Change something; it is kept and laid anew. @param {Record<string, unknown>} values */
  change(values) {
    this.tray = { ...this.tray, ...values };
    this.keep();
    this.lay();
  }

  keep() {
    this.saving = this.saving.then(async () => {
      try {
        this.revision = (await api.keepTray(this.tray, this.revision)).revision;
      } catch (error) {
        sayError(byId("tray-trouble"), error);
      }
    });
  }

  lay() {
    this.turn += 1;
    this.asked?.abort();
    window.clearTimeout(this.timer);
    if (!this.tray.pieces.length) {
      this.view = null;
      this.show(null);
      return;
    }
    this.timer = window.setTimeout(() => this.ask(QUICK_S, this.turn), WAIT_MS);
  }

  /** @param {number} seconds @param {number} turn */
  async ask(seconds, turn) {
    byId("searching").hidden = false;
    this.asked = new AbortController();
    try {
      const view = await api.layTray(this.tray, seconds, this.window, this.asked.signal);
      if (turn !== this.turn) return;
      byId("tray-trouble").hidden = true;
      if (this.refused(view)) return;
      this.take(view);
      if (seconds < LONG_S && !view.proven) {
        this.timer = window.setTimeout(() => { if (!document.hidden) this.ask(LONG_S, turn); }, CALM_MS);
      }
    } catch (error) {
      if (turn !== this.turn || /** @type {any} */ (error).name === "AbortError") return;
      if (error instanceof ApiError) sayError(byId("tray-trouble"), error);
    } finally {
      if (turn === this.turn) byId("searching").hidden = true;
    }
  }

  /** Take a layout unless the one on the screen needs fewer sheets. @param {any} view */
  take(view) {
    this.view = view;
    this.show(view);
  }

  /** A pin that cannot stay is taken back and the reason told. @param {any} view */
  refused(view) {
    if (!view.loose.length) return false;
    const last = this.tray.pins.length - 1;
    // The one put there last is the one in the way; pins of pieces that are gone go too.
    const gone = new Set(view.loose.length === this.tray.pins.length ? [last] : view.loose);
    say(view.notes[0] ?? "It cannot stay there; it was laid anew.");
    const place = byId("tray-trouble");
    place.textContent = view.notes[0] ?? "A piece cannot stay where it was put; it was laid anew.";
    this.change({ pins: this.tray.pins.filter((/** @type {any} */ _one, /** @type {number} */ at) => !gone.has(at)) });
    place.hidden = false;
    return true;
  }

  /** @param {number} piece @param {number} copy */
  pinOf(piece, copy) {
    return this.tray.pins.findIndex((/** @type {any} */ one) => one.piece === piece && one.copy === copy);
  }

  /** Put a copy somewhere. @param {any} pin */
  pin(pin) {
    const at = this.pinOf(pin.piece, pin.copy);
    const others = this.tray.pins.filter((/** @type {any} */ _one, /** @type {number} */ index) => index !== at);
    this.change({ pins: [...others, pin] });
  }

  /** Let a copy go. @param {number} piece @param {number} copy */
  unpin(piece, copy) {
    const at = this.pinOf(piece, copy);
    if (at < 0) return;
    this.change({ pins: this.tray.pins.filter((/** @type {any} */ _one, /** @type {number} */ index) => index !== at) });
  }
}
