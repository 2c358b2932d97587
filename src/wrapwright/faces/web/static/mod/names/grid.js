// The rows as a grid: one cell has the focus, arrows go from cell to cell, Enter changes one in its place.

import { make } from "../compose/dom.js";

/** @typedef {import("./types.js").Row} Row */
/** @typedef {import("./types.js").Column} Column */

const STATES = {
  waits: "waits for a decision", fine: "nothing wrong", accepted: "accepted", skipped: "skipped", unchecked: "not checked yet",
};

/**
 * Events: `row {number, row, next}` when another row is looked at (`next` is the one after it), `change {number, column, text, cell}` for a new text,
 * `act {verb, number}` for a key that decides, `edge {way}` when an arrow leaves the page.
 */
export class Grid extends EventTarget {
  /** @param {HTMLTableElement} table */
  constructor(table) {
    super();
    this.table = table;
    /** @type {Column[]} */
    this.columns = [];
    /** @type {number[]} places of the columns as they are shown: those that are used first */
    this.order = [];
    /** @type {Map<number, Row>} */
    this.rows = new Map();
    this.current = 0;
    this.at = 1;
    /** Which way one goes through the rows: -1 up, 1 down. */
    this.way = 1;
    table.addEventListener("keydown", (event) => this.key(event));
    table.addEventListener("click", (event) => this.click(event));
    table.addEventListener("dblclick", (event) => this.edit(this.cellOf(event.target)));
    table.addEventListener("focusin", (event) => this.focused(event));
  }

  /** @param {Column[]} columns */
  head(columns) {
    this.columns = columns;
    const places = columns.map((_, at) => at);
    const used = places.filter((at) => columns[at].feeds.length > 0).length;
    /** Where the problem stands: beside the first column that is used, so that it is seen however many there are. */
    this.told = Math.min(1, used);
    this.order = [...places.filter((at) => columns[at].feeds.length), ...places.filter((at) => !columns[at].feeds.length)];
    const cells = this.order.map((at) => {
      const { name, feeds } = columns[at];
      const head = make("th", { scope: "col", class: feeds.length ? "n-used" : "n-unused" }, name || `column ${at + 1}`);
      if (feeds.length) head.append(make("span", { class: "n-feeds" }, feeds.join(", ")));
      return head;
    });
    cells.splice(this.told, 0, make("th", { scope: "col", class: "n-what" }, "Problem"));
    const line = make("tr", {}, make("th", { scope: "col", class: "n-number" }, "Row"), ...cells);
    this.table.replaceChildren(make("thead", {}, line), make("tbody"));
  }

  /** @param {Row[]} rows @param {boolean} [keep] the row that was looked at, where it is among them */
  show(rows, keep = false) {
    const held = this.table.contains(document.activeElement);
    this.rows = new Map(rows.map((one) => [one.number, one]));
    this.table.tBodies[0].replaceChildren(...rows.map((one) => this.line(one)));
    const same = keep && this.rows.has(this.current);
    this.look(same ? this.current : rows[0]?.number ?? 0, held, !same);
  }

  /** Show a row anew in its place. @param {Row} row */
  put(row) {
    const old = this.lineOf(row.number);
    if (!old) return;
    const held = old.contains(document.activeElement);
    this.rows.set(row.number, row);
    old.replaceWith(this.line(row));
    if (row.number === this.current) this.look(row.number, held);
  }

  /** @param {Row} row */
  line(row) {
    const cells = this.order.map((at) => this.cell(row, at));
    const waits = row.problems.filter((one) => one.state === "waits");
    const told = waits[0] ?? row.problems[0];
    const what = make("td", { class: "n-what", role: "gridcell", tabIndex: -1, title: told?.problem },
      row.state === "skipped" ? make("span", { class: "n-out" }, "skipped: no piece is made") : told && make("span", { class: "n-said", "data-state": told.state }, told.problem),
      waits.length > 1 && make("span", { class: "n-more-problems" }, `+${waits.length - 1}`));
    cells.splice(this.told ?? 0, 0, what);
    const severity = waits.some((one) => one.severity === "error") ? "error" : "warning";
    const head = make("th", { scope: "row", class: "n-number", role: "rowheader", tabIndex: -1 },
      make("span", { class: "n-mark", "data-state": row.state, "data-severity": severity, "aria-hidden": "true" }),
      make("span", {}, String(row.number)),
      make("span", { class: "only-spoken" }, `, ${STATES[row.state]}`),
      row.quantity > 1 && make("span", { class: "n-times" }, `×${row.quantity}`));
    return make("tr", { "data-number": String(row.number), "data-state": row.state }, head, ...cells);
  }

