// What the server says of all heaters, asked each second while somebody looks.

import { heats } from "../../app/pressing/heats.js";

const EACH_MS = 1000;
const UNSEEN_MS = 10000;
const PATIENCE_MS = 4000;

/** @typedef {import("../heat/phases.js").Heat} Heat */
/** @typedef {{name: string, text: string}} Tick */
/** @typedef {{id: number, name: string, kind: string, capacity: number, rated_w: number, circuit: string, calibrated: boolean, heat: Heat | null}} Heater */
/** @typedef {{id: number, name: string, title: string, version: number, ware: string, heater: string, celsius: [number, number], seconds: [number, number], lidded: boolean, preheat: boolean, source: string, ticks: Tick[]}} Recipe */
/** @typedef {{name: string, volts: number, amps: number, load_w: number, limit_w: number}} Circuit */

/** Holds what the server said last; tells `told` after each answer, `lost` and `back` when it stops and begins again. */
export class Board extends EventTarget {
  /** @type {Heater[]} */ heaters = [];
  /** @type {Recipe[]} */ recipes = [];
  /** @type {Circuit[]} */ circuits = [];
  /** The faults' titles by their names. @type {Record<string, string>} */ faults = {};
  /** What there is to say of all, about the clock. @type {string[]} */ words = [];
  /** Whether the server has not answered since. */
  away = false;

  /** All heats that are shown, by number. @type {Map<number, Heat>} */ #heats = new Map();
  /** Those that have ended and stay until somebody has read what is said of them. @type {Set<number>} */ #read = new Set();
  /** When a heat's word came here as the answer to what was done. @type {Map<number, number>} */ #renewed = new Map();
  #timer = 0;
  #asking = false;

  /** @param {import("./clock.js").Clock} clock */
  constructor(clock) {
    super();
    this.clock = clock;
    const wake = () => { if (!document.hidden) void this.ask(); };
    document.addEventListener("visibilitychange", wake);
    for (const event of ["pageshow", "focus", "online"]) window.addEventListener(event, wake);
  }

  /** Ask now; the next time comes by itself. */
  async ask() {
    if (this.#asking) return;
    this.#asking = true;
    window.clearTimeout(this.#timer);
    try {
      const sent = performance.now();
      const told = await heats.all(AbortSignal.timeout(PATIENCE_MS));
      this.clock.hear(told.now, sent, performance.now());
      this.#take(told, sent);
    } catch {
      this.#lose();
    } finally {
      this.#asking = false;
      this.#timer = window.setTimeout(() => void this.ask(), document.hidden ? UNSEEN_MS : EACH_MS);
    }
  }

  /**
   * Take the answer to what one did to a heat.
   * @param {Heat} heat
   */
  renew(heat) {
    this.#heats.set(heat.id, newer(this.#heats.get(heat.id) ?? null, heat));
    this.#renewed.set(heat.id, performance.now());
    if (heat.phase === "ended" && heat.loaded) this.#read.add(heat.id);
    else if (heat.phase === "ended") this.#heats.delete(heat.id);
    this.tell();
  }

  /** Let go of a heat that has ended. @param {number} id */
  drop(id) {
    this.#read.delete(id);
    this.#heats.delete(id);
    this.tell();
  }

  /** Have everything that shows it look again. */
  tell() {
    this.dispatchEvent(new Event("told"));
  }

  /** The heats in the order of their heaters, the older first. */
  get heats() {
    const order = new Map(this.heaters.map((one, at) => [one.id, at]));
    return [...this.#heats.values()].sort((one, other) =>
      (order.get(one.heater.id) ?? 0) - (order.get(other.heater.id) ?? 0) || one.id - other.id);
  }

  /** The heaters that nothing is in. */
  get free() {
    const taken = new Set(this.heats.filter((one) => !one.out && one.phase !== "ended").map((one) => one.heater.id));
    return this.heaters.filter((one) => !taken.has(one.id));
  }

  /** @param {{heaters: Heater[], recipes: Recipe[], circuits: Circuit[], waiting: Heat[], faults: Record<string, string>, words: string[]}} told @param {number} sent */
  #take(told, sent) {
    const before = this.#heats;
    const now = [...told.heaters.flatMap((one) => one.heat ?? []), ...told.waiting];
    this.#heats = new Map(now.map((one) => [one.id, newer(before.get(one.id) ?? null, one)]));
    for (const [id, kept] of before) {
      // Asked for before it was renewed here, the answer may not know it yet.
      const younger = (this.#renewed.get(id) ?? 0) > sent;
      if (this.#read.has(id) || (younger && !this.#heats.has(id))) this.#heats.set(id, kept);
    }
    ({ heaters: this.heaters, recipes: this.recipes, circuits: this.circuits, faults: this.faults, words: this.words } = told);
    if (this.away) {
      this.away = false;
      this.dispatchEvent(new Event("back"));
    }
    this.tell();
  }

  #lose() {
    if (!this.away) {
      this.away = true;
      this.dispatchEvent(new Event("lost"));
    }
    // An answer that does not come in time is none; the line at the top of the page says so.
    document.dispatchEvent(new CustomEvent("wrapoffline"));
  }
}

/**
 * Of two words about one heat the later: answers may overtake each other.
 * @param {Heat | null} known @param {Heat} told
 * @returns {Heat}
 */
function newer(known, told) {
  if (!known || known.id !== told.id || told.revision !== known.revision) {
    return known && known.id === told.id && known.revision > told.revision ? known : told;
  }
  return Date.parse(told.now) >= Date.parse(known.now) ? told : known;
}
