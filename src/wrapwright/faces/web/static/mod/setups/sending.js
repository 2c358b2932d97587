// A file sent from a set-up's page, with its progress.

import { say, sayError } from "../app/say.js";

/**
 * Send the file that was chosen; null when there was none or it was refused (the reason then stands beside the button).
 * @param {HTMLInputElement} chosen
 * @param {"profile" | "font"} what the ids on the page begin with it
 * @param {(file: File, progress: (share: number) => void) => Promise<any>} send
 */
export async function sendFile(chosen, what, send) {
  const file = chosen.files?.[0];
  if (!file) return null;
  const box = /** @type {HTMLElement} */ (document.getElementById(`${what}-bringing`));
  const bar = /** @type {HTMLProgressElement} */ (document.getElementById(`${what}-share`));
  const trouble = /** @type {HTMLElement} */ (document.getElementById(`${what}-trouble`));
  /** @type {HTMLElement} */ (document.getElementById(`${what}-name`)).textContent = file.name;
  trouble.hidden = true;
  box.hidden = false;
  bar.value = 0;
  say(`Sending ${file.name}.`);
  try {
    return await send(file, (share) => { bar.value = share; });
  } catch (error) {
    sayError(trouble, error);
    return null;
  } finally {
    box.hidden = true;
    chosen.value = "";
  }
}
