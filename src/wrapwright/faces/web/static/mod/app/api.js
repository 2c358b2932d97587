// The server's routes: one function each; no other module knows an address.

import { call, readFile, upload, ApiError } from "./call.js";

export { ApiError };

/** @typedef {(share: number) => void} Progress */
/** @typedef {"flat" | "straight"} Frame */

const name = encodeURIComponent;
/** @param {number} revision */
const match = (revision) => ({ "If-Match": `"${revision}"` });
/** @param {Record<string, unknown>} values what goes behind the "?", without what is empty */
export function query(values) {
  const made = new URLSearchParams();
  for (const [key, value] of Object.entries(values)) {
    if (value !== undefined && value !== null && value !== "") made.set(key, String(value));
  }
  const text = made.toString();
  return text ? `?${text}` : "";
}

export const api = {
  // Lengths
  /** @param {string} text @param {string} unit */
  length: (text, unit) => call("GET", `/api/length${query({ text, unit })}`),

  // Blanks
  /** @param {string} [search] */
  blanks: (search = "") => call("GET", `/api/blanks${query({ search })}`),
  /** @param {number} id @param {number} [version] */
  blank: (id, version) => call("GET", `/api/blanks/${id}${query({ version })}`),
  /** @param {{name: string, table: object, wrap: object}} blank */
  addBlank: (blank) => call("POST", "/api/blanks", { json: blank }),
  /** @param {number} id @param {{name: string, table: object, wrap: object, base: number}} blank */
  changeBlank: (id, blank) => call("PUT", `/api/blanks/${id}`, { json: blank }),
  /** @param {number} id */
  removeBlank: (id) => call("DELETE", `/api/blanks/${id}`),
  starters: () => call("GET", "/api/starters"),
  /** @param {{blank: object, wrap: object, unit: string}} readings @param {AbortSignal} [signal] */
  measure: (readings, signal) => call("POST", "/api/measure", { json: readings, signal }),
  /** @param {File} file an SVG @returns {Promise<{points: [number, number][], holes: number}>} */
  readOutline: (file) => upload(`/api/outlines/${name(file.name)}`, file),
  /** @param {number} id @param {string} [unit] */
  blankDrawingUrl: (id, unit) => `/api/blanks/${id}/drawing.svg${query({ unit })}`,
  /** @param {string} key @param {string} [unit] */
  starterDrawingUrl: (key, unit) => `/api/starters/${name(key)}/drawing.svg${query({ unit })}`,

  // Files that come in
  /** @param {File} file @param {Progress} [progress] @param {AbortSignal} [signal] */
  putPicture: (file, progress, signal) => upload(`/api/pictures/${name(file.name)}`, file, progress, "PUT", signal),
  pictures: () => call("GET", "/api/pictures"),
  /** @param {string} sha256 */
  smallPictureUrl: (sha256) => `/api/pictures/${sha256}/small.jpg`,
  /** @param {File} file @param {Progress} [progress] */
  putFont: (file, progress) => upload(`/api/fonts/${name(file.name)}`, file, progress),
  fonts: () => call("GET", "/api/fonts"),
  /** @param {File} file @param {Progress} [progress] */
  putProfile: (file, progress) => upload(`/api/profiles/${name(file.name)}`, file, progress),

  // Set-ups
  setups: () => call("GET", "/api/setups"),
  /** @param {number} id */
  setup: (id) => call("GET", `/api/setups/${id}`),
  /** @param {{name: string, sheet: object, colour: object, profile_sha256: string}} setup */
  addSetup: (setup) => call("POST", "/api/setups", { json: setup }),
  /** @param {number} id @param {{name: string, sheet: object, colour: object, profile_sha256: string}} setup */
  changeSetup: (id, setup) => call("PUT", `/api/setups/${id}`, { json: setup }),
  /** @param {number} id */
  removeSetup: (id) => call("DELETE", `/api/setups/${id}`),

  // Designs
  /** @param {string} [search] */
  designs: (search = "") => call("GET", `/api/designs${query({ search })}`),
  /** @param {{title: string, blank_id?: number, starter?: string, document?: object}} design */
  newDesign: (design) => call("POST", "/api/designs", { json: design }),
  /** @param {number} id @param {Frame} [frame] @param {number} [revision] */
  design: (id, frame, revision) => call("GET", `/api/designs/${id}${query({ frame, revision })}`),
  /** @param {number} id @param {number} revision @param {object} document @param {Frame} [frame] */
  saveDesign: (id, revision, document, frame) =>
    call("PUT", `/api/designs/${id}${query({ frame })}`, { json: { document }, headers: match(revision) }),
  /** @param {number} id @param {number} revision @param {Frame} [frame] */
  undo: (id, revision, frame) => call("POST", `/api/designs/${id}/undo${query({ frame })}`, { headers: match(revision) }),
  /** @param {number} id @param {number} revision @param {Frame} [frame] */
  redo: (id, revision, frame) => call("POST", `/api/designs/${id}/redo${query({ frame })}`, { headers: match(revision) }),
  /** @param {number} id @param {number} revision @param {number} setup @param {Frame} [frame] */
  useSetup: (id, revision, setup, frame) =>
    call("POST", `/api/designs/${id}/setup${query({ frame })}`, { json: { setup_id: setup }, headers: match(revision) }),
  /** @param {number} id @param {string} sha256 @param {string} file */
  putFile: (id, sha256, file) => call("POST", `/api/designs/${id}/files`, { json: { sha256, name: file } }),
  /** @param {number} id */
  copyDesign: (id) => call("POST", `/api/designs/${id}/copy`),
  /** @param {number} id */
  removeDesign: (id) => call("DELETE", `/api/designs/${id}`),
  /** @param {number} id */
  exportUrl: (id) => `/api/designs/${id}/job.zip`,
  /** @param {number} id @returns {Promise<Blob>} what `importDesign` takes */
  exportDesign: (id) => readFile(`/api/designs/${id}/job.zip`),
  /** @param {Blob} file @param {Progress} [progress] */
  importDesign: (file, progress) => upload("/api/designs/import", file, progress, "POST"),

  // One revision
  /** @param {number} id @param {number} revision @param {AbortSignal} [signal] */
  checks: (id, revision, signal) => call("GET", `/api/designs/${id}/revisions/${revision}/checks`, { signal }),
  /** @param {number} id @param {number} revision @param {number} [width] @param {Frame} [frame] */
  proofUrl: (id, revision, width, frame) => `/api/designs/${id}/revisions/${revision}/proof.jpg${query({ width, frame })}`,
  /** @param {number} id @param {number} revision */
  sheet: (id, revision) => call("GET", `/api/designs/${id}/revisions/${revision}/sheet`),
  /** @param {number} id @param {number} revision @param {Record<string, unknown>} what page, ppi, side, x, y, width, height */
  sheetPictureUrl: (id, revision, what) => `/api/designs/${id}/revisions/${revision}/sheet.png${query(what)}`,

  // What is made
  /** @param {{design: number, revision: number, output: string, accept: string[]}} asked */
  make: (asked) => call("POST", "/api/made", { json: asked }),
  /** @param {number} [design] */
  madeList: (design) => call("GET", `/api/made${query({ design })}`),
  /** @param {number} id */
  made: (id) => call("GET", `/api/made/${id}`),
  /** @param {number} id */
  stopMaking: (id) => call("POST", `/api/made/${id}/stop`),
  /** @param {number} id */
  removeMade: (id) => call("DELETE", `/api/made/${id}`),
  /** @param {number} id @param {string} file */
  madeFileUrl: (id, file) => `/api/made/${id}/files/${name(file)}`,

  // Printing
  printers: () => call("GET", "/api/printers"),
  /** @param {number} setup */
  setupPrinter: (setup) => call("GET", `/api/setups/${setup}/printer`),
  /** @param {number} setup @param {string} address "" for none */
  setPrinter: (setup, address) => call("PUT", `/api/setups/${setup}/printer`, { json: { address } }),
  /** @param {number} made @param {number} setup @param {number} copies @param {AbortSignal} [signal] */
  printing: (made, setup, copies, signal) => call("GET", `/api/made/${made}/printing${query({ setup, copies })}`, { signal }),
  /** @param {number} made */
  madePrints: (made) => call("GET", `/api/made/${made}/prints`),
  /** @param {number} made @param {{setup: number, copies: number, even_so: boolean}} asked */
  printMade: (made, asked) => call("POST", `/api/made/${made}/prints`, { json: asked }),
  /** @param {number} id */
  onePrint: (id) => call("GET", `/api/prints/${id}`),
  /** @param {number} id */
  stopPrint: (id) => call("POST", `/api/prints/${id}/stop`),

  // The tray
  /** @param {object} tray @param {number} revision */
  keepTray: (tray, revision) => call("PUT", "/api/tray", { json: tray, headers: match(revision) }),
  /** @param {object} tray @param {number} seconds @param {string} window @param {AbortSignal} [signal] */
  layTray: (tray, seconds, window, signal) => call("POST", "/api/tray/lay", { json: { tray, seconds, window }, signal }),
  /** @param {object} tray @param {string[]} accept */
  makeTray: (tray, accept) => call("POST", "/api/tray/made", { json: { tray, accept } }),

  // Calibrating, and measuring by paper
  /** @param {number} setup @param {{measured_mm: number[], division_mm: number, day: string|null, note: string}} measured */
  addScale: (setup, measured) => call("POST", `/api/setups/${setup}/scales`, { json: measured }),
  /** @param {number} setup @param {number} entry */
  removeScale: (setup, entry) => call("DELETE", `/api/setups/${setup}/scales/${entry}`),
  /** @param {Record<string, unknown>} rough setup, girth or top and bottom, wall @param {AbortSignal} [signal] */
  gauge: (rough, signal) => call("GET", `/api/gauge${query(rough)}`, { signal }),
  /** @param {Record<string, unknown>} rough */
  gaugeFileUrl: (rough) => `/api/gauge.pdf${query(rough)}`,
  /** @param {Record<string, unknown>} rough with page, from 1 */
  gaugePictureUrl: (rough) => `/api/gauge.svg${query(rough)}`,
  /** @param {{readings: {at_mm: number|null, flat_mm: number}[], wall_mm: number|null, setup: number, lies: string, blank: number}} read */
  readGauge: (read) => call("POST", "/api/gauge/reading", { json: read }),

  // Who is here
  /** @param {string} person @param {string} password */
  signIn: (person, password) => call("POST", "/api/session", { json: { name: person, password } }),
  signOut: () => call("DELETE", "/api/session"),
};

/** Addresses of pages, for those who go from one to the next. */
export const pages = {
  shelf: "/",
  /** @param {number} [blank] */
  measure: (blank) => (blank ? `/measure/${blank}` : "/measure"),
  /** @param {number} design @param {number|null} [element] that is selected there, by its place in the document */
  compose: (design, element = null) => `/designs/${design}${element === null ? "" : `#element-${element}`}`,
  /** @param {number} design */
  sheet: (design) => `/designs/${design}/sheet`,
  tray: "/tray",
  /** @param {number} [made] whose pieces are heated */
  press: (made) => (made ? `/press?made=${made}` : "/press"),
  history: "/history",
  setups: "/setups",
  /** @param {number} setup */
  calibrate: (setup) => `/setups/${setup}/calibrate`,
};
