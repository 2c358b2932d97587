// A design brought in as a file: dropped on the shelf or chosen.

import { api, pages } from "../app/api.js";
import { say, sayError } from "../app/say.js";

/**
 * Let a zip file be dropped on the page or chosen; the design that it holds is opened.
 * @param {HTMLElement} trouble where to say what was wrong with it
 */
export function bringIn(trouble) {
  const chosen = /** @type {HTMLInputElement} */ (document.getElementById("bring-file"));
  const target = document.body;
  chosen.addEventListener("change", () => {
    if (chosen.files?.[0]) void send(chosen.files[0], trouble);
    chosen.value = "";
  });
  document.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    target.dataset.over = "";
  });
  document.addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) delete target.dataset.over;
  });
  document.addEventListener("drop", (event) => {
    delete target.dataset.over;
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    void send(file, trouble);
  });
}

/** @param {File} file @param {HTMLElement} trouble */
async function send(file, trouble) {
  const box = /** @type {HTMLElement} */ (document.getElementById("bringing"));
  const bar = /** @type {HTMLProgressElement} */ (document.getElementById("bring-share"));
  trouble.hidden = true;
  box.hidden = false;
  bar.value = 0;
  /** @type {HTMLElement} */ (document.getElementById("bring-name")).textContent = file.name;
  say(`Bringing in ${file.name}.`);
  try {
    const made = await api.importDesign(file, (share) => { bar.value = share; });
    location.assign(pages.compose((made.design ?? made).id));
  } catch (error) {
    sayError(trouble, error);
  } finally {
    box.hidden = true;
  }
}
