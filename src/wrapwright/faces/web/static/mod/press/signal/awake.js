// The screen does not go dark while something heats, where the browser lets a page ask for that.

/** Keeps the screen awake while it is wanted; `can` is false where the page is no secure context or the browser old. */
export class Awake {
  can = window.isSecureContext && "wakeLock" in navigator;
  #wanted = false;
  /** @type {WakeLockSentinel | null} */
  #lock = null;

  constructor() {
    // The browser takes the lock back whenever the page is hidden.
    document.addEventListener("visibilitychange", () => void this.#hold());
  }

  /** @param {boolean} wanted */
  set wanted(wanted) {
    if (wanted === this.#wanted) return;
    this.#wanted = wanted;
    if (wanted) void this.#hold();
    else void this.#lock?.release();
  }

  async #hold() {
    if (!this.can || !this.#wanted || document.hidden || (this.#lock && !this.#lock.released)) return;
    // Refused when the battery is low; the next look at the page asks again.
    try { this.#lock = await navigator.wakeLock.request("screen"); } catch { this.#lock = null; }
    if (!this.#wanted) void this.#lock?.release();
  }
}
