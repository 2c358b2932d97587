// The history: follows what is being made, makes again, stops and removes.

import { onDeeds } from "../app/deeds.js";
import { api, pages } from "../app/api.js";
import { ask } from "../app/ask.js";
import { freshPart } from "../app/fresh.js";
import { showFigures } from "../app/figures.js";
import { say } from "../app/say.js";
import { Printing } from "../print/printing.js";

const EACH_MS = 1000;
const RUNNING = ["waiting", "making"];
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));
const rows = () => /** @type {HTMLElement[]} */ ([...document.querySelectorAll("[data-made]")]);
const isRunning = (/** @type {HTMLElement} */ row) => RUNNING.includes(row.dataset.state ?? "");

/** Ask how far things are, as long as something runs and somebody looks. */
async function follow() {
  for (const row of rows().filter(isRunning)) {
    const now = await api.made(Number(row.dataset.made));
    if (now.state !== row.dataset.state) await renew(row);
    else show(row, now);
  }
}

/** @param {HTMLElement} row @param {{words: string, share: number}} now */
function show(row, now) {
  const bar = row.querySelector("progress");
  if (bar) bar.value = now.share;
  const words = row.querySelector("[data-words]");
  if (words && now.words && words.textContent !== now.words) words.textContent = now.words;
}

/**
 * Put the row in as the server writes it now.
 * @param {HTMLElement} row
 */
async function renew(row) {
  const fresh = await freshPart(pages.history, row.id);
  if (!fresh) return;
  const held = row.contains(document.activeElement);
  row.replaceWith(fresh);
  showFigures(fresh);
  const state = fresh.querySelector(".made-state")?.textContent ?? "";
  say(`${fresh.dataset.title}: ${state}.`);
  const more = fresh.querySelector("details");
  if (more && !isRunning(fresh)) more.open = true;
  if (held) /** @type {HTMLElement | null} */ (fresh.querySelector("a, button"))?.focus();
}

/** What each button does. */
const deeds = {
  /** @param {HTMLElement} row */
  again: async (row) => {
    const made = await api.make({
      design: Number(row.dataset.design), revision: Number(row.dataset.revision),
      output: row.dataset.output ?? "pdf", accept: (row.dataset.accept ?? "").split(" ").filter(Boolean),
    });
    const fresh = await freshPart(pages.history, `made-${made.id}`);
    if (!fresh) return;
    row.parentElement?.prepend(fresh);
    showFigures(fresh);
    say(`${row.dataset.title} is being made again.`);
    fresh.querySelector("button")?.focus();
  },
  /** @param {HTMLElement} row */
  print: async (row) => {
    const place = /** @type {HTMLElement} */ (row.querySelector("[data-print]"));
    place.querySelector("button")?.remove();
    await new Printing(place, Number(row.dataset.made)).open();
    /** @type {HTMLElement | null} */ (place.querySelector("select, a"))?.focus();
  },
  /** @param {HTMLElement} row */
  stop: async (row) => {
    await api.stopMaking(Number(row.dataset.made));
    await renew(row);
  },
  /** @param {HTMLElement} row */
  remove: async (row) => {
    const sure = await ask({
      title: `Remove what was made of “${row.dataset.title}”?`,
      words: "Its sheets, ticket, proof and report are deleted here. The design stays, and can make them again.",
      yes: "Remove it", grave: true,
    });
    if (!sure) return;
    await api.removeMade(Number(row.dataset.made));
    const next = /** @type {HTMLElement | null} */ (row.nextElementSibling ?? row.previousElementSibling);
    row.remove();
    say(`${row.dataset.title} is removed from the history.`);
    if (next) /** @type {HTMLElement | null} */ (next.querySelector("a, button"))?.focus();
    else location.reload();
  },
};

onDeeds(deeds, "[data-made]", trouble);

/** What was asked for in another tab or at another station comes in when somebody looks again. */
document.addEventListener("visibilitychange", async () => {
  if (document.hidden || location.search) return;
  try {
    const newest = Math.max(0, ...(await api.madeList()).map((/** @type {{id: number}} */ one) => one.id));
    if (newest <= Math.max(0, ...rows().map((row) => Number(row.dataset.made)))) return;
    const list = document.getElementById("made");
    const fresh = list && (await freshPart(pages.history, "made"));
    if (!list || !fresh) location.reload();
    else {
      list.replaceWith(fresh);
      showFigures(fresh);
    }
  } catch {
    // The line about the server says it.
  }
});

async function tick() {
  try {
    if (!document.hidden && rows().some(isRunning)) await follow();
  } catch {
    // The line about the server says it; the next second asks again.
  }
  window.setTimeout(tick, EACH_MS);
}
window.setTimeout(tick, EACH_MS);
