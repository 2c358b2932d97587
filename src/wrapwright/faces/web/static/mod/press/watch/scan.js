// A scanner is a keyboard that types fast and ends with Enter: its letters go to the pieces, never to a button.

const GAP_MS = 700; // between two keys: long, since letters outside a field mean nothing else on this screen
const LEAST = 3;

/**
 * Hear what is scanned while no field has the focus.
 * @param {(text: string) => void} scanned
 */
export function hearScanner(scanned) {
  let text = "";
  let last = -Infinity;
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || isField(event.target)) return;
    const fast = event.timeStamp - last < GAP_MS;
    if (event.key.length === 1) {
      // Within a number the space bar would press the button that has the focus.
      if (event.key === " " && fast && text.trim()) event.preventDefault();
      text = fast ? text + event.key : event.key;
      last = event.timeStamp;
    } else if (event.key === "Enter" && fast && text.trim().length >= LEAST) {
      event.preventDefault();
      event.stopPropagation();
      scanned(text.trim());
      text = "";
      last = -Infinity;
    }
  }, { capture: true });
}

/** @param {EventTarget | null} target */
function isField(target) {
  return target instanceof HTMLElement && target.matches("input:not([type=radio]):not([type=checkbox]), select, textarea");
}
