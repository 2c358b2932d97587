// A part of a page as the server writes it now.

import { readPage } from "./call.js";

/**
 * The element of that id on that page, or null when it is not on it.
 * @param {string} page
 * @param {string} id
 * @returns {Promise<HTMLElement | null>}
 */
export async function freshPart(page, id) {
  const read = new DOMParser().parseFromString(await readPage(page), "text/html");
  const part = read.getElementById(id);
  return part ? /** @type {HTMLElement} */ (document.adoptNode(part)) : null;
}