  /** @param {Row} row @param {number} at */
  cell(row, at) {
    const { name } = this.columns[at];
    const text = row.cells[at] ?? "";
    const was = Object.hasOwn(row.file_cells, name) ? row.file_cells[name] : null;
    const doubts = row.problems.filter((one) => one.state === "waits" && one.columns.includes(at));
    const hidden = doubts.some((one) => one.rule === "hidden-signs");
    return make("td", { role: "gridcell", tabIndex: -1, "data-at": String(at), "data-doubt": doubts.length > 0 && "", "data-changed": was !== null && "" },
      make("span", { class: "n-text", dir: "auto" }, ...shown(text, hidden)),
      was !== null && make("s", { class: "n-was", title: `the table says: ${was || "nothing"}` },
        make("span", { class: "only-spoken" }, "the table says "), ...(was ? shown(was) : ["empty"])));
  }

  /** @param {number} number */
  lineOf(number) {
    return /** @type {HTMLTableRowElement | null} */ (this.table.querySelector(`tr[data-number="${number}"]`));
  }

  /** Look at a row. @param {number} number @param {boolean} focus @param {boolean} [reach] bring it into sight */
  look(number, focus, reach = true) {
    const line = this.lineOf(number);
    const before = this.lineOf(this.current);
    if (line && before && line !== before) this.way = line.sectionRowIndex < before.sectionRowIndex ? -1 : 1;
    for (const one of this.table.querySelectorAll("tr[aria-selected]")) one.removeAttribute("aria-selected");
    for (const one of this.table.querySelectorAll('[tabindex="0"]')) /** @type {HTMLElement} */ (one).tabIndex = -1;
    this.current = line ? number : 0;
    if (line) {
      line.setAttribute("aria-selected", "true");
      const cell = line.cells[Math.min(this.at, line.cells.length - 1)];
      cell.tabIndex = 0;
      if (focus) cell.focus({ preventScroll: true });
      if (reach) this.reach(cell);
    }
    const after = this.way < 0 ? line?.previousElementSibling : line?.nextElementSibling;
    const next = this.rows.get(Number(/** @type {HTMLElement | undefined} */ (after)?.dataset.number ?? 0)) ?? null;
    this.dispatchEvent(new CustomEvent("row", { detail: { number: this.current, row: this.rows.get(this.current) ?? null, next } }));
  }

  /** Bring a cell into sight within the rows; the page itself stays where it is unless the cell has the focus.
   * @param {HTMLTableCellElement} cell */
  reach(cell) {
    const room = /** @type {HTMLElement} */ (this.table.parentElement);
    const [own, seen] = [cell.getBoundingClientRect(), room.getBoundingClientRect()];
    const head = this.table.tHead?.offsetHeight ?? 0;
    const aside = cell.cellIndex ? this.table.tHead?.rows[0].cells[0].offsetWidth ?? 0 : 0;
    const over = { top: own.top - seen.top - head, bottom: own.bottom - seen.top - room.clientHeight, left: own.left - seen.left - aside, right: own.right - seen.left - room.clientWidth };
    if (over.top < 0) room.scrollTop += over.top;
    else if (over.bottom > 0) room.scrollTop += over.bottom;
    if (over.left < 0 && cell.cellIndex) room.scrollLeft += over.left;
    else if (over.right > 0) room.scrollLeft += Math.min(over.right, over.left);
    if (document.activeElement === cell) room.scrollIntoView({ block: "nearest" });
  }

  /** The row before or after the one that is looked at. @param {number} way -1 or 1 @param {boolean} focus */
  step(way, focus) {
    const lines = [...this.table.tBodies[0].rows];
    const to = lines.findIndex((one) => Number(one.dataset.number) === this.current) + way;
    if (to < 0 || to >= lines.length) this.dispatchEvent(new CustomEvent("edge", { detail: { way, focus } }));
    else this.look(Number(lines[to].dataset.number), focus);
  }

  /** @param {EventTarget | null} target @returns {HTMLTableCellElement | null} */
  cellOf(target) {
    return target instanceof Element ? target.closest("tbody td, tbody th") : null;
  }

  /** @param {MouseEvent} event */
  click(event) {
    const cell = this.cellOf(event.target);
    if (!cell || event.target instanceof HTMLTextAreaElement) return;
    const again = cell === document.activeElement && cell.tabIndex === 0 && this.pressed === cell;
    this.pressed = cell;
    this.at = cell.cellIndex;
    this.look(Number(/** @type {HTMLElement} */ (cell.parentElement).dataset.number), true);
    if (again) this.edit(cell);
  }

