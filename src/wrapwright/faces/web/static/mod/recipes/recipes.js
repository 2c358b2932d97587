// Recipes: written, changed, retired.

import { ask } from "../app/ask.js";
import { onDeeds } from "../app/deeds.js";
import { followUnit, mark, readField } from "../app/fields.js";
import { kept, places } from "../app/pressing/kept.js";
import { sayError } from "../app/say.js";
import { followTyped } from "./typed.js";
import { atFields } from "./wrong.js";

/** What the server calls the parts of a recipe whose fields are called otherwise. */
const FIELDS = {
  "wall: thickness_mm": "thickness", "wall: material": "material", "wall: double": "double",
  "limits: coating_c": "coating-limit", "limits: sleeve_c": "sleeve-limit", "limits: maker_c": "maker-limit",
  "limits: over_bake_s": "over_bake-limit",
  "limits: coating_source": "coating_source", "limits: sleeve_source": "sleeve_source",
  "limits: maker_source": "maker_source", "limits: over_bake_source": "over_bake_source",
};
const LIMITS = { coating: "coating_c", sleeve: "sleeve_c", maker: "maker_c", over_bake: "over_bake_s" };
const WORDS = ["name", "title", "source", "ware", "heater", "hold", "coating", "ink_paper", "pressure", "cool"];

const form = /** @type {HTMLFormElement | null} */ (document.getElementById("recipe-form"));
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));

if (form) begin(form);

onDeeds({
  retire: async (row) => {
    const name = row.dataset.name ?? "";
    const sure = await ask({
      title: `Retire the recipe “${name}”?`,
      words: "used" in row.dataset
        ? "It is no longer offered. What was heated with it keeps its figures, and designs that name it still find it."
        : "If nothing was ever heated with it, it is removed; else it is kept for what was, and no longer offered.",
      yes: "Retire it", grave: true,
    });
    if (!sure) return;
    await kept.retireRecipe(Number(row.dataset.recipe));
    location.assign(places.recipes);
  },
  restore: async (row) => {
    await kept.restoreRecipe(Number(row.dataset.recipe));
    location.assign(places.recipes);
  },
}, "[data-recipe]", trouble);

/** @param {HTMLFormElement} of */
function begin(of) {
  followUnit(of);
  followTyped(of);
  const keep = /** @type {HTMLButtonElement} */ (of.querySelector("#keep"));
  keep.disabled = false;
  of.addEventListener("change", () => showVacuum(of));
  of.addEventListener("submit", async (event) => {
    event.preventDefault();
    const told = /** @type {HTMLElement} */ (of.querySelector("#form-trouble"));
    told.hidden = true;
    keep.disabled = true;
    try {
      const content = await contentOf(of);
      for (const field of of.querySelectorAll("[aria-invalid]")) mark(/** @type {HTMLInputElement} */ (field), "");
      const id = Number(of.dataset.id);
      const seen = { version: Number(of.dataset.version), added: of.dataset.added || null };
      await (id ? kept.changeRecipe(id, { content, ...seen }) : kept.addRecipe({ content }));
      location.assign(places.recipes);
    } catch (error) {
      const left = atFields(error, FIELDS);
      if (left) sayError(told, left);
      /** @type {HTMLElement | null} */ (of.querySelector("[aria-invalid]"))?.focus();
    } finally {
      keep.disabled = false;
    }
  });
}

/** @param {HTMLFormElement} of */
function showVacuum(of) {
  const double = value(of, "ware") === "double-walled" || checked(of, "double");
  /** @type {HTMLElement} */ (of.querySelector("#vacuum")).hidden = !double;
}

/**
 * The recipe as the server reads it: temperatures and times as they are typed, so that it can ask about them.
 * @param {HTMLFormElement} of
 */
async function contentOf(of) {
  const content = /** @type {Record<string, unknown>} */ (Object.fromEntries(WORDS.map((one) => [one, value(of, one)])));
  content.celsius = typed(of, "celsius");
  content.seconds = typed(of, "seconds");
  content.cool_s = typed(of, "cool_s") || 0;
  content.preheat = checked(of, "preheat");
  content.lidded = checked(of, "lidded");
  content.turn_at = value(of, "turn_at").split(",").filter(Boolean).map(Number);
  const thick = await readField(/** @type {HTMLInputElement} */ (of.elements.namedItem("thickness")));
  content.wall = { material: value(of, "material"), thickness_mm: thick, double: checked(of, "double") };
  content.limits = limitsOf(of);
  return content;
}

/** @param {HTMLFormElement} of */
function limitsOf(of) {
  const limits = /** @type {Record<string, unknown>} */ ({});
  for (const [name, key] of Object.entries(LIMITS)) {
    const figure = typed(of, `${name}-limit`);
    if (!figure) continue;
    limits[key] = figure;
    limits[`${name}_source`] = value(of, `${name}_source`);
  }
  if (of.dataset.overBake) {  // a dose that trials found has no field here, and stays
    limits.over_bake = Number(of.dataset.overBake);
    limits.over_bake_source = value(of, "over_bake_source");
  }
  return limits;
}

/** @param {HTMLFormElement} of @param {string} name */
function value(of, name) {
  return /** @type {HTMLInputElement} */ (of.elements.namedItem(name)).value.trim();
}

/**
 * What is typed in a field; where nothing was typed anew, the figure itself, which its words round.
 * @param {HTMLFormElement} of
 * @param {string} name
 */
function typed(of, name) {
  const field = /** @type {HTMLInputElement} */ (of.elements.namedItem(name));
  const same = field.value && field.value === field.defaultValue;
  return (same ? JSON.parse(field.dataset.exact ?? "null") : null) ?? value(of, name);
}

/** @param {HTMLFormElement} of @param {string} name */
function checked(of, name) {
  return /** @type {HTMLInputElement} */ (of.elements.namedItem(name)).checked;
}
