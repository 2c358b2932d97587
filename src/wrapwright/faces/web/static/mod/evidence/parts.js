// What every form of evidence does alike: fields read, answers shown, wrong ones marked, kept and shown anew.

import { mark } from "../app/fields.js";
import { say, sayError } from "../app/say.js";

/** @template {HTMLElement} T @param {string} id @returns {T} */
export const get = (id) => /** @type {T} */ (document.getElementById(id));
/** @param {string} id what is typed there */
export const typed = (id) => /** @type {HTMLInputElement} */ (get(id)).value.trim();
/** @param {string} id what is typed there, null for nothing */
export const given = (id) => typed(id) || null;
/** @param {string} name of the form's own fields */
export const gathered = (name) => ({ day: given(`${name}-day`), note: typed(`${name}-note`) });

/** @typedef {{where?: string, message: string, remedy?: string, kind?: string, problems?: any[]}} Wrong */
/** @typedef {{kind: string, words: string[], estimates?: any[], untold?: any[], plot?: string, evidence: number}} Told */

/**
 * Let a form be looked at (button "look") and kept (button "keep").
 * @param {HTMLFormElement} form
 * @param {{send: (keep: boolean) => Promise<Told>, places: Record<string, string>, done: () => void, seen?: () => void}} how
 *   `places`: what an answer is about -> the field that it is marked at
 */
export function form(form, { send, places, done, seen = () => {} }) {
  const trouble = /** @type {HTMLElement} */ (form.querySelector("[data-trouble]"));
  const result = /** @type {HTMLElement} */ (form.querySelector("[data-result]"));
  const deeds = /** @type {HTMLButtonElement[]} */ ([...form.querySelectorAll("button[name]")]);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const keep = /** @type {HTMLButtonElement | null} */ (event.submitter)?.name === "keep";
    trouble.hidden = true;
    for (const field of form.querySelectorAll("[aria-invalid]")) mark(/** @type {HTMLInputElement} */ (field), "");
    const were = deeds.map((one) => one.disabled);
    for (const one of deeds) one.disabled = true;
    form.setAttribute("aria-busy", "true");
    let told = null;
    try {
      told = await send(keep);
    } catch (error) {
      result.replaceChildren();
      tell(form, trouble, places, /** @type {Wrong} */ (error));
    } finally {
      deeds.forEach((one, at) => { one.disabled = were[at] ?? false; });
      form.removeAttribute("aria-busy");
    }
    if (!told) return;
    if (keep) { done(); return; }
    result.replaceChildren(...shown(told));
    say(told.words[0] ?? "Nothing is told.");
    seen();
  });
}

/** @param {HTMLFormElement} form @param {HTMLElement} trouble @param {Record<string, string>} places @param {Wrong} error */
function tell(form, trouble, places, error) {
  const every = error.problems?.length ? error.problems : [error];
  const left = every.filter((/** @type {Wrong} */ one) => {
    const place = places[one.where ?? ""];
    if (place) mark(/** @type {HTMLInputElement} */ (get(place)), [one.message, one.remedy].filter(Boolean).join(" "));
    return !place;
  });
  if (left.length) sayError(trouble, left[0]);
  else /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid]"))?.focus();
}

/** @param {Told} told @returns {HTMLElement[]} */
function shown(told) {
  const made = [];
  if (told.estimates?.length) made.push(figures(told.estimates));
  for (const one of told.untold ?? []) made.push(finding(`Not told: ${one.title.toLowerCase()}; ${one.why}`, "warning"));
  if (told.plot) made.push(plot(told.plot));
  const skip = told.estimates ? told.estimates.length + (told.untold?.length ?? 0) : 0;
  for (const one of told.words.slice(skip)) made.push(finding(one, made.length ? "note" : "ok"));
  return made;
}

/** @param {{title: string, value: number, low: number, high: number, unit: string}[]} estimates */
function figures(estimates) {
  const table = element("table", "rows ev-estimates");
  const head = element("tr");
  for (const one of ["What", "Value", "95 % interval"]) {
    const cell = element("th", "", one);
    cell.setAttribute("scope", "col");
    head.append(cell);
  }
  const top = element("thead");
  top.append(head);
  const body = element("tbody");
  for (const one of estimates) {
    const row = element("tr");
    const first = element("th", "", one.title);
    first.setAttribute("scope", "row");
    const unit = one.unit.replace("m2", "m²").replace(/^C$/, "°C");
    row.append(first, element("td", "figure", `${digits(one.value, one)} ${unit}`));
    row.append(element("td", "", `${digits(one.low, one)} to ${digits(one.high, one)}`));
    body.append(row);
  }
  table.append(top, body);
  return table;
}

/** @param {number} value @param {{low: number, high: number}} one enough digits to tell the ends apart */
function digits(value, one) {
  const wide = Math.abs(one.high - one.low);
  return value.toFixed(wide < 0.2 ? 2 : wide < 20 ? 1 : 0);
}

/** @param {string} svg made by our own server, from figures alone */
function plot(svg) {
  const box = element("div", "ev-scroll");
  box.tabIndex = 0;
  box.setAttribute("role", "region");
  box.setAttribute("aria-label", "The log with its fit");
  const made = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  box.append(document.importNode(made, true));
  return box;
}

/** @param {string} words @param {string} severity */
function finding(words, severity) {
  const made = element("p", "finding", words);
  made.dataset.severity = severity;
  return made;
}

/** @param {string} kind @param {string} [look] @param {string} [words] */
export function element(kind, look = "", words = "") {
  const made = document.createElement(kind);
  if (look) made.className = look;
  if (words) made.textContent = words;
  return made;
}
