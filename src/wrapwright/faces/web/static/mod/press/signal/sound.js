// Beeps made here; they may begin only after somebody has touched the page, so the first touch anywhere allows them.

const KEPT = "press-sound";
const LOUD = 0.35;
const EDGE_S = 0.012; // a beep that began at full strength would click

/** @typedef {[number, number, number][]} Pattern beeps: when, how long (s), how high (Hz) */

/** @type {Record<string, Pattern>} */
export const PATTERNS = {
  hello: [[0, 0.12, 880]],
  hot: [[0, 0.18, 660], [0.24, 0.3, 990]],
  turn: [[0, 0.12, 784], [0.18, 0.12, 784], [0.36, 0.12, 784]],
  out: [[0, 0.32, 988], [0.45, 0.32, 784], [0.9, 0.5, 988]],
  cool: [[0, 0.2, 660], [0.28, 0.35, 494]],
};

/** What was wanted last; a browser that keeps nothing knows nothing. @returns {string | null} */
function kept() {
  try { return localStorage.getItem(KEPT); } catch { return null; }
}

/** @param {string} wanted */
function keep(wanted) {
  try { localStorage.setItem(KEPT, wanted); } catch { /* it is asked anew next time */ }
}

/** The page's sound: wanted or not, and allowed or not yet. Tells `change` when either turns. */
export class Sound extends EventTarget {
  wanted = kept() !== "off";
  /** @type {AudioContext | null} */
  #context = null;
  /** @type {Map<string, {at: number, beeps: OscillatorNode[]}>} */
  #armed = new Map();

  constructor() {
    super();
    const allow = (/** @type {Event} */ event) => {
      const own = event.target instanceof Element && event.target.closest("#sound");
      if (!own && this.wanted && !this.heard) void this.allow();
    };
    for (const event of ["pointerup", "keydown"]) document.addEventListener(event, allow, { capture: true });
  }

  /** Whether a beep would be heard now. */
  get heard() {
    return this.wanted && this.#context?.state === "running";
  }

  /** Let it begin; only within a tap or a key. */
  async allow() {
    const made = this.#context ?? new AudioContext();
    this.#context ??= made;
    made.onstatechange = () => this.dispatchEvent(new Event("change"));
    try { await made.resume(); } catch { return; }
    if (this.heard) this.play("hello");
    this.dispatchEvent(new Event("change"));
  }

  /** @param {boolean} on */
  async want(on) {
    this.wanted = on;
    keep(on ? "on" : "off");
    if (on) await this.allow();
    else for (const key of [...this.#armed.keys()]) this.disarm(key);
    this.dispatchEvent(new Event("change"));
  }

  /**
   * Sound a pattern, now or in so many seconds.
   * @param {string} name
   * @param {number} [delay]
   * @returns {OscillatorNode[]}
   */
  play(name, delay = 0) {
    const context = this.#context;
    if (!context || !this.heard) return [];
    const start = context.currentTime + delay;
    return PATTERNS[name].map(([at, long, high]) => beep(context, start + at, long, high));
  }

  /**
   * Let a pattern sound at an end to come, at that very moment even where a page that nobody sees is woken seldom.
   * @param {string} key of the end; armed again it is moved
   * @param {number} seconds until then
   * @param {string} name
   */
  arm(key, seconds, name) {
    const context = this.#context;
    if (!context || !this.heard) return;
    const at = context.currentTime + seconds;
    const known = this.#armed.get(key);
    if (known && Math.abs(known.at - at) < 0.15) return;
    this.disarm(key);
    this.#armed.set(key, { at, beeps: this.play(name, seconds) });
  }

  /** @param {string} key */
  disarm(key) {
    const known = this.#armed.get(key);
    if (!known) return;
    this.#armed.delete(key);
    for (const one of known.beeps) {
      try { one.stop(); } catch { /* it has sounded */ }
    }
  }

  /** Take back what was armed; whether it had begun to sound. @param {string} key */
  fired(key) {
    const known = this.#armed.get(key);
    const done = Boolean(known && this.#context && known.at <= this.#context.currentTime + 0.05);
    if (known && done) this.#armed.delete(key);
    else this.disarm(key);
    return done;
  }
}

/** @param {AudioContext} context @param {number} at @param {number} long @param {number} high */
function beep(context, at, long, high) {
  const tone = new OscillatorNode(context, { type: "triangle", frequency: high });
  const gain = new GainNode(context, { gain: 0 });
  gain.gain.setValueAtTime(0, at);
  gain.gain.linearRampToValueAtTime(LOUD, at + EDGE_S);
  gain.gain.setValueAtTime(LOUD, at + long - EDGE_S);
  gain.gain.linearRampToValueAtTime(0, at + long);
  tone.connect(gain).connect(context.destination);
  tone.start(at);
  tone.stop(at + long);
  return tone;
}
