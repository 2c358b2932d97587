// The server's routes about trials: one function each.

import { query } from "../api.js";
import { call, readPage } from "../call.js";

const BASE = "/api/press/trials";

/** @typedef {{number: number, density?: number, sharpness?: number, yellowing?: number, heated?: string, seen?: number}} Scored */

export const trials = {
  /** @param {Record<string, unknown>} plan */
  plan: (plan) => call("POST", BASE, { json: plan }),
  /** @param {number} id @param {Scored} scores */
  score: (id, scores) => call("POST", `${BASE}/${id}/scores`, { json: scores }),
  /** @param {number} id @param {number} coupon */
  clear: (id, coupon) => call("DELETE", `${BASE}/${id}/scores/${coupon}`),
  /** @param {number} id @param {number} seen */
  add: (id, seen) => call("POST", `${BASE}/${id}/coupons`, { json: { seen } }),
  /** @param {number} id @param {boolean} accepted @param {number} seen */
  accept: (id, accepted, seen) => call("PUT", `${BASE}/${id}/accepted`, { json: { accepted, seen } }),
  /** @param {number} id */
  remove: (id) => call("DELETE", `${BASE}/${id}`),
  /** @param {number} id @param {Record<string, unknown>} how setup, width, height, length, spares */
  fileUrl: (id, how) => `${BASE}/${id}/coupons.pdf${query(how)}`,
  /** @param {number} id @param {Record<string, unknown>} how @returns {string} */
  pictureUrl: (id, how) => `${BASE}/${id}/coupons.svg${query(how)}`,
  /** @param {number} id @param {number} coupon @returns {Promise<string>} the screen as it is now */
  screen: (id, coupon) => readPage(screen(id, coupon)),
};

/** Address of the screen. @param {number} [id] @param {number} [coupon] */
export const screen = (id, coupon) => `/press/trials${query({ trial: id, coupon })}`;
