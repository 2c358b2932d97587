// The server's routes about what is known of a heater, and from what.

import { query } from "../api.js";
import { call, upload } from "../call.js";

const name = encodeURIComponent;
/** @param {number} heater */
const base = (heater) => `/api/press/heaters/${heater}/evidence`;

export const evidence = {
  /** @param {number} heater @param {File} file @param {Record<string, unknown>} said what is known of the log */
  lookAtLog: (heater, file, said) => upload(`${base(heater)}/looks/${name(file.name)}${query(said)}`, file, undefined, "POST"),
  /** @param {number} heater @param {File} file @param {Record<string, unknown>} said */
  fitLog: (heater, file, said) => upload(`${base(heater)}/logs/${name(file.name)}${query(said)}`, file, undefined, "POST"),
  /** @param {number} heater @param {object} readings */
  readings: (heater, readings) => call("POST", `${base(heater)}/readings`, { json: readings }),
  /** @param {number} heater @param {object} known */
  recipe: (heater, known) => call("POST", `${base(heater)}/recipes`, { json: known }),
  /** @param {number} heater @param {object} map */
  map: (heater, map) => call("POST", `${base(heater)}/maps`, { json: map }),
  /** @param {number} heater @param {number} entry */
  drop: (heater, entry) => call("DELETE", `${base(heater)}/${entry}`),
  /** @param {number} heater */
  page: (heater) => `/press/heaters/${heater}`,
};
