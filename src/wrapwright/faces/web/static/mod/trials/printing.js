// What the coupons are printed on: the picture and the file follow the fields.

import { followUnit, mark, readField } from "../app/fields.js";
import { call } from "../app/call.js";
import { trials } from "../app/pressing/trials.js";
import { sayError } from "../app/say.js";

const LENGTHS = ["width", "height", "length"];

/** @param {HTMLFormElement} form @param {number} id of the trial */
export function openPrint(form, id) {
  const get = (/** @type {string} */ name) => /** @type {HTMLInputElement | null} */ (document.getElementById(name));
  const picture = /** @type {HTMLImageElement} */ (document.querySelector("[data-picture]"));
  const links = /** @type {HTMLAnchorElement[]} */ ([document.getElementById("t-paper"), document.getElementById("t-file")]);
  const trouble = /** @type {HTMLElement} */ (document.getElementById("print-trouble"));
  followUnit(form);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", () => void follow());
  void follow();

  async function follow() {
    trouble.hidden = true;
    /** @type {Record<string, unknown>} */
    const how = { setup: get("setup")?.value, spares: get("spares")?.value.trim() };
    for (const name of LENGTHS) {
      const field = get(name);
      if (!field) continue;
      try { how[name] = await readField(field); } catch { return; }
    }
    const spares = get("spares");
    if (spares) mark(spares, /^[0-9]*$/.test(spares.value.trim()) ? "" : "Type a whole number.");
    if (form.querySelector("[aria-invalid]")) return;
    const shown = trials.pictureUrl(id, how);
    try {
      await call("GET", shown);
    } catch (error) {
      sayError(trouble, error);
      return;
    }
    picture.src = shown;
    for (const link of links) link.href = trials.fileUrl(id, how);
  }
}
