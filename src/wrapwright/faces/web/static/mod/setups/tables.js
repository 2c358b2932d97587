// The form read into a job's tables [sheet] and [colour].

import { mark, readField } from "../app/fields.js";
import { ApiError } from "../app/api.js";

const SIDES = ["top", "right", "bottom", "left"];
const written = (/** @type {number} */ mm) => `${Number(mm.toFixed(6))} mm`;

/**
 * @param {HTMLFormElement} form
 * @returns {Promise<Record<string, unknown>>}
 */
export async function sheetOf(form) {
  /** @type {Record<string, unknown>} */
  const sheet = { paper: await paperOf(form), margins: [], ppi: whole(form, "ppi"), grain: field(form, "grain").value };
  const margins = [];
  for (const side of SIDES) margins.push(written(await needed(form, `margin-${side}`)));
  sheet.margins = margins;
  sheet.thickness = written(await needed(form, "thickness"));
  const scale = await scaleOf(form);
  if (scale) sheet.scale = scale;
  return sheet;
}

/** @param {HTMLFormElement} form */
export function colourOf(form) {
  const route = /** @type {RadioNodeList} */ (form.elements.namedItem("route")).value;
  if (route !== "convert") return { route };
  const limit = field(form, "ink_limit").value.trim();
  return {
    route,
    ...(form.dataset.profileName ? { profile: form.dataset.profileName } : {}),
    intent: field(form, "intent").value,
    black_point: /** @type {HTMLInputElement} */ (field(form, "black_point")).checked,
    ...(limit ? { ink_limit: Number(limit.replace(",", ".").replace("%", "")) || limit } : {}),
  };
}

/** @param {HTMLFormElement} form */
async function paperOf(form) {
  const chosen = field(form, "paper").value;
  if (chosen === "roll") return { roll: written(await needed(form, "paper-width")) };
  if (chosen === "size") return [written(await needed(form, "paper-width")), written(await needed(form, "paper-height"))];
  return chosen;
}

/** @param {HTMLFormElement} form */
async function scaleOf(form) {
  const said = /** @type {HTMLElement} */ (form.querySelector("#scale-said"));
  const across = await readField(field(form, "measured-across"));
  const along = await readField(field(form, "measured-along"));
  if (across === null && along === null) return null;
  if (across === null || along === null) {
    throw wrong(field(form, across === null ? "measured-across" : "measured-along"), "Measure both sides, or leave both empty.");
  }
  return [across / Number(said.dataset.across), along / Number(said.dataset.along)].map((one) => Number(one.toFixed(4)));
}

/** @param {HTMLFormElement} form @param {string} name */
async function needed(form, name) {
  const one = field(form, name);
  const mm = await readField(one);
  if (mm === null) throw wrong(one, "A length is needed here.");
  return mm;
}

/** @param {HTMLFormElement} form @param {string} name */
function whole(form, name) {
  const text = field(form, name).value.trim();
  return /^\d+$/.test(text) ? Number(text) : text;
}

/** @param {HTMLInputElement} one @param {string} message */
function wrong(one, message) {
  mark(one, message);
  return new ApiError(0, { kind: "unusable", message });
}

/** @param {HTMLFormElement} form @param {string} name */
function field(form, name) {
  return /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
}
