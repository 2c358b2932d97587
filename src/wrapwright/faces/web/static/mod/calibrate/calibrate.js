// Calibrating: two lengths become a scale as they are typed; a measurement is kept or removed.

import { api, pages } from "../app/api.js";
import { ask } from "../app/ask.js";
import { followUnit, mark, readField } from "../app/fields.js";
import { figure, inUnit } from "../app/lengths.js";
import { sayError } from "../app/say.js";

/** @template {HTMLElement} T @param {string} id @returns {T} */
const get = (id) => /** @type {T} */ (document.getElementById(id));
const field = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (get(id));
const AXES = ["across", "along"];
const form = get("measured");
const setup = Number(get("calibrate").dataset.setup);
const keep = /** @type {HTMLButtonElement} */ (get("keep"));

followUnit(form);
keep.disabled = false;

/** @returns {Promise<(number | null)[]>} the two lengths as typed, in mm */
async function lengths() {
  const found = [];
  for (const axis of AXES) found.push(await readField(field(axis)));
  return found;
}

/** Say what the typed lengths come to. */
async function showScale() {
  const said = get("said-scale");
  const division = Number(field("division").value);
  const words = [];
  for (const axis of AXES) {
    const asked = Number(said.dataset[axis]);
    let measured = null;
    try { measured = await readField(field(axis)); } catch { continue; }
    if (measured && asked && Math.abs(measured / asked - 1) < 0.1) words.push(`${axis} ${figure(measured / asked, 4)} ± ${figure(division / asked, 4)}`);
  }
  said.textContent = words.length ? `Scale ${words.join(", ")}.` : "";
}
form.addEventListener("change", () => void showScale());

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  get("form-trouble").hidden = true;
  for (const one of [...AXES, "day"]) mark(field(one), "");
  keep.disabled = true;
  try {
    const measured = await lengths();
    const missing = AXES.find((_, at) => measured[at] === null);
    if (missing) {
      mark(field(missing), `Measure the line ${missing} too: both are needed.`);
      return;
    }
    await api.addScale(setup, {
      measured_mm: /** @type {number[]} */ (measured), division_mm: Number(field("division").value),
      day: field("day").value || null, note: field("note").value,
    });
    location.assign(pages.calibrate(setup));
  } catch (error) {
    tell(error);
  } finally {
    keep.disabled = false;
    /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid]"))?.focus();
  }
});

/** Put what the server says at the field it is about, the rest below the form. @param {unknown} error */
function tell(error) {
  const told = /** @type {any} */ (error);
  const places = { across: "across", along: "along", date: "day" };
  const left = (told.problems?.length ? told.problems : [told]).filter((/** @type {any} */ one) => {
    const place = places[/** @type {keyof typeof places} */ (one.where)];
    if (place) mark(field(place), sentence(one));
    return !place;
  });
  if (left.length && !form.querySelector("[aria-invalid]")) sayError(get("form-trouble"), left[0]);
}

/** @param {{message: string, remedy?: string}} told */
function sentence(told) {
  const words = inUnit([told.message, told.remedy].filter(Boolean).join(" "));
  return words.charAt(0).toUpperCase() + words.slice(1);
}

document.addEventListener("click", async (event) => {
  const button = /** @type {HTMLElement} */ (event.target).closest("button[data-deed=remove]");
  const row = /** @type {HTMLElement | null} */ (button?.closest("[data-entry]") ?? null);
  if (!row) return;
  const sure = await ask({
    title: `Remove the measurement of ${row.dataset.day}?`,
    words: "The set-up then prints with the newest of the others; sheets that were made keep theirs.",
    yes: "Remove it", grave: true,
  });
  if (!sure) return;
  try {
    await api.removeScale(setup, Number(row.dataset.entry));
    location.assign(pages.calibrate(setup));
  } catch (error) {
    sayError(get("trouble"), error);
  }
});
