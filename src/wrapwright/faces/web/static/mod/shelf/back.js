// What was removed can be brought back, as long as the page stays.

import { api } from "../app/api.js";
import { sayError } from "../app/say.js";

/**
 * What it takes to bring a design back as it stands now, or null when it cannot be exported.
 * @param {number} id
 * @returns {Promise<(() => Promise<unknown>) | null>}
 */
export async function designBack(id) {
  try {
    const file = await api.exportDesign(id);
    return () => api.importDesign(file);
  } catch (error) {
    if (/** @type {{kind?: string}} */ (error).kind === "offline") throw error;
    return null;
  }
}

/**
 * What it takes to bring a blank back with its newest readings.
 * @param {number} id
 * @returns {Promise<() => Promise<unknown>>}
 */
export async function blankBack(id) {
  const { name, table, wrap } = await api.blank(id);
  return () => api.addBlank({ name, table, wrap });
}

/**
 * Say that something is gone, with a button that brings it back.
 * @param {string} name
 * @param {(() => Promise<unknown>) | null} bring
 */
export function offerBack(name, bring) {
  const line = /** @type {HTMLElement} */ (document.getElementById("gone"));
  const button = /** @type {HTMLButtonElement} */ (document.getElementById("bring-back"));
  const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));
  /** @type {HTMLElement} */ (document.getElementById("gone-name")).textContent = `“${name}” is removed.`;
  line.hidden = false;
  button.hidden = !bring;
  button.onclick = async () => {
    button.disabled = true;
    try {
      await bring?.();
      location.reload();
    } catch (error) {
      sayError(trouble, error);
      button.disabled = false;
    }
  };
  (bring ? button : document.getElementById("main"))?.focus();
}
