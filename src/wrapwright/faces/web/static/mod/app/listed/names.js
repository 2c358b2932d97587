// The server's routes about a design's list of names: one function each.

import { query } from "../api.js";
import { call, upload } from "../call.js";

/** @param {number} design */
const base = (design) => `/api/designs/${design}/names`;

/** @typedef {{header?: number, sheet?: string, encoding?: string, separator?: string}} How */
/** @typedef {{order?: string, first?: number, most?: number, search?: string, rule?: string}} Asked */

export const names = {
  /** @param {number} design @param {File} file @param {How} how @param {(share: number) => void} progress */
  bring: (design, file, how, progress) =>
    upload(`${base(design)}/table/${encodeURIComponent(file.name)}${query({ ...how })}`, file, progress),
  /** @param {number} design */
  list: (design) => call("GET", base(design)),
  /** @param {number} design @param {object} mapping @param {number} revision */
  map: (design, mapping, revision) =>
    call("PUT", base(design), { json: { mapping }, headers: { "If-Match": `"${revision}"` } }),
  /** @param {number} design */
  drop: (design) => call("DELETE", base(design)),
  /** @param {number} design @param {Asked} asked @param {AbortSignal} [signal] */
  rows: (design, asked, signal) => call("GET", `${base(design)}/rows${query({ ...asked })}`, { signal }),
  /** @param {number} design @param {number} row */
  row: (design, row) => call("GET", `${base(design)}/rows/${row}`),
  /** @param {number} design @param {number} row @param {Record<string, string>} cells */
  change: (design, row, cells) => call("PATCH", `${base(design)}/rows/${row}`, { json: { cells } }),
  /** @param {number} design @param {{verb: string, rows?: number[], rule?: string}} decision */
  decide: (design, decision) => call("POST", `${base(design)}/decisions`, { json: decision }),
  /** @param {number} design @param {number} row */
  drawn: (design, row) => call("GET", `${base(design)}/rows/${row}/drawn`),
  /** @param {number} design @param {{order: string, rows: number[], sheets_a_file: number, accept: string[], only: string}} asked */
  make: (design, asked) => call("POST", `${base(design)}/made`, { json: asked }),
  /** @param {number} design @returns {Promise<{words: string[], whole: boolean, list_sha256: string}>} */
  signed: (design) => call("GET", `${base(design)}/signed`),
  /** @param {number} design @param {string} by */
  sign: (design, by) => call("POST", `${base(design)}/signed`, { json: { by } }),
};
