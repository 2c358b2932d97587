// Set-ups: added, changed and removed; the field to measure a printer by; fonts.

import { api, pages } from "../app/api.js";
import { ask } from "../app/ask.js";
import { followUnit, mark, readField } from "../app/fields.js";
import { freshPart } from "../app/fresh.js";
import { figure } from "../app/lengths.js";
import { say, sayError } from "../app/say.js";
import { printerPart } from "./printer.js";
import { sendFile } from "./sending.js";
import { colourOf, sheetOf } from "./tables.js";
import { atFields } from "./wrong.js";

/** @template {HTMLElement} T @param {string} id @returns {T} */
const get = (id) => /** @type {T} */ (document.getElementById(id));
const form = /** @type {HTMLFormElement} */ (get("setup-form"));
const trouble = get("trouble");

followUnit(form);
/** @type {HTMLButtonElement} */ (get("keep")).disabled = false;

/** Width and height stand open only where the paper is no known one. */
function showPaper() {
  const chosen = /** @type {HTMLSelectElement} */ (get("paper")).value;
  get("paper-width").closest(".field").hidden = chosen !== "size" && chosen !== "roll";
  get("paper-height").closest(".field").hidden = chosen !== "size";
}
get("paper").addEventListener("change", showPaper);
showPaper();
printerPart(form, showPaper);

form.addEventListener("change", (event) => {
  const field = /** @type {HTMLInputElement} */ (event.target);
  if (field.name === "route") get("convert").hidden = field.value !== "convert";
  if (field.name?.startsWith("measured-")) void showScale();
});

/** Say the scale that the two measured sides give. */
async function showScale() {
  const said = get("scale-said");
  try {
    const across = await readField(/** @type {HTMLInputElement} */ (get("measured-across")));
    const along = await readField(/** @type {HTMLInputElement} */ (get("measured-along")));
    if (across === null || along === null) return;
    const scale = [across / Number(said.dataset.across), along / Number(said.dataset.along)];
    said.textContent = `Across ${figure(scale[0], 4)}, along ${figure(scale[1], 4)}.`;
  } catch {
    said.textContent = "";
  }
}

get("profile-file").addEventListener("change", async (event) => {
  const kept = await sendFile(/** @type {HTMLInputElement} */ (event.target), "profile", api.putProfile);
  if (!kept) return;
  form.dataset.profile = kept.sha256;
  form.dataset.profileName = kept.name;
  mark(/** @type {HTMLInputElement} */ (get("profile-file")), "");
  get("profile-said").textContent = [kept.name, kept.words].filter(Boolean).join(": ");
});

get("font-file").addEventListener("change", async (event) => {
  const kept = await sendFile(/** @type {HTMLInputElement} */ (event.target), "font", api.putFont);
  if (!kept) return;
  const fresh = await freshPart(pages.setups, "fonts");
  if (fresh) get("fonts").replaceWith(fresh);
  say(`${kept.family} is added.`);
});

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const keep = /** @type {HTMLButtonElement} */ (get("keep"));
  get("form-trouble").hidden = true;
  const name = /** @type {HTMLInputElement} */ (get("name"));
  for (const field of form.querySelectorAll("[aria-invalid]")) mark(/** @type {HTMLInputElement} */ (field), "");
  if (!name.value.trim()) {
    mark(name, "A name is needed, to choose it by.");
    name.focus();
    return;
  }
  if (colourOf(form).route === "convert" && !form.dataset.profile) {
    const profile = /** @type {HTMLInputElement} */ (get("profile-file"));
    mark(profile, "Choose the printer's ICC profile, or let the printer's own software convert.");
    profile.focus();
    return;
  }
  keep.disabled = true;
  try {
    const setup = {
      name: name.value.trim(), sheet: await sheetOf(form), colour: colourOf(form),
      profile_sha256: colourOf(form).route === "convert" ? form.dataset.profile ?? "" : "",
    };
    const id = Number(form.dataset.id);
    await (id ? api.changeSetup(id, setup) : api.addSetup(setup));
    location.assign(pages.setups);
  } catch (error) {
    const left = atFields(error);
    if (left) sayError(get("form-trouble"), left);
    /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid]"))?.focus();
  } finally {
    keep.disabled = false;
  }
});

/** The field is laid on the paper of the form, with the scale that it has so far. */
get("field-job").addEventListener("click", async (event) => {
  const button = /** @type {HTMLButtonElement} */ (event.currentTarget);
  try {
    const document = { ...JSON.parse(button.dataset.document ?? "{}"), sheet: await sheetOf(form) };
    const made = await api.newDesign({ title: document.title, document });
    location.assign(pages.sheet((made.design ?? made).id));
  } catch (error) {
    const left = atFields(error);
    if (left) sayError(get("form-trouble"), left);
  }
});

document.addEventListener("click", async (event) => {
  const button = /** @type {HTMLElement} */ (event.target).closest("button[data-deed=remove]");
  const row = /** @type {HTMLElement | null} */ (button?.closest("[data-setup]") ?? null);
  if (!row) return;
  const sure = await ask({
    title: `Remove the set-up “${row.dataset.name}”?`,
    words: "Designs that were printed with it keep their own paper, colours and scale.",
    yes: "Remove it", grave: true,
  });
  if (!sure) return;
  try {
    await api.removeSetup(Number(row.dataset.setup));
    location.assign(pages.setups);
  } catch (error) {
    sayError(trouble, error);
  }
});
