// The screen of names: the table and what its columns feed, the rows with their problems, the piece of any row, making.

import { figure } from "../app/lengths.js";
import { say, sayError } from "../app/say.js";
import { ask } from "../app/ask.js";
import { names } from "../app/listed/names.js";
import { byId, make } from "../compose/dom.js";
import { bringTables } from "./bring.js";
import { Grid } from "./grid.js";
import { ListMaking, rowsNamed } from "./making.js";
import { Mapping } from "./mapping.js";
import { Piece } from "./piece.js";
import { Rules } from "./rules.js";
import { Signing } from "./signing.js";
import { onScreen } from "./words.js";

const PAGE = 100;
const LOOK_MS = 400;
const TYPED_MS = 250;
const HOW = /** @type {[string, string][]} */ ([["header", "header_row"], ["sheet-name", "sheet"], ["encoding", ""], ["separator", ""]]);

const start = JSON.parse(byId("start").textContent);
const { design } = start;
const state = {
  /** @type {import("./types.js").List | null} */ list: null,
  order: "problems", search: "", first: 0, total: 0, asked: 0, polling: 0,
};
const grid = new Grid(byId("grid"));
const piece = new Piece(design);
const making = new ListMaking(design, ready);
const mapping = new Mapping(start.cases, remap);
const signing = new Signing(design, (list) => making.against(list));
const rules = new Rules(() => rowsAgain(0), (verb, rule) => decide({ verb, rule }));

/** @param {import("./types.js").List} list @param {boolean} fresh another table, or none before */
function show(list, fresh) {
  const before = state.list;
  state.list = list;
  const { table } = list;
  byId("none").hidden = true;
  byId("rows-part").hidden = byId("table-is").hidden = byId("drop-list").hidden = byId("make-part").hidden = false;
  byId("file-words").textContent = "Another table";
  byId("table-file").textContent = table.file;
  const count = list.columns.length;
  const letters = [...byId("encoding").options].find((one) => one.value === table.encoding)?.textContent ?? table.encoding;
  const read = table.kind === "xlsx" ? `Workbook, sheet ${table.sheet}` : `CSV, ${letters}`;
  byId("table-words").textContent = `${read} · ${count} ${count === 1 ? "column" : "columns"}`;
  byId("table-remarks").replaceChildren(...table.remarks.map((words) => make("li", {}, onScreen(words))));
  fillHow(list);
  mapping.show(list);
  byId("troubles").replaceChildren(...list.troubles.filter((one) => !one.message.startsWith("Texts use {")).map((one) => make("p", { class: "finding", "data-severity": "error" }, troubleWords(one))));
  if (fresh || before?.list_revision !== list.list_revision) grid.head(list.columns);
  piece.usable = Boolean(list.check);
  piece.forget();
  piece.face(list.elements.filter((one) => one.own).map((one) => one.name));
  const who = list.fields.find((one) => one.name === (list.mapping.who ?? "name")) ?? list.fields.find((one) => one.column);
  piece.who = who ? list.columns.findIndex((one) => one.name.toLowerCase() === who.column.toLowerCase()) : -1;
  showCheck();
}

/** @param {import("./types.js").List} list */
function fillHow(list) {
  for (const [id, key] of HOW) {
    const value = list.mapping[id === "sheet-name" ? "sheet" : id] ?? (id === "header" ? 1 : id === "sheet-name" ? "" : "auto");
    if (document.activeElement !== byId(id)) byId(id).value = String(value);
    if (key === "sheet") byId(id).placeholder = list.table.sheet || "the first";
  }
}

function showCheck() {
  const check = state.list?.check ?? null;
  const whole = Boolean(check && check.checked >= check.rows);
  const number = (/** @type {number} */ one) => figure(one, 0);
  byId("check-share").hidden = !check || whole || Boolean(check.trouble);
  byId("count-changed").textContent = check?.changed ? ` ${number(check.changed)}` : "";
  byId("count-skipped").textContent = check?.skipped ? ` ${number(check.skipped)}` : "";
  rules.show(check?.rules ?? [], whole);
  let words = `${toPutRight()} to be put right first.`;
  if (check?.trouble) {
    words = [check.trouble.message, check.trouble.remedy].join(" ");
  } else if (check && !whole) {
    byId("check-share").value = check.checked / Math.max(1, check.rows);
    words = `Checking: ${number(check.checked)} of ${number(check.rows)} rows${check.waiting ? `, ${number(check.waiting)} wait so far` : ""}`;
  } else if (check) {
    words = check.waiting ? plural(check.waiting, "problem waits", "problems wait") : `All ${number(check.rows)} rows are ready`;
    if (check.stale) words += `; ${plural(check.stale, "earlier decision is", "earlier decisions are")} about rows that are others now`;
  }
  if (byId("check-words").textContent !== words) byId("check-words").textContent = words;
  byId("check-words").dataset.done = String(whole && !check?.waiting);
  byId("check-words").toggleAttribute("data-checked", whole);
  ready();
  if (check && !whole && !check.trouble) poll();
  else if (check) signing.soon();
}

