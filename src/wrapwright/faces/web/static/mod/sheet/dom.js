// Small parts of the page, made of words.

/** @param {string} id @returns {any} */
export const byId = (id) => document.getElementById(id);

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} kind @param {string} [words] @param {string} [look]
 * @returns {HTMLElementTagNameMap[K]}
 */
export function made(kind, words = "", look = "") {
  const one = document.createElement(kind);
  if (words) one.textContent = words;
  if (look) one.className = look;
  return one;
}

/** @param {string} words @param {string} severity */
export function finding(words, severity) {
  const one = made("p", words, "finding");
  one.dataset.severity = severity;
  return one;
}

/** @param {number} count */
export function size(count) {
  if (count < 1000) return `${count} bytes`;
  return count < 1e6 ? `${Math.round(count / 1000)} kB` : `${(count / 1e6).toFixed(1)} MB`;
}
