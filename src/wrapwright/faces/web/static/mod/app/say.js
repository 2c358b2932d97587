// Words for those who listen, and for all when something deserves a line.

/**
 * Speak a sentence politely; it replaces the one before.
 * @param {string} words
 */
export function say(words) {
  const region = document.getElementById("said");
  if (!region) return;
  // The same sentence twice is only spoken twice when the region has been empty in between.
  region.textContent = "";
  window.setTimeout(() => { region.textContent = words; }, 30);
}

/**
 * Put an error's sentence and its remedy where it happened, and speak them; that the server is away, one line at the
 * top of the page says already.
 * @param {HTMLElement} place an element with role="alert", or any other
 * @param {unknown} error
 */
export function sayError(place, error) {
  const one = /** @type {{kind?: string, message?: string, remedy?: string}} */ (error);
  if (one.kind === "offline") return;
  const words = [one.message ?? String(error), one.remedy ?? ""].filter(Boolean).join(" ");
  place.textContent = words;
  place.hidden = false;
  if (place.getAttribute("role") !== "alert") say(words);
}