/** @param {import("./types.js").Trouble} one */
function troubleWords({ message, remedy, where }) {
  const place = where && !where.startsWith("names") ? `${where}: ` : "";
  return onScreen(`${place}${message} ${remedy}`.trim());
}

/** Whose fault it is that the list cannot be used. */
function toPutRight() {
  const design = state.list?.troubles.some(({ where }) => where && !where.startsWith("names"));
  return design ? "The design has" : "The columns have";
}

/** @param {number} count @param {string} one @param {string} several */
const plural = (count, one, several) => `${figure(count, 0)} ${count === 1 ? one : several}`;

/** Ask again how far the check is; the first rows come anew as their problems are found. */
function poll() {
  window.clearTimeout(state.polling);
  state.polling = window.setTimeout(async () => {
    if (document.hidden) return poll();
    const before = state.list?.check?.waiting ?? 0;
    try { state.list = await names.list(design); } catch { return poll(); }
    showCheck();
    const { check } = /** @type {import("./types.js").List} */ (state.list);
    const done = check && check.checked >= check.rows;
    const open = [...grid.rows.values()].some((one) => one.state === "unchecked");
    if (done || open || (state.first === 0 && check?.waiting !== before)) await rows(true);
  }, LOOK_MS);
}

/** Fetch the page of rows. @param {boolean} keep stay at the row that is looked at */
async function rows(keep) {
  const asked = state.asked += 1;
  try {
    const found = await names.rows(design, { order: state.order, first: state.first, most: PAGE, search: state.search, rule: rules.chosen });
    if (asked !== state.asked || byId("grid").querySelector("textarea")) return;
    state.total = found.total;
    grid.show(found.rows, keep);
    const last = state.first + found.rows.length;
    byId("page-words").textContent = found.total ? `rows ${figure(state.first + 1, 0)}–${figure(last, 0)} of ${figure(found.total, 0)}` : "no row";
    byId("before").disabled = state.first === 0;
    byId("after").disabled = last >= found.total;
    byId("nothing").hidden = found.total > 0;
    byId("grid").hidden = found.total === 0;
    byId("steps").hidden = found.total === 0;
  } catch (error) {
    sayError(byId("table-wrong"), error);
  }
}

/** @param {number} first */
function rowsAgain(first) {
  state.first = first;
  showCheck();
  return rows(false);
}

/** What has changed in the list, after something was decided. */
async function refresh() {
  state.list = await names.list(design);
  mapping.list = state.list;
  showCheck();
}

/** @param {Record<string, any>} next */
async function remap(next) {
  byId("mapping-wrong").hidden = true;
  try {
    show(await names.map(design, next, /** @type {import("./types.js").List} */ (state.list).list_revision), false);
    await rows(true);
  } catch (error) {
    sayError(byId("mapping-wrong"), error);
    if (/** @type {any} */ (error).kind === "refused") await elsewhere();
    if (state.list) mapping.show(state.list);
  }
}

/** Another window was quicker: show what there is now. */
async function elsewhere() {
  show(await names.list(design), true);
  await rows(true);
  byId("mapping-wrong").textContent = "The list was changed in another window. This is how it is now: choose again.";
}

/** @param {{verb: string, rows?: number[], rule?: string}} decision */
async function decide(decision) {
  byId("row-wrong").hidden = true;
  try {
    const made = await names.decide(design, decision);
    await refresh();
    if (decision.rows) {
      await fresh(decision.rows[0], true);
    } else {
      say(`${plural(made.rows, "row", "rows")} decided.`);
      rules.choose("");
    }
  } catch (error) {
    sayError(byId("row-wrong"), error);
  }
}

/** A row as it is now; with others of the same question. @param {number} number @param {boolean} others */
async function fresh(number, others) {
  const old = grid.rows.get(number);
  const row = await names.row(design, number);
  grid.put(row);
  const also = new Set([...(old?.problems ?? []), ...row.problems].flatMap((one) => one.rows));
  also.delete(number);
  if (!others) return;
  for (const one of [...also].filter((other) => grid.rows.has(other)).slice(0, 20)) grid.put(await names.row(design, one));
}

function ready() {
  const check = state.list?.check ?? null;
  const why = making.running ? "It is being made."
    : !check ? `${toPutRight()} to be put right first.`
      : check.trouble ? "The table cannot be read to its end."
        : check.checked < check.rows ? "The rows are still being checked."
          : check.waiting ? `${plural(check.waiting, "problem waits", "problems wait")} for a decision first.`
            : check.pieces === 0 ? "No row is made." : "";
  const alike = state.list?.columns.some((one) => one.feeds.length) ? "" : ", all the same: no column is used";
  byId("ready").textContent = why || `${plural(check?.pieces ?? 0, "piece", "pieces")} of ${plural((check?.rows ?? 0) - (check?.skipped ?? 0), "row", "rows")}${alike}.`;
  for (const id of ["make", "contact"]) byId(id).setAttribute("aria-disabled", String(Boolean(why)));
  return why;
}

