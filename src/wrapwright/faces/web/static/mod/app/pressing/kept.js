// The server's routes about recipes, heaters and circuits: one function each.

import { query } from "../api.js";
import { call } from "../call.js";

const BASE = "/api/press";

/** @typedef {{low: number|null, high: number|null, words: string, question: string, choices: {text: string, words: string}[]}} Meant */
/** @typedef {{name: string, kind: string, power_w: number, capacity: number, circuit: number, more: object}} HeaterAsked */
/** @typedef {{name: string, volts: number, amps: number}} CircuitAsked */

export const kept = {
  /** @param {"temperature" | "time"} kind @param {string} text @param {boolean} single @param {AbortSignal} [signal] @returns {Promise<Meant>} */
  reading: (kind, text, single, signal) => call("GET", `${BASE}/reading${query({ kind, text, single })}`, { signal }),

  /** @returns {Promise<{name: string, place: string, content: {title: string}, words: [string, string][]}[]>} those that are offered */
  recipes: () => call("GET", `${BASE}/recipes`),
  /** @param {{content: object}} recipe */
  addRecipe: (recipe) => call("POST", `${BASE}/recipes`, { json: recipe }),
  /** @param {number} id @param {{content: object, version: number, added: string|null}} recipe */
  changeRecipe: (id, recipe) => call("PUT", `${BASE}/recipes/${id}`, { json: recipe }),
  /** @param {number} id */
  retireRecipe: (id) => call("POST", `${BASE}/recipes/${id}/retire`),
  /** @param {number} id */
  restoreRecipe: (id) => call("POST", `${BASE}/recipes/${id}/restore`),

  /** @param {HeaterAsked} heater */
  addHeater: (heater) => call("POST", `${BASE}/heaters`, { json: heater }),
  /** @param {number} id @param {HeaterAsked} heater */
  changeHeater: (id, heater) => call("PUT", `${BASE}/heaters/${id}`, { json: heater }),
  /** @param {number} id */
  retireHeater: (id) => call("POST", `${BASE}/heaters/${id}/retire`),
  /** @param {number} id */
  restoreHeater: (id) => call("POST", `${BASE}/heaters/${id}/restore`),

  /** @param {CircuitAsked} circuit */
  addCircuit: (circuit) => call("POST", `${BASE}/circuits`, { json: circuit }),
  /** @param {number} id @param {CircuitAsked} circuit */
  changeCircuit: (id, circuit) => call("PUT", `${BASE}/circuits/${id}`, { json: circuit }),
  /** @param {number} id */
  removeCircuit: (id) => call("DELETE", `${BASE}/circuits/${id}`),
};

/** Addresses of the screens. */
export const places = { recipes: "/press/recipes", heaters: "/press/heaters" };
