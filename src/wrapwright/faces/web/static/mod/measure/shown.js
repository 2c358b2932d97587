// What the server made of the form, on the screen: drawings, words, and each problem at its field.

import { inUnit } from "../app/lengths.js";
import { say } from "../app/say.js";

const SOON_MS = 700; // before a field in hand is told what is wrong with it
const SPEAK_MS = 1400; // of rest before the drawing is said

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

export class Shown {
  /** @param {HTMLFormElement} root */
  constructor(root) {
    this.root = root;
    this.later = 0;
    this.speaking = 0;
    /** @type {any} */
    this.last = null;
    root.addEventListener("focusout", () => window.setTimeout(() => this.settle(), 0));
  }

  /** @param {any} found a MeasuredLive */
  show(found) {
    this.last = found;
    const seen = found.blank_svg !== "";
    const drawings = byId("drawings");
    // While a figure is being typed over, what was drawn last stays, dimmed: nothing jumps.
    const stale = !seen && !drawings.hidden;
    drawings.classList.toggle("m-stale", stale);
    drawings.setAttribute("aria-busy", String(stale));
    if (seen) drawings.hidden = false;
    byId("intro").hidden = !drawings.hidden;
    byId("needed").hidden = !drawings.hidden || found.needed === "";
    byId("needed").textContent = found.needed;
    byId("still").textContent = drawings.hidden ? "" : found.needed;
    if (seen) this.drawn(found);
    this.reads(found.reads);
    this.tell(found.problems, false);
    window.clearTimeout(this.later);
    this.later = window.setTimeout(() => this.settle(), SOON_MS);
    window.clearTimeout(this.speaking);
    this.speaking = window.setTimeout(() => say(found.problems.length ? `${found.problems.length} to mend. ${found.problems[0].message}` : found.needed || found.spoken), SPEAK_MS);
  }

  /** @param {any} found */
  drawn(found) {
    byId("blank-drawing").innerHTML = found.blank_svg;
    byId("flat-drawing").innerHTML = found.flat_svg;
    byId("misfit").hidden = found.misfit_svg === "";
    byId("misfit-drawing").innerHTML = found.misfit_svg;
    byId("doubt-words").textContent = found.doubt_words;
    byId("overlap-words").textContent = found.overlap_words;
    byId("figures").replaceChildren(...found.figures.map(figureRow));
    byId("doubts").replaceChildren(...found.doubts.map(doubtRow));
    const remarks = found.remarks.map((/** @type {any} */ one) => line(one.message, one.severity));
    byId("remarks").replaceChildren(...remarks, ...found.questions.map((/** @type {string} */ words) => line(words, "note")));
  }

  /** @param {{field: string, words: string}[]} reads */
  reads(reads) {
    const words = new Map(reads.map((one) => [one.field, one.words]));
    for (const one of /** @type {NodeListOf<HTMLElement>} */ (this.root.querySelectorAll("[data-read]"))) {
      const said = words.get(String(one.dataset.read)) ?? "";
      one.textContent = said && `= ${said}`;
    }
  }

  /** Tell also the field in hand. */
  settle() {
    if (this.last) this.tell(this.last.problems, true);
  }

  /**
   * @param {{field: string, message: string, remedy: string}[]} problems
   * @param {boolean} all also at the field in hand
   */
  tell(problems, all) {
    /** @type {Map<HTMLElement, string[]>} */
    const at = new Map();
    const general = [];
    for (const one of problems) {
      const words = sentence(one);
      const place = this.place(one.field);
      if (!place) general.push(words);
      else at.set(place, [...(at.get(place) ?? []), words]);
    }
    for (const place of /** @type {NodeListOf<HTMLElement>} */ (this.root.querySelectorAll("[data-problem]"))) {
      const words = at.get(place);
      if (words && !all && place.contains(document.activeElement) && !place.hasAttribute("data-wrong")) continue;
      mark(place, words);
    }
    const list = byId("problems");
    list.hidden = general.length === 0;
    list.replaceChildren(...general.map((words) => line(words, "error")));
  }

  /** The element that a problem is told at: the field's, or the nearest group's. @param {string} field */
  place(field) {
    for (let path = field; path.includes("."); path = path.slice(0, path.lastIndexOf("."))) {
      const found = [.../** @type {NodeListOf<HTMLElement>} */ (this.root.querySelectorAll(`[data-problem="${CSS.escape(path)}"]`))]
        .find((one) => !one.closest("[hidden]"));
      if (found?.querySelector(".field-wrong")) return found;
    }
    return null;
  }
}

/** @param {HTMLElement} place @param {string[] | undefined} words */
function mark(place, words) {
  const inner = [...place.querySelectorAll(".field-wrong")];
  const wrong = /** @type {HTMLElement | undefined} */ (inner.find((one) => one.closest("[data-problem]") === place));
  if (!wrong) return;
  const text = (words ?? []).join(" ");
  if (wrong.textContent !== text) wrong.textContent = text;
  wrong.hidden = !words;
  place.toggleAttribute("data-wrong", Boolean(words));
  for (const field of place.querySelectorAll("input, select")) {
    if (field.closest("[data-problem]") !== place && !place.matches("li, fieldset, .m-group")) continue;
    if (words) field.setAttribute("aria-invalid", "true");
    else if (!field.closest("[data-problem]")?.hasAttribute("data-wrong")) field.removeAttribute("aria-invalid");
  }
}

/** @param {{message: string, remedy: string}} one */
function sentence({ message, remedy }) {
  const words = remedy ? `${message} ${remedy}` : message;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** @param {string} words @param {string} severity */
function line(words, severity) {
  const made = document.createElement("p");
  made.className = "finding";
  made.dataset.severity = severity;
  made.textContent = inUnit(words);
  return made;
}

/** @param {[string, string]} row */
function figureRow([label, value]) {
  const made = document.createElement("div");
  const term = made.appendChild(document.createElement("dt"));
  term.textContent = label;
  const words = made.appendChild(document.createElement("dd"));
  words.className = "figure";
  words.textContent = value;
  return made;
}

/** @param {{what: string, half_width: string, share: number, source: string}} row */
function doubtRow({ what, half_width: half, share, source }) {
  const made = document.createElement("tr");
  const name = made.appendChild(document.createElement("th"));
  name.scope = "row";
  name.textContent = what.charAt(0).toUpperCase() + what.slice(1);
  const from = name.appendChild(document.createElement("small"));
  from.textContent = inUnit(source);
  const width = made.appendChild(document.createElement("td"));
  width.className = "figure";
  width.textContent = half;
  const bar = made.appendChild(document.createElement("td"));
  const meter = bar.appendChild(document.createElement("span"));
  meter.className = "m-share";
  meter.style.setProperty("--share", String(share));
  meter.textContent = `${Math.round(share * 100)} %`;
  return made;
}
