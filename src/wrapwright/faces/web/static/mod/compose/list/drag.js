// Rows dragged to another place in their list, by mouse, pen or finger; the keyboard and buttons do the same.

const FAR_PX = 5;

/**
 * Let the rows of a list be dragged by their grips. Rows stand front to back and carry their index in the document.
 * @param {HTMLElement} list
 * @param {(from: number, to: number) => void} dropped
 */
export function draggable(list, dropped) {
  list.addEventListener("pointerdown", (event) => {
    const grip = /** @type {HTMLElement} */ (event.target).closest(".element-grip");
    const row = /** @type {HTMLElement|null} */ (grip?.closest("li[data-row]"));
    if (!row || event.button !== 0) return;
    event.preventDefault();
    follow(list, row, event, dropped);
  });
}

/** @param {HTMLElement} list @param {HTMLElement} row @param {PointerEvent} start */
function follow(list, row, start, dropped) {
  const rows = /** @type {HTMLElement[]} */ ([...list.querySelectorAll(":scope > li[data-row]")]);
  let target = rows.indexOf(row);
  const began = target;
  const stop = new AbortController();
  const clear = () => {
    stop.abort();
    row.classList.remove("is-dragged");
    rows.forEach((one) => one.classList.remove("is-before", "is-after"));
  };
  const move = (/** @type {PointerEvent} */ event) => {
    if (Math.abs(event.clientY - start.clientY) < FAR_PX) return;
    row.classList.add("is-dragged");
    const below = rows.findIndex((one) => event.clientY < one.getBoundingClientRect().bottom);
    target = below < 0 ? rows.length - 1 : below;
    rows.forEach((one, at) => {
      one.classList.toggle("is-before", at === target && target < began);
      one.classList.toggle("is-after", at === target && target > began);
    });
  };
  const end = () => {
    clear();
    if (target !== began) dropped(Number(row.dataset.row), Number(rows[target].dataset.row));
  };
  const on = (name, act) => document.addEventListener(name, act, { signal: stop.signal });
  on("pointermove", move);
  on("pointerup", end);
  on("pointercancel", clear);
  on("keydown", (event) => { if (event.key === "Escape") clear(); });
}
