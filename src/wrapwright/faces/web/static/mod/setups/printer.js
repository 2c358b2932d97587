// A set-up's printer: its address kept, asked what it is, and its paper and margins taken into the form.

import { api } from "../app/api.js";
import { mark } from "../app/fields.js";
import { bare, format, inUnit } from "../app/lengths.js";
import { say } from "../app/say.js";
import { finding, made } from "../sheet/dom.js";

const SIDES = ["top", "right", "bottom", "left"];
const SHOWN = 8;

/** @param {HTMLFormElement} form @param {() => void} paperChanged */
export function printerPart(form, paperChanged) {
  const address = /** @type {HTMLInputElement | null} */ (document.getElementById("printer-address"));
  const button = /** @type {HTMLButtonElement} */ (document.getElementById("printer-ask"));
  const place = /** @type {HTMLElement} */ (document.getElementById("printer-seen"));
  if (!address) return;
  const setup = Number(form.dataset.id);
  let kept = address.value;

  const ask = async () => {
    const wished = address.value.trim();
    mark(address, wished || kept ? "" : "Type the printer's address.");
    if (!wished && !kept) return;
    button.disabled = true;
    place.replaceChildren(made("p", "Asking the printer …", "note"));
    try {
      if (wished !== kept) kept = address.value = (await api.setPrinter(setup, wished)).address;
      if (kept) show(await api.setupPrinter(setup));
      else place.replaceChildren(made("p", "This set-up has no printer now.", "note"));
    } catch (error) {
      place.replaceChildren();
      const { message, remedy = "", kind } = /** @type {import("../app/api.js").ApiError} */ (error);
      if (kind !== "offline") mark(address, [message, remedy].filter(Boolean).join(" "));
      address.focus();
    } finally {
      button.disabled = false;
    }
  };

  /** @param {any} seen what `api.setupPrinter` gives */
  const show = (seen) => {
    const size = { true: ["It can leave the size as it is.", "ok"], false: ["It cannot leave the size as it is: wraps made with it will not fit.", "error"] };
    const [words, severity] = size[/** @type {"true" | "false"} */ (String(seen.actual_size))]
      ?? ["It does not say whether it leaves the size as it is: measure the check bars of the first sheet.", "warning"];
    const papers = made("ul", "", "printer-papers");
    papers.append(...seen.papers.slice(0, SHOWN).map(paper));
    place.replaceChildren(made("p", `${seen.name}: ${seen.words}.`), finding(words, severity), papers);
  };

  /** @param {any} one a paper @returns {HTMLElement} */
  const paper = (one) => {
    const row = made("li");
    row.append(made("span", inUnit(one.words)));
    const margins = one.margins_mm && `cannot reach ${SIDES.map((side, at) => `${side} ${format(one.margins_mm[at])}`).join(", ")}`;
    row.append(made("span", [one.loaded ? "in the printer" : "", margins || "margins not said"].filter(Boolean).join(" · "), "note"));
    const take = made("button", "Take it", "button");
    take.type = "button";
    take.setAttribute("aria-label", `Take ${one.words} with its margins`);
    take.addEventListener("click", () => taken(one));
    row.append(take);
    return row;
  };

  /** @param {any} one */
  const taken = (one) => {
    const field = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
    field("paper").value = one.paper && [...form.querySelectorAll("#paper option")].some((option) => /** @type {HTMLOptionElement} */ (option).value === one.paper) ? one.paper : "size";
    put(field("paper-width"), one.width_mm);
    put(field("paper-height"), one.height_mm);
    (one.margins_mm ?? []).forEach((/** @type {number} */ mm, /** @type {number} */ at) => put(field(`margin-${SIDES[at]}`), mm));
    paperChanged();
    say(`${one.words} and its margins stand in the form. Keep the changes.`);
  };

  button.addEventListener("click", ask);
  address.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    ask();
  });
}

/** @param {HTMLInputElement} field @param {number} mm */
function put(field, mm) {
  field.dataset.length = String(mm);
  field.value = field.dataset.shown = bare(mm, Number(field.dataset.digits ?? 2));
  mark(field, "");
}
