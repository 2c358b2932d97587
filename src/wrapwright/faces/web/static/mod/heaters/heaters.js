// Heaters and circuits: entered, changed, retired, removed.

import { ask } from "../app/ask.js";
import { onDeeds } from "../app/deeds.js";
import { mark } from "../app/fields.js";
import { kept, places } from "../app/pressing/kept.js";
import { sayError } from "../app/say.js";
import { atFields } from "../recipes/wrong.js";

const KNOWN = ["band_k", "own_j_k", "loss_w_k", "door_w_k"];
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));

const heaterForm = /** @type {HTMLFormElement | null} */ (document.getElementById("heater-form"));
const circuitForm = /** @type {HTMLFormElement | null} */ (document.getElementById("circuit-form"));
if (heaterForm) onKeep(heaterForm, "heater-trouble", keepHeater, {});
if (circuitForm) onKeep(circuitForm, "circuit-trouble", keepCircuit, { name: "circuit-name" });

onDeeds({
  retire: async (row) => {
    const sure = await ask({
      title: `Retire the heater “${row.dataset.name}”?`,
      words: "If nothing was ever heated in it or found of it, it is removed; else it is kept for what was, and no longer offered.",
      yes: "Retire it", grave: true,
    });
    if (!sure) return;
    await kept.retireHeater(Number(row.dataset.heater));
    location.assign(places.heaters);
  },
  restore: async (row) => {
    await kept.restoreHeater(Number(row.dataset.heater));
    location.assign(places.heaters);
  },
}, "[data-heater]", trouble);

onDeeds({
  remove: async (row) => {
    const sure = await ask({
      title: `Remove the circuit “${row.dataset.name}”?`,
      words: "A circuit that a heater is on stays until that heater is put on another one.",
      yes: "Remove it", grave: true,
    });
    if (!sure) return;
    await kept.removeCircuit(Number(row.dataset.circuit));
    location.assign(places.heaters);
  },
}, "[data-circuit]", trouble);

/**
 * Keep what a form holds, and say at its fields what is wrong with it.
 * @param {HTMLFormElement} form
 * @param {string} place id of the line for what has no field
 * @param {(form: HTMLFormElement) => Promise<unknown>} keep
 * @param {Record<string, string>} fields id of the field by what the server calls it, where they differ
 */
function onKeep(form, place, keep, fields) {
  const button = /** @type {HTMLButtonElement} */ (form.querySelector(".button-main"));
  const told = /** @type {HTMLElement} */ (document.getElementById(place));
  button.disabled = false;
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    told.hidden = true;
    for (const field of form.querySelectorAll("[aria-invalid]")) mark(/** @type {HTMLInputElement} */ (field), "");
    button.disabled = true;
    try {
      await keep(form);
      location.assign(places.heaters);
    } catch (error) {
      const left = atFields(error, fields);
      if (left) sayError(told, left);
      /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid]"))?.focus();
    } finally {
      button.disabled = false;
    }
  });
}

/** @param {HTMLFormElement} form */
async function keepHeater(form) {
  const more = JSON.parse(form.dataset.more ?? "{}");
  delete more.power_w;
  delete more.capacity;
  for (const key of KNOWN) {
    const figure = field(form, key).value.trim() ? figureOf(form, key) : null;
    if (figure === null) delete more[key];
    else more[key] = figure;
  }
  const heater = {
    name: nameOf(form), kind: field(form, "kind").value, power_w: figureOf(form, "power_w"),
    capacity: figureOf(form, "capacity"), circuit: Number(field(form, "circuit").value), more,
  };
  const id = Number(form.dataset.id);
  return id ? kept.changeHeater(id, heater) : kept.addHeater(heater);
}

/** @param {HTMLFormElement} form */
async function keepCircuit(form) {
  const circuit = { name: nameOf(form), volts: figureOf(form, "volts"), amps: figureOf(form, "amps") };
  const id = Number(form.dataset.id);
  return id ? kept.changeCircuit(id, circuit) : kept.addCircuit(circuit);
}

/** @param {HTMLFormElement} form @param {string} name */
function field(form, name) {
  return /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
}

/** @param {HTMLFormElement} form */
function nameOf(form) {
  const name = field(form, "name").value.trim();
  if (!name) throw wrong("Is needed, to choose it by.", "", "name");
  return name;
}

/** What may stand behind a figure, by its field. @type {Record<string, string>} */
const UNITS = { power_w: "^k?W$", volts: "^V$", amps: "^A$" };

/** @param {HTMLFormElement} form @param {string} name */
function figureOf(form, name) {
  const typed = field(form, name).value.trim();
  const found = /^(-?\d+(?:[.,]\d+)?)\s*(kW|W|V|A)?$/i.exec(typed);
  if (!found) throw wrong(typed ? `"${typed}" is no number.` : "A number is needed.", "Write it in the unit beside the field.", name);
  const [, number, unit = ""] = found;
  if (unit && !new RegExp(UNITS[name] ?? "^$", "i").test(unit)) throw wrong(`"${typed}" is in another unit.`, "Write it in the unit beside the field.", name);
  return Number(number.replace(",", ".")) * (unit.toLowerCase() === "kw" ? 1000 : 1);
}

/** @param {string} message @param {string} remedy @param {string} where */
function wrong(message, remedy, where) {
  return Object.assign(new Error(message), { kind: "unusable", remedy, where, problems: [] });
}
