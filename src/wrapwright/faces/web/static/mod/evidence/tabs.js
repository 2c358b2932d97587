// One form at a time: tabs that arrow keys walk; the address keeps which one is open.

/** @param {HTMLElement} list the element with role="tablist" */
export function tabs(list) {
  const every = /** @type {HTMLButtonElement[]} */ ([...list.querySelectorAll("[role=tab]")]);
  const panel = (/** @type {HTMLElement} */ tab) => document.getElementById(tab.getAttribute("aria-controls") ?? "");

  /** @param {HTMLButtonElement} chosen */
  function open(chosen) {
    for (const tab of every) {
      const on = tab === chosen;
      tab.setAttribute("aria-selected", String(on));
      tab.tabIndex = on ? 0 : -1;
      const own = panel(tab);
      if (own) own.hidden = !on;
    }
  }

  list.addEventListener("click", (event) => {
    const tab = /** @type {HTMLButtonElement | null} */ (/** @type {HTMLElement} */ (event.target).closest("[role=tab]"));
    if (!tab) return;
    open(tab);
    history.replaceState(null, "", `#${tab.getAttribute("aria-controls")}`);
  });
  list.addEventListener("keydown", (event) => {
    const at = every.indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: every.length - 1 }[event.key];
    if (at < 0 || to === undefined) return;
    event.preventDefault();
    const tab = every[(to + every.length) % every.length];
    if (!tab) return;
    open(tab);
    tab.focus();
  });
  list.hidden = false;
  for (const tab of every) {
    const own = panel(tab);
    own?.setAttribute("role", "tabpanel");
    own?.setAttribute("aria-labelledby", tab.id);
  }
  const wanted = every.find((one) => `#${one.getAttribute("aria-controls")}` === location.hash);
  const first = wanted ?? every[0];
  if (first) open(first);
}
