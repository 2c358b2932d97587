// What was typed and not kept yet, held in this tab: a reload brings it back.

/** @typedef {{name: string, tables: import("./form.js").Tables, newest: number}} Draft */

const KEY = `measure ${location.pathname}${location.search}`;

/** @param {Draft} draft */
export function holdDraft(draft) {
  try { sessionStorage.setItem(KEY, JSON.stringify(draft)); } catch { /* A full or closed storage: the form works without. */ }
}

export function dropDraft() {
  try { sessionStorage.removeItem(KEY); } catch { /* as above */ }
}

/**
 * What stood in the form before this page was loaded again; null on a first visit, or where newer readings were kept since.
 * @param {number} newest the version that the page starts from
 * @returns {Draft | null}
 */
export function heldDraft(newest) {
  const way = /** @type {PerformanceNavigationTiming | undefined} */ (performance.getEntriesByType("navigation")[0])?.type;
  if (way !== "reload" && way !== "back_forward") dropDraft();
  try {
    const draft = JSON.parse(sessionStorage.getItem(KEY) ?? "null");
    return draft?.newest === newest ? draft : null;
  } catch {
    return null;
  }
}