grid.addEventListener("row", (event) => {
  const { row, next } = /** @type {CustomEvent} */ (event).detail;
  piece.show(row, next);
});
grid.addEventListener("edge", async (event) => {
  const { way, focus } = /** @type {CustomEvent} */ (event).detail;
  const first = state.first + way * PAGE;
  if (first < 0 || first >= state.total) return;
  state.first = first;
  await rows(false);
  const shown = [...grid.rows.keys()];
  grid.look(way < 0 ? shown[shown.length - 1] : shown[0], focus);
});
grid.addEventListener("change", async (event) => {
  const { number, column, text, cell } = /** @type {CustomEvent} */ (event).detail;
  cell.setAttribute("aria-busy", "true");
  try {
    await names.change(design, number, { [column]: text });
    await fresh(number, true);
    await refresh();
    say("Kept as a change over the table.");
  } catch (error) {
    cell.removeAttribute("aria-busy");
    sayError(byId("row-wrong"), error);
  }
});
/** @param {string} verb @param {number} number */
const act = (verb, number) => {
  const row = grid.rows.get(number);
  if (!row) return;
  decide({ verb: verb === "skip" && row.state === "skipped" ? "make" : verb, rows: [number] });
};
grid.addEventListener("act", (event) => {
  const { verb, number } = /** @type {CustomEvent} */ (event).detail;
  act(verb, number);
});
for (const [id, verb] of [["accept-row", "accept"], ["skip-row", "skip"], ["forget-row", "forget"]]) {
  byId(id).addEventListener("click", () => act(verb, grid.current));
}
for (const [id, way] of /** @type {[string, number][]} */ ([["row-before", -1], ["row-after", 1]])) {
  byId(id).addEventListener("click", () => grid.step(way, false));
}
for (const button of byId("orders").querySelectorAll("button")) {
  button.addEventListener("click", () => {
    state.order = button.dataset.order;
    for (const one of byId("orders").querySelectorAll("button")) one.setAttribute("aria-pressed", String(one === button));
    rowsAgain(0);
  });
}
let typing = 0;
byId("search").addEventListener("input", () => {
  window.clearTimeout(typing);
  typing = window.setTimeout(() => { state.search = byId("search").value.trim(); rowsAgain(0); }, TYPED_MS);
});
for (const [id, way] of /** @type {[string, number][]} */ ([["before", -1], ["after", 1]])) {
  byId(id).addEventListener("click", () => rowsAgain(Math.max(0, state.first + way * PAGE)));
}
for (const [id] of HOW) {
  byId(id).addEventListener("change", () => {
    if (!state.list) return;
    const key = id === "sheet-name" ? "sheet" : id;
    const value = id === "header" ? Number(byId(id).value) || 1 : byId(id).value.trim();
    const { [key]: _old, ...rest } = state.list.mapping;
    remap(value === "" || value === 1 || value === "auto" ? rest : { ...rest, [key]: value });
  });
}
byId("drop-list").addEventListener("click", async () => {
  const yes = await ask({ title: "Take the list away?", words: "The table goes, and all that was decided about its rows. What was made of it stays.", yes: "Take it away", grave: true });
  if (!yes) return;
  try { await names.drop(design); location.reload(); } catch (error) { sayError(byId("table-wrong"), error); }
});
/** @param {string} part "contact" or "" for all */
function begin(part) {
  const why = ready();
  const rowsOnly = rowsNamed(byId("only").value);
  byId("only-wrong").hidden = rowsOnly !== null;
  if (!rowsOnly) byId("made-how").open = true;
  byId("only-wrong").textContent = rowsOnly ? "" : "Numbers of rows, as “12, 15-17”; at most 10,000.";
  byId("only").setAttribute("aria-invalid", String(rowsOnly === null));
  if (why) say(why);
  if (why || !rowsOnly) return;
  making.begin({ order: byId("order").value, rows: rowsOnly, sheets_a_file: Number(byId("a-file").value) || 500, accept: byId("accept").checked ? ["all"] : [], only: part });
}
byId("make").addEventListener("click", () => begin(""));
byId("contact").addEventListener("click", () => begin("contact"));

bringTables(design, (list) => {
  state.first = 0;
  rules.chosen = "";
  show(list, true);
  rows(false);
  say(`${list.table.file} is here.`);
});
if (start.list?.wrong) {
  byId("table-wrong").textContent = start.list.wrong;
  byId("table-wrong").hidden = false;
} else if (start.list) {
  show(start.list, true);
  rows(false);
}
// What was done in another window meanwhile is seen when one comes back to this one.
document.addEventListener("visibilitychange", async () => {
  if (document.hidden || !state.list || byId("grid").querySelector("textarea")) return;
  const before = state.list;
  try {
    const list = await names.list(design);
    const fresh = list.list_revision !== before.list_revision || list.revision !== before.revision;
    if (fresh) show(list, true);
    else { state.list = list; mapping.list = list; piece.forget(); showCheck(); }
    await rows(true);
  } catch { /* a list that is gone or a server that is away is told by what is done next */ }
});
making.resume(0);
