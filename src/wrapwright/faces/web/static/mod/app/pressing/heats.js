// The server's routes about heats: one function each. Recipes, heaters and trials stand beside it, a module each.

import { query } from "../api.js";
import { call } from "../call.js";

const BASE = "/api/press";

/** @typedef {{heater: number, recipe: string, pieces: string[], count: number, set_c?: number, dwell_s?: number, ticked: string[], preheat: boolean, key: string, log: string, thickness_mm?: number}} HeatAsked */
/** @typedef {{heater: number, recipe: string, pieces: number, set_c?: number, dwell_s?: number, wall_mm?: number}} Planned */

export const heats = {
  /** @param {AbortSignal} [signal] */
  all: (signal) => call("GET", BASE, { signal }),
  /** @param {HeatAsked} asked */
  start: (asked) => call("POST", `${BASE}/heats`, { json: asked }),
  /** @param {number} id @param {AbortSignal} [signal] */
  one: (id, signal) => call("GET", `${BASE}/heats/${id}`, { signal }),
  /** @param {number} id @param {{kind: string, key: string, seconds?: number, celsius?: number, revision?: number, ago_s?: number}} event */
  tell: (id, event) => call("POST", `${BASE}/heats/${id}/events`, { json: event }),
  /** @param {number} id @param {{place: number, result: string, note: string}} seen */
  look: (id, seen) => call("POST", `${BASE}/heats/${id}/looks`, { json: seen }),
  /** @param {{heater?: number, piece?: string}} [which] */
  past: (which = {}) => call("GET", `${BASE}/heats${query(which)}`),
  /** @param {Planned} load @param {AbortSignal} [signal] */
  plan: (load, signal) => call("GET", `${BASE}/plan${query(load)}`, { signal }),
  /** @param {Planned} load */
  planUrl: (load) => `${BASE}/plan.svg${query(load)}`,
};
