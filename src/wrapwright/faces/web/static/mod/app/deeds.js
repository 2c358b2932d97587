// What the buttons of a list's rows do.

import { sayError } from "./say.js";

/**
 * Do what a row's button says; while it is done the button rests, and what goes wrong is told in `trouble`.
 * @param {Record<string, (row: HTMLElement) => unknown>} deeds by the button's data-deed
 * @param {string} rows selector of the row that a button stands in
 * @param {HTMLElement} trouble
 */
export function onDeeds(deeds, rows, trouble) {
  document.addEventListener("click", async (event) => {
    const button = /** @type {HTMLElement} */ (event.target).closest("button[data-deed]");
    const row = /** @type {HTMLElement | null} */ (button?.closest(rows) ?? null);
    if (!(button instanceof HTMLButtonElement) || !row) return;
    trouble.hidden = true;
    button.disabled = true;
    try {
      await deeds[button.dataset.deed ?? ""](row);
    } catch (error) {
      sayError(trouble, error);
    } finally {
      button.disabled = false;
      if (button.isConnected && document.activeElement === document.body) button.focus();
    }
  });
}
