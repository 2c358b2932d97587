// What the server finds wrong with a set-up, each at the field it is about.

import { mark } from "../app/fields.js";

/** @type {[RegExp, string][]} */
const FIELDS = [
  [/^name\b/, "name"],
  [/^sheet: paper\b/, "paper"],
  [/^sheet: margins\b/, "margin-top"],
  [/^sheet: ppi\b/, "ppi"],
  [/^sheet: thickness\b/, "thickness"],
  [/^sheet: grain\b/, "grain"],
  [/^sheet: scale\b/, "measured-across"],
  [/^colour: profile\b/, "profile-file"],
  [/^colour: ink_limit\b/, "ink_limit"],
];

/**
 * Mark the fields that are wrong; give back what has no field, or null.
 * @param {unknown} error
 */
export function atFields(error) {
  const one = /** @type {import("../app/api.js").ApiError} */ (error);
  if (!(error instanceof Error) || one.kind === "offline") return error;
  if (document.querySelector("#setup-form [aria-invalid]")) return null;
  const all = one.problems?.length ? one.problems : [one];
  let left = null;
  for (const problem of all) {
    const { message, remedy, where } = /** @type {{message: string, remedy: string, where: string}} */ (problem);
    const found = FIELDS.find(([pattern]) => pattern.test(where ?? ""));
    const field = found && /** @type {HTMLInputElement | null} */ (document.getElementById(found[1]));
    if (field && field.offsetParent) mark(field, [message, remedy].filter(Boolean).join(" "));
    else left ??= { message, remedy };
  }
  return left;
}
