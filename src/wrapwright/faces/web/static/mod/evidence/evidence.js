// The screen of one heater: readings, logs, recipes and maps looked at and kept; evidence removed.

import { ask } from "../app/ask.js";
import { evidence } from "../app/pressing/evidence.js";
import { sayError } from "../app/say.js";
import { logForm } from "./log.js";
import { mapForm } from "./map.js";
import { form, gathered, get, given, typed } from "./parts.js";
import { tabs } from "./tabs.js";

const heater = Number(get("heater").dataset.heater);
const anew = () => location.assign(evidence.page(heater));

form(/** @type {HTMLFormElement} */ (get("readings")), {
  send: (keep) => evidence.readings(heater, {
    set_c: typed("r-set"), read_c: ["r-1", "r-2", "r-3"].map(typed).filter(Boolean), step_k: typed("r-step"),
    class_k: given("r-class"), ...gathered("r"), keep,
  }),
  places: { set: "r-set", readings: "r-1", step: "r-step", class: "r-class", date: "r-day" },
  done: anew,
});

form(/** @type {HTMLFormElement} */ (get("known")), {
  send: (keep) => evidence.recipe(heater, {
    recipe: typed("k-recipe"), set_c: given("k-set"), dwell_s: given("k-dwell"), wall_mm: given("k-wall"), ...gathered("k"), keep,
  }),
  places: { at: "k-set", dwell: "k-dwell", wall: "k-wall", date: "k-day" },
  done: anew,
});

logForm(heater, anew);
if (document.getElementById("map")) mapForm(heater, anew);
tabs(/** @type {HTMLElement} */ (document.querySelector("#adding [role=tablist]")));

document.addEventListener("click", async (event) => {
  const button = /** @type {HTMLElement} */ (event.target).closest("button[data-deed=remove]");
  const row = /** @type {HTMLElement | null} */ (button?.closest("[data-evidence]") ?? null);
  if (!row) return;
  const sure = await ask({
    title: `Remove the evidence of ${row.dataset.day}?`,
    words: "The heater then goes by the newest of the rest; heats that were recorded keep what they were planned with.",
    yes: "Remove it", grave: true,
  });
  if (!sure) return;
  try {
    await evidence.drop(heater, Number(row.dataset.evidence));
    anew();
  } catch (error) {
    sayError(get("trouble"), error);
  }
});
