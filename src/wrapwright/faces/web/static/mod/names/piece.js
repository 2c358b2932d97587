// The piece of the row that is looked at: drawn, what waits in it, and what can be decided about it.

import { byId, make } from "../compose/dom.js";
import { showPlate } from "../compose/flat.js";
import { inUnit } from "../app/lengths.js";
import { names } from "../app/listed/names.js";
import { onScreen } from "./words.js";

/** @typedef {import("./types.js").Row} Row */

const REST_MS = 80;

export class Piece {
  /** @param {number} design */
  constructor(design) {
    this.design = design;
    this.view = document.getElementById("view");
    this.plate = document.getElementById("plate");
    /** The row whose piece is wanted, and the one that is being fetched; 0 for none. */
    this.wanted = 0;
    this.fetching = 0;
    this.shown = 0;
    /** Whether the list can be used, so that its pieces can be drawn. */
    this.usable = false;
    /** The place of the column by which rows are told apart. */
    this.who = -1;
    this.said = "";
    /** The elements that rows change, once none of them was faced yet; a hand that turned the piece knows better. */
    this.owns = /** @type {string[]} */ ([]);
    this.view?.addEventListener("wrapfacing", () => { this.owns = []; this.turned = true; });
  }

  /** Turn the piece so that what rows change is seen. @param {string[]} owns names of elements, as they are drawn */
  face(owns) {
    if (!this.turned) this.owns = owns;
  }

  /** The list or the design is another: what is drawn of a row may be so too. */
  forget() {
    this.said = "";
    this.ahead = null;
  }

  /** What a row's drawing hangs on. @param {Row | null | undefined} row */
  key(row) {
    return JSON.stringify([row?.number, row?.cells, this.usable]);
  }

  /** Show another row, or the same as it is now. @param {Row | null} row @param {Row | null} next the one after it */
  show(row, next) {
    this.row = row;
    this.next = next;
    const name = row && this.who >= 0 ? row.cells[this.who]?.trim() : "";
    byId("piece-title").replaceChildren(row ? `Row ${row.number}${name ? " · " : ""}` : "The piece", ...(name ? [make("bdi", {}, name)] : []));
    this.tell();
    const said = this.key(row);
    if (said === this.said) return;
    this.said = said;
    this.wanted = this.usable ? row?.number ?? 0 : 0;
    this.fetch();
  }

  /** What waits in the row, and the buttons that fit. */
  tell() {
    const { row } = this;
    const problems = row && row.state !== "skipped" ? row.problems : [];
    byId("row-problems").replaceChildren(...problems.map((one) => make("div", { class: "n-problem" },
      make("p", { class: "finding", "data-severity": one.state === "accepted" ? "ok" : one.severity },
        `${inUnit(one.problem)}${one.figure && !one.problem.includes(one.figure) ? ` (${inUnit(one.figure)})` : ""}`),
      make("p", { class: "note" }, one.state === "accepted" ? "Accepted." : onScreen(one.remedy)))));
    if (row?.state === "skipped") byId("row-problems").replaceChildren(make("p", { class: "note" }, "Skipped: no piece is made of this row."));
    byId("row-acts").hidden = !row || !this.usable;
    byId("row-wrong").hidden = true;
    if (!row) return;
    const waits = problems.filter((one) => one.state === "waits");
    byId("accept-row").hidden = !waits.length || !waits.every((one) => one.acceptable);
    byId("accept-row").textContent = waits.length > 1 ? `Accept all ${waits.length}` : "Accept";
    byId("skip-row").textContent = row.state === "skipped" ? "Make it after all" : "Skip the row";
    const decided = row.state === "skipped" || Object.keys(row.file_cells).length > 0 || problems.some((one) => one.state === "accepted");
    byId("forget-row").hidden = !decided;
  }

  /** Fetch the newest wish; while one is under way the next waits, and those between are left out. */
  async fetch() {
    if (this.fetching || !this.wanted) return;
    const number = this.fetching = this.wanted;
    this.wanted = 0;
    const kept = this.ahead?.said === this.said ? this.ahead.drawn : null;
    try {
      const drawn = await (kept ?? names.drawn(this.design, number));
      if (!this.wanted) this.draw(drawn);
      this.shown = number;
    } catch { /* what is wrong with the list stands beside it; a server that is away is told at the top */ }
    this.fetching = 0;
    if (this.wanted) void this.fetch();
    else this.look();
  }

  /** While nothing else is asked for, have the next row's piece drawn: it is there when the key is pressed. */
  look() {
    window.clearTimeout(this.later);
    this.later = window.setTimeout(async () => {
      const said = this.key(this.next);
      if (!this.next || this.fetching || this.wanted || document.hidden || this.ahead?.said === said) return;
      const ahead = this.ahead = { said, drawn: names.drawn(this.design, this.next.number) };
      try {
        const { proof } = await ahead.drawn;
        if (proof?.url && this.view) await fetch(proof.url);  // the browser keeps it
      } catch {
        if (this.ahead === ahead) this.ahead = null;
      }
    }, REST_MS);
  }

  /** @param {any} drawn */
  draw(drawn) {
    const own = drawn.copies.find((/** @type {any} */ one) => this.owns.includes(one.name) && one.kind !== "fill");
    if (own && this.view) {
      /** @type {any} */ (this.view).facing = own.at_deg;
      this.owns = [];
    }
    if (this.plate) showPlate(this.plate, drawn);
    else if (this.view) /** @type {any} */ (this.view).drawn = { ...drawn, copies: drawn.copies.map((/** @type {any} */ one) => ({ ...one, fixed: true })) };
    document.getElementById("names")?.setAttribute("data-shown", String(this.row?.number ?? ""));
  }
}
