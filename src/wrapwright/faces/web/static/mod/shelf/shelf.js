// The shelf: search as you type, start, copy and remove, bring a design in.

import { onDeeds } from "../app/deeds.js";
import { api, pages } from "../app/api.js";
import { ask } from "../app/ask.js";
import { say, sayError } from "../app/say.js";
import { blankBack, designBack, offerBack } from "./back.js";
import { bringIn } from "./bring.js";

const all = document.getElementById("all");
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));

/**
 * Show only the rows that hold every word that is searched for.
 * @param {string} text
 */
function search(text) {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  document.getElementById("designs")?.classList.toggle("few", !words.length && all?.getAttribute("aria-expanded") === "false");
  const counts = [only("design", words), only("blank", words)];
  if (words.length) say(`${many(counts[0], "design")}, ${many(counts[1], "blank")}.`);
}

const many = (/** @type {number} */ count, /** @type {string} */ what) => `${count} ${what}${count === 1 ? "" : "s"}`;

/** @param {"design" | "blank"} kind @param {string[]} words */
function only(kind, words) {
  let shown = 0;
  const rows = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(`[data-${kind}]`));
  for (const row of rows) {
    const held = (row.dataset.words ?? "").toLowerCase();
    row.hidden = !words.every((word) => held.includes(word));
    if (!row.hidden) shown += 1;
  }
  const none = document.getElementById(`${kind}s-none`);
  if (none) none.hidden = shown > 0 || rows.length === 0;
  const count = document.getElementById(`${kind}s-count`);
  if (count) count.textContent = words.length ? `${shown} of ${rows.length}` : String(rows.length);
  return shown;
}

/** What each button of a row does. */
const deeds = {
  /** @param {HTMLElement} row */
  design: (row) => begin(Number(row.dataset.blank), row.dataset.name ?? ""),
  /** @param {HTMLElement} row */
  copy: async (row) => {
    await api.copyDesign(Number(row.dataset.design));
    location.reload();
  },
  /** @param {HTMLElement} row */
  remove: (row) => (row.dataset.design ? removeDesign(row) : removeBlank(row)),
};

/**
 * Start a design on a blank and go to it.
 * @param {number} blank
 * @param {string} name of the blank
 */
async function begin(blank, name) {
  const made = await api.newDesign({ title: `New design, ${name}`, blank_id: blank });
  location.assign(pages.compose((made.design ?? made).id));
}

/** @param {HTMLElement} row */
async function removeDesign(row) {
  const sure = await ask({
    title: `Remove “${row.dataset.title}”?`,
    words: "Its earlier revisions go for good. What was made from it stays in the history. Export it first if you may want it again.",
    yes: "Remove it", grave: true,
  });
  if (!sure) return;
  const back = await designBack(Number(row.dataset.design));
  await api.removeDesign(Number(row.dataset.design));
  gone(row, back);
}

/** @param {HTMLElement} row */
async function removeBlank(row) {
  const sure = await ask({
    title: `Take “${row.dataset.name}” off the shelf?`,
    words: "Its readings go. Designs made on it keep their own and stay as they are.",
    yes: "Take it off", grave: true,
  });
  if (!sure) return;
  const back = await blankBack(Number(row.dataset.blank));
  await api.removeBlank(Number(row.dataset.blank));
  gone(row, back);
}

onDeeds(deeds, "li", trouble);

/** @param {HTMLElement} row @param {(() => Promise<unknown>) | null} back */
function gone(row, back) {
  row.remove();
  search(field.value);
  const name = row.dataset.title ?? row.dataset.name ?? "";
  offerBack(name, back);
  say(`${name} is removed.`);
}

const first = document.getElementById("first-design");
first?.addEventListener("click", () => { begin(Number(first.dataset.on), first.dataset.name ?? "").catch((error) => sayError(trouble, error)); });

all?.addEventListener("click", () => {
  const open = all.getAttribute("aria-expanded") === "true";
  all.setAttribute("aria-expanded", String(!open));
  all.textContent = open ? `Show all ${document.querySelectorAll("[data-design]").length}` : "Show the latest";
  search(field.value);
});

const field = /** @type {HTMLInputElement} */ (document.getElementById("search"));
field.addEventListener("input", () => search(field.value));
field.form?.addEventListener("submit", (event) => event.preventDefault());
search(field.value);
bringIn(trouble);
