// The keys of the screen. Letters work only inside the wrap, the views and the list, never while something is typed.

/** @typedef {import("./acts.js").Acts} Acts */

/** What each key does, as the list of keys shows it. */
export const KEYS = [
  ["Arrows", "move by 0.5 mm"],
  ["Shift + arrows", "move by 5 mm"],
  ["Alt + arrows", "move by 0.1 mm"],
  ["Home, End", "to the next side line"],
  ["[ and ]", "turn by 1 degree; with Shift by 15"],
  ["+ and -", "larger, smaller by 1\u00a0%; with Shift by 10\u00a0%"],
  ["Delete", "remove the copy; with Shift the whole element"],
  ["Ctrl or ⌘ + D", "duplicate"],
  ["O", "a copy exactly opposite"],
  ["Page Up, Page Down", "nearer to the front, to the back"],
  ["Ctrl or ⌘ + Z", "undo"],
  ["Shift + Ctrl or ⌘ + Z, Ctrl + Y", "redo"],
  ["T", "a tapered wrap flat, or straightened"],
  ["Z, X, 0", "nearer, farther, the whole wrap"],
  ["Space + drag", "move the view"],
  ["Escape", "select nothing"],
  ["?", "this list"],
];

const TYPING = "input:not([type=checkbox]):not([type=color]), textarea, select, [contenteditable]";
const PLACES = "wrap-canvas, turning-view, wrap-dial, [data-keys]";

/**
 * @param {Acts} acts
 * @param {{straight: () => void, keys: () => void}} more
 */
export function listenToKeys(acts, more) {
  document.addEventListener("keydown", (event) => {
    const target = /** @type {Element} */ (event.composedPath()[0]);
    if (event.defaultPrevented || document.querySelector("dialog[open]")) return;
    const typing = target instanceof Element && target.matches(TYPING);
    const command = event.ctrlKey || event.metaKey;
    const done = command
      ? commanded(event, acts, typing && halfTyped(target))
      : !typing && !event.altKey && pressed(event, acts, more, target);
    if (done) event.preventDefault();
  });
}

/** Whether a field holds what was not sent yet: then it keeps its own undo. @param {Element} field */
function halfTyped(field) {
  const { value, dataset } = /** @type {HTMLInputElement} */ (field);
  return !field.matches("select") && (dataset.shown === undefined || value !== dataset.shown);
}

/** @param {KeyboardEvent} event @param {Acts} acts @param {boolean} typing */
function commanded(event, acts, typing) {
  const key = event.key.toLowerCase();
  if (typing) return false;
  if (key === "z") return acts.step(event.shiftKey ? "redo" : "undo"), true;
  if (key === "y" && !event.shiftKey) return acts.step("redo"), true;
  if (key === "d" && !event.shiftKey) return acts.duplicate(), true;
  return false;
}

/** @param {KeyboardEvent} event @param {Acts} acts @param {any} more @param {Element} target */
function pressed(event, acts, more, target) {
  const within = (event.target instanceof Element && event.target.closest(PLACES)) || target.closest?.(PLACES);
  const letters = within ? { o: () => acts.opposite(), t: more.straight, "?": more.keys } : {};
  const others = {
    Delete: () => (event.shiftKey ? acts.removeElement() : acts.remove()),
    Backspace: () => (event.shiftKey ? acts.removeElement() : acts.remove()),
    PageUp: () => acts.order(1),
    PageDown: () => acts.order(-1),
    Escape: () => acts.bench.select([]),
  };
  const inPlace = within || event.target === document.body;
  const act = letters[event.key.toLowerCase()] ?? (inPlace ? others[event.key] : undefined);
  if (!act || ((event.key.startsWith("Page") || event.key === "Escape") && !acts.bench.selected.length)) return false;
  act();
  return true;
}
