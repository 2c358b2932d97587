// Figures that the server wrote, shown in the reader's own way.

import { figure, format, unit } from "./lengths.js";

const MINUTE_S = 60;
const DAY_S = 86400;

/**
 * Fill every `[data-mm]`, `[data-number]`, `[data-unit]` and `time[datetime]` under `root`.
 * @param {ParentNode} root
 */
export function showFigures(root) {
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-mm]"))) {
    const words = format(Number(one.dataset.mm), one.dataset.digits ? Number(one.dataset.digits) : undefined);
    one.textContent = one.dataset.alone === undefined ? words : words.replace(/\u00a0.*$/, "");
  }
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-number]"))) {
    one.textContent = figure(Number(one.dataset.number), Number(one.dataset.digits ?? 0));
  }
  for (const one of root.querySelectorAll("[data-unit]")) one.textContent = unit();
  showTimes(root);
}

/**
 * Fill every `time[datetime]` under `root`.
 * @param {ParentNode} root
 */
export function showTimes(root) {
  for (const one of /** @type {NodeListOf<HTMLTimeElement>} */ (root.querySelectorAll("time[datetime]"))) {
    const when = new Date(one.dateTime);
    if (Number.isNaN(when.getTime())) continue;
    one.textContent = since(when, new Date());
    one.title = when.toLocaleString();
  }
}

/**
 * A time as one says it: "3 minutes ago", "14:02 today", else the day.
 * @param {Date} when
 * @param {Date} now
 */
export function since(when, now) {
  const seconds = (now.getTime() - when.getTime()) / 1000;
  if (seconds < MINUTE_S) return "just now";
  if (seconds < 60 * MINUTE_S) {
    const minutes = Math.round(seconds / MINUTE_S);
    return minutes === 1 ? "1 minute ago" : `${minutes} minutes ago`;
  }
  const clock = when.toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit" });
  if (when.toDateString() === now.toDateString()) return `today ${clock}`;
  if (seconds < 2 * DAY_S && new Date(now.getTime() - DAY_S * 1000).toDateString() === when.toDateString()) {
    return `yesterday ${clock}`;
  }
  return when.toLocaleDateString(undefined, { day: "numeric", month: "short", year: "numeric" });
}
