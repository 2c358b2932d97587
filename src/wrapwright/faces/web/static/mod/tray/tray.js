// The screen of the tray: what is printed together, how it lies, how sure that is, how it is cut, and the making.

import { api } from "../app/api.js";
import { followUnit, readField } from "../app/fields.js";
import { figure, inUnit } from "../app/lengths.js";
import { sayError } from "../app/say.js";
import { byId, finding, made } from "../sheet/dom.js";
import { Making } from "../sheet/making.js";
import { Board } from "./board.js";
import { Cuts } from "./cuts.js";
import { Hand } from "./hand.js";
import { Papers } from "./papers.js";
import { Rows } from "./rows.js";
import { State } from "./state.js";

const LIMITS = ["longest_mm", "stack_mm", "least_mm", "slip_mm"];

const start = JSON.parse(byId("start").textContent);
const state = new State(start, show);
const rows = new Rows(state, start.designs);
const board = new Board(state);
const cuts = new Cuts(board);
const making = new Making(0, ready);
new Papers(state);
new Hand(state);

/** @param {any} view */
function show(view) {
  rows.show(view);
  board.show(view);
  cuts.show(view);
  byId("unpin").hidden = state.tray.pins.length === 0;
  for (const one of document.querySelectorAll("[data-way]")) {
    one.setAttribute("aria-pressed", String(/** @type {HTMLElement} */ (one).dataset.way === state.tray.way));
  }
  words(view);
  ready();
}

/** @param {any} view */
function words(view) {
  const count = view?.sheets.length ?? 0;
  const sheets = count === 1 ? "1 sheet" : `${count} sheets`;
  const sure = view?.proven ? "proven fewest" : `at least ${view?.bound ?? 0}`;
  const cost = view?.cost === null || view?.cost === undefined ? "" : ` · paper ${figure(view.cost, 2)}`;
  byId("answer").textContent = count ? `${sheets} · ${view.cost !== null && view.proven ? "proven cheapest" : sure}${cost}` : "";
  byId("words").textContent = view ? inUnit(view.words) : "The answer says how many sheets, and whether fewer are impossible.";
  byId("notes").replaceChildren(...(view?.notes ?? []).map((/** @type {string} */ one) => finding(inUnit(one), "note")));
  byId("list-part").hidden = !view?.cut_words;
  byId("list-words").textContent = view ? view.cut_words : "";
  byId("how").replaceChildren(...(view?.how ?? []).map((/** @type {string} */ one) => made("li", inUnit(one))));
}

function ready() {
  const button = byId("make");
  const wrong = state.view?.pieces.some((/** @type {any} */ one) => one.problems.length) ?? false;
  const why = making.running ? "It is being made." : !state.view?.sheets.length ? "Put a design in the tray first." : wrong ? "Mend what is wrong in the tray first." : "";
  button.setAttribute("aria-disabled", String(Boolean(why)));
  button.title = why;
}

async function make() {
  if (byId("make").getAttribute("aria-disabled") === "true") return;
  byId("trouble").hidden = true;
  byId("made").hidden = true;
  try {
    await state.saving;
    making.show(await api.makeTray(state.tray, byId("accept").checked ? ["all"] : []), true);
  } catch (error) {
    sayError(byId("trouble"), error);
  }
}

/** @param {string} id @param {(mm: number) => void} take */
function onLength(id, take) {
  byId(id).addEventListener("change", async () => {
    try {
      const mm = await readField(byId(id));
      if (mm !== null) take(mm);
    } catch { /* what is wrong stands at the field */ }
  });
}

byId("gutter").dataset.length = String(state.tray.gutter_mm);
onLength("gutter", (mm) => state.change({ gutter_mm: mm }));
for (const key of LIMITS) {
  byId(key).dataset.length = String(state.tray.trimmer[key]);
  onLength(key, (mm) => state.change({ trimmer: { ...state.tray.trimmer, [key]: mm } }));
}
followUnit(byId("tray"));
byId("title").value = state.tray.title;
byId("title").addEventListener("change", () => {
  const title = byId("title").value.trim() || "Sheets";
  byId("title").value = title;
  state.change({ title });
});
byId("setup").value = String(state.tray.setup);
byId("setup").addEventListener("change", () => state.change({ setup: Number(byId("setup").value) }));
for (const one of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-way]"))) {
  one.addEventListener("click", () => state.change({ way: one.dataset.way, pins: [] }));
}
byId("unpin").addEventListener("click", () => state.change({ pins: [] }));
byId("make").addEventListener("click", make);

show(null);
state.lay();
making.resume(0);
