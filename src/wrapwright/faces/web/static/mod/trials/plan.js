// The form that plans a trial.

import { followUnit, mark, readField } from "../app/fields.js";
import { bare } from "../app/lengths.js";
import { screen, trials } from "../app/pressing/trials.js";
import { sayError } from "../app/say.js";
import { atFields } from "../recipes/wrong.js";

const NUMBERS = ["name", "recipe", "wall", "celsius", "dwell", "pieces"];

/** @param {HTMLFormElement} form */
export function openPlan(form) {
  const get = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (document.getElementById(id));
  const recipe = /** @type {HTMLSelectElement} */ (document.getElementById("recipe"));
  const wall = get("wall");
  const trouble = /** @type {HTMLElement} */ (document.getElementById("plan-trouble"));
  const button = /** @type {HTMLButtonElement} */ (form.querySelector(".button-main"));
  followUnit(form);
  button.disabled = false;

  const follow = () => {
    const chosen = recipe.selectedOptions[0];
    /** @type {HTMLElement} */ (document.getElementById("recipe-range")).textContent = chosen?.dataset.range ?? "";
    wall.placeholder = chosen?.dataset.wall ? bare(Number(chosen.dataset.wall), 2) : "measured with a calliper";
  };
  const showKind = () => {
    const kind = value("kind");
    for (const one of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll("[data-kind]"))) one.hidden = one.dataset.kind !== kind;
  };
  recipe.addEventListener("change", follow);
  form.addEventListener("change", showKind);
  document.addEventListener("wrapunit", follow);
  follow();
  showKind();

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    trouble.hidden = true;
    for (const one of NUMBERS) mark(get(one), "");
    button.disabled = true;
    try {
      const told = await trials.plan(await asked());
      location.assign(screen(told.id));
    } catch (error) {
      const left = atFields(error, { "press: recipe": "recipe" });
      if (left && !form.querySelector("[aria-invalid]")) sayError(trouble, left);
      /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid]"))?.focus();
    } finally {
      button.disabled = false;
    }
  });

  async function asked() {
    const typed = get("pieces").value.trim();
    const pieces = typed ? Number(typed) : null;
    if (pieces !== null && !Number.isInteger(pieces)) {
      throw Object.assign(new Error(`“${typed}” is no whole number.`), { where: "pieces", remedy: "Leave it empty for the fewest that do." });
    }
    return {
      name: get("name").value.trim() || " ", recipe: recipe.value, kind: value("kind"),
      heater_id: Number(get("heater").value), wall_mm: await readField(wall),
      celsius: list(get("celsius").value), seconds: list(get("dwell").value), pieces,
      one_by_one: value("order") === "one", within: Number(get("within").value), sure: Number(get("sure").value),
    };
  }

  /** @param {string} name of a group of radio buttons */
  function value(name) {
    return /** @type {HTMLInputElement | null} */ (form.querySelector(`[name="${name}"]:checked`))?.value ?? "";
  }
}

/** @param {string} text @returns {string[]} what stands between its commas, semicolons and "and"s */
function list(text) {
  return text.split(/[;,]|\band\b/).map((one) => one.trim()).filter(Boolean);
}