  /** @param {FocusEvent} event */
  focused(event) {
    const cell = this.cellOf(event.target);
    const number = Number(cell?.parentElement?.dataset.number ?? 0);
    if (cell && event.target === cell && number !== this.current) {
      this.at = cell.cellIndex;
      this.look(number, false);
    }
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const cell = this.cellOf(event.target);
    if (!cell || event.target instanceof HTMLTextAreaElement || event.altKey || event.metaKey) return;
    const line = /** @type {HTMLTableRowElement} */ (cell.parentElement);
    const lines = [...this.table.tBodies[0].rows];
    const place = lines.indexOf(line);
    const moves = /** @type {Record<string, [number, number]>} */ ({
      ArrowDown: [place + 1, cell.cellIndex], ArrowUp: [place - 1, cell.cellIndex],
      ArrowRight: [place, cell.cellIndex + 1], ArrowLeft: [place, cell.cellIndex - 1],
      Home: event.ctrlKey ? [0, 0] : [place, 0], End: event.ctrlKey ? [lines.length - 1, 0] : [place, line.cells.length - 1],
      PageDown: [Math.min(place + 10, lines.length - 1), cell.cellIndex], PageUp: [Math.max(place - 10, 0), cell.cellIndex],
    });
    const acts = /** @type {Record<string, string>} */ ({ a: "accept", s: "skip" });
    if (event.key in moves) {
      event.preventDefault();
      const [to, at] = moves[event.key];
      if (to < 0 || to >= lines.length) return this.step(to < 0 ? -1 : 1, true);
      this.at = Math.max(0, Math.min(at, line.cells.length - 1));
      this.look(Number(lines[to].dataset.number), true);
    } else if (["Enter", "F2"].includes(event.key)) {
      event.preventDefault();
      this.edit(cell);
    } else if (!event.ctrlKey && event.key.toLowerCase() in acts) {
      event.preventDefault();
      this.dispatchEvent(new CustomEvent("act", { detail: { verb: acts[event.key.toLowerCase()], number: this.current } }));
    }
  }

  /** Change a cell in its place. @param {HTMLTableCellElement | null} cell */
  edit(cell) {
    const row = this.rows.get(Number(cell?.parentElement?.dataset.number ?? 0));
    if (!cell || !row || cell.dataset.at === undefined || cell.querySelector("textarea")) return;
    const at = Number(cell.dataset.at);
    const text = row.cells[at] ?? "";
    const name = this.columns[at].name;
    const field = make("textarea", { class: "n-edit", value: text, rows: Math.min(4, text.split("\n").length), maxLength: 2000, spellcheck: false, dir: "auto", "aria-label": `${name}, row ${row.number}` });
    const { tabIndex } = cell;
    let over = false;
    const end = (/** @type {boolean} */ keep, /** @type {boolean} */ focus) => {
      if (over) return;
      over = true;
      const fresh = this.cell(row, at);
      fresh.tabIndex = tabIndex;
      cell.replaceWith(fresh);
      if (focus) fresh.focus();
      if (keep && field.value !== text) {
        this.dispatchEvent(new CustomEvent("change", { detail: { number: row.number, column: name, text: field.value, cell: fresh } }));
      }
    };
    field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key === "Escape") end(false, true);
      else if (event.key === "Enter" && !event.altKey && !event.shiftKey) end(true, true);
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
    field.addEventListener("blur", () => end(true, false));
    cell.removeAttribute("tabindex");
    cell.replaceChildren(field);
    field.focus();
    field.select();
  }
}

/** A text whose line ends, and blanks where one does not expect them, are seen; with `all`, whatever leaves no mark.
 * @param {string} text @param {boolean} [all] @returns {(string | Node)[]} */
function shown(text, all = false) {
  const [, first, middle, last] = /** @type {string[]} */ (/^(\s*)([^]*?)(\s*)$/.exec(text) ?? ["", "", text, ""]);
  const blanks = (/** @type {string} */ some) => some && make("span", { class: "n-blank", title: "white space" }, "␣".repeat(Math.min(some.length, 6)));
  const lines = (/** @type {string} */ one) => one.replace(/\r?\n/g, " ⏎ ");
  const spaced = (/** @type {string} */ one) => one.split(/([ ]{2,}|[^\S\r\n ]+)/u).map((part, at) => at % 2 ? blanks(part) : lines(part));
  const parts = middle.split(all ? /(\p{Cf})/u : /(?!)/u);
  const said = parts.flatMap((one, at) => at % 2 ? [make("span", { class: "n-unseen" }, `U+${one.codePointAt(0)?.toString(16).toUpperCase().padStart(4, "0")}`)] : spaced(one));
  return [blanks(first), ...said, middle ? blanks(last) : ""].filter(Boolean);
}
