// Fields for lengths: shown in the chosen unit, read by the server, wrong ones marked where they stand.

import { api } from "./api.js";
import { bare, unit } from "./lengths.js";

/**
 * Let every `input[data-length]` under `root` follow the unit switch; `data-length` holds what stands in it, in mm.
 * @param {HTMLElement} root
 */
export function followUnit(root) {
  for (const field of fields(root)) show(field);
  document.addEventListener("wrapunit", async (event) => {
    const to = /** @type {CustomEvent} */ (event).detail.unit;
    for (const field of fields(root)) {
      const typed = field.value.trim();
      if (typed && typed !== field.dataset.shown) {
        // Typed in the old unit and not read yet.
        try { field.dataset.length = String((await api.length(typed, to === "in" ? "mm" : "in")).mm); } catch { continue; }
      }
      if (typed) show(field);
    }
  });
}

/**
 * Millimetres of a field, or null when it is empty; what is wrong with it is shown at the field and thrown.
 * @param {HTMLInputElement} field
 * @returns {Promise<number | null>}
 */
export async function readField(field) {
  const typed = field.value.trim();
  if (!typed || (typed === field.dataset.shown && field.dataset.length)) {
    mark(field, "");
    return typed ? Number(field.dataset.length) : null;
  }
  try {
    const { mm } = await api.length(typed, unit());
    field.dataset.length = String(mm);
    mark(field, "");
    return mm;
  } catch (error) {
    const one = /** @type {import("./api.js").ApiError} */ (error);
    if (one.kind !== "offline") mark(field, [one.message, one.remedy].filter(Boolean).join(" "));
    throw error;
  }
}

/**
 * Mark a field as wrong and say why under it; "" takes the mark away.
 * @param {HTMLInputElement} field
 * @param {string} words
 */
export function mark(field, words) {
  const place = document.getElementById(`${field.id}-wrong`);
  if (words) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
  if (!place) return;
  place.textContent = words;
  place.hidden = !words;
}

/** @param {HTMLElement} root */
function fields(root) {
  return /** @type {HTMLInputElement[]} */ ([...root.querySelectorAll("input[data-length]")]);
}

/** @param {HTMLInputElement} field */
function show(field) {
  if (!field.dataset.length) return;
  field.value = bare(Number(field.dataset.length), Number(field.dataset.digits ?? 2));
  field.dataset.shown = field.value;
}
