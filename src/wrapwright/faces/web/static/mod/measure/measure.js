// The measuring screen: every key is sent, read and drawn; what is right can be kept and composed on.

import { api } from "../app/api.js";
import { setUnit, unit } from "../app/lengths.js";
import { dropDraft, heldDraft, holdDraft } from "./draft.js";
import { Form } from "./form.js";
import { Keeping } from "./keeping.js";
import { joinOutline } from "./outline.js";
import { newestWins } from "./live.js";
import { Rows } from "./rows.js";
import { Shown } from "./shown.js";

/** @param {string} id @returns {any} */
const byId = (id) => document.getElementById(id);

const root = /** @type {HTMLFormElement} */ (byId("measure"));
const start = JSON.parse(byId("start").textContent);
const form = new Form(root);
const shown = new Shown(root);
const readings = new Rows({
  list: byId("readings"), template: byId("reading-row"), path: "blank.readings", least: 3, word: "reading", changed: changed,
});
const keepouts = new Rows({
  list: byId("keepouts"), template: byId("keepout-row"), path: "blank.keepout", least: 0, word: "place", changed: changed,
});
const outlineTold = joinOutline(form, changed);
const keeping = new Keeping(start, () => shown.last, dropDraft);
const live = newestWins(
  (/** @type {any} */ asked) => api.measure(asked),
  (found) => { shown.show(found); keeping.know(found); performance.mark("measured"); },
  () => {},
);

/** How wide the two drawings may be, CSS px. */
function widths() {
  const seen = byId("drawings").parentElement;
  const pad = getComputedStyle(seen);
  const wide = seen.clientWidth - parseFloat(pad.paddingLeft) - parseFloat(pad.paddingRight);
  const narrow = wide < 640;
  const inner = 26;
  return { blank_px: Math.round(narrow ? wide - inner : Math.min(400, wide * 0.38) - inner), flat_px: Math.round(narrow ? wide - inner : wide - Math.min(400, wide * 0.38) - 16 - inner) };
}

function changed() {
  live.ask({ ...form.read(), unit: unit(), ...widths() });
  touched();
}

function touched() {
  keeping.touched();
  holdDraft({ name: byId("name").value, tables: form.read(), newest: keeping.base });
}

/** @param {import("./form.js").Tables} tables */
function fill({ blank, wrap }) {
  readings.fill((blank.readings ?? []).map((/** @type {unknown[]} */ row) => ({ 0: row[0], 1: row[1] })));
  keepouts.fill(blank.keepout ?? []);
  form.fill({ blank, wrap });
  outlineTold();
}

/** A new blank's tape is divided as the unit on the screen, until its division is chosen. */
function divide() {
  const field = byId("blank-tape-division");
  if (start.id || start.table.tape || field.dataset.chosen) return;
  field.value = unit() === "in" ? "1/16 in" : "";
}

root.addEventListener("input", (event) => {
  const field = /** @type {HTMLInputElement} */ (event.target);
  if (field.id === "name") { touched(); return; }
  if (field.id === "blank-tape-division") field.dataset.chosen = "yes";
  if (field === form.pick) byId("coating").value = form.pick.value;
  if (field.id === "coating") form.matchPick();
  if (field.hasAttribute("data-length")) form.suffixes();
  if (field.name === "kind" || ["how", "tall", "plate", "handled"].includes(field.id)) form.arrange();
  changed();
});
root.addEventListener("submit", (event) => {
  event.preventDefault();
  keeping.save();
});
byId("compose").addEventListener("click", () => keeping.compose());
for (const one of root.querySelectorAll("[data-to-unit]")) {
  one.addEventListener("click", () => setUnit(/** @type {HTMLElement} */ (one).dataset.toUnit === "in" ? "in" : "mm"));
}
let before = unit();
document.addEventListener("wrapunit", () => {
  if (before !== unit()) form.pin(before);
  before = unit();
  form.showUnit();
  divide();
  changed();
});
let wide = root.clientWidth;
new ResizeObserver(() => {
  if (Math.abs(root.clientWidth - wide) < 8) return;
  wide = root.clientWidth;
  live.ask({ ...form.read(), unit: unit(), ...widths() });
}).observe(root);

const held = heldDraft(start.newest);
fill(held?.tables ?? { blank: start.table, wrap: start.wrap });
if (held) {
  byId("name").value = held.name;
  byId("blank-tape-division").dataset.chosen = "yes";
  keeping.touched();
} else {
  divide();
}
form.showUnit();
live.ask({ ...form.read(), unit: unit(), ...widths() });
