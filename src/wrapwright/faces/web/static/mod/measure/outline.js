// A flat blank's own outline: an SVG is brought, its points stay in the form.

import { api } from "../app/api.js";
import { say } from "../app/say.js";

/** @param {string} id @returns {any} */
const byId = (id) => document.getElementById(id);

/**
 * @param {import("./form.js").Form} form
 * @param {() => void} changed
 */
export function joinOutline(form, changed) {
  const input = /** @type {HTMLInputElement} */ (byId("outline-file"));
  const words = byId("outline-words");
  /** @param {string} text @param {boolean} wrong */
  const tell = (text, wrong) => {
    words.textContent = text;
    words.className = wrong ? "finding" : "note";
    words.toggleAttribute("data-severity", wrong);
    if (wrong) words.dataset.severity = "error";
    say(text);
  };
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    input.value = ""; // the same file can be chosen again once it is mended
    if (!file) return;
    try {
      const { points, holes } = await api.readOutline(file);
      form.outline = points;
      tell(`${file.name}: ${points.length} points${holes ? `, holes: ${holes}; cut them by hand` : ""}.`, false);
      changed();
    } catch (error) {
      tell([error.message, error.remedy].filter(Boolean).join(" "), true);
    }
  });
  return () => {
    if (Array.isArray(form.outline)) words.textContent = `An outline of ${form.outline.length} points. Choose a drawing to change it.`;
  };
}
