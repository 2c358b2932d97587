// What the server finds wrong with what a form holds, each at the field it is about.

import { mark } from "../app/fields.js";

/**
 * Mark the fields that are wrong; give back what has no field, or null.
 * @param {unknown} error
 * @param {Record<string, string>} fields id of the field by what the server calls it
 */
export function atFields(error, fields) {
  const one = /** @type {import("../app/api.js").ApiError} */ (error);
  if (!(error instanceof Error) || one.kind === "offline") return error;
  const all = one.problems?.length ? one.problems : [one];
  let left = null;
  for (const problem of all) {
    const { message, remedy, where } = /** @type {{message: string, remedy: string, where: string}} */ (problem);
    const field = /** @type {HTMLInputElement | null} */ (document.getElementById(fields[where] ?? where ?? ""));
    const told = [capital(message), remedy].filter(Boolean).join(" ");
    if (field && "value" in field && field.offsetParent) mark(field, told);
    else left ??= { message: where ? `${where}: ${message}` : message, remedy };
  }
  return left;
}

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
