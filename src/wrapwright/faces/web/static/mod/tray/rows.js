// The designs in the tray, how many of each, and what is wrong with one.

import { api, pages } from "../app/api.js";
import { format } from "../app/lengths.js";
import { say } from "../app/say.js";
import { byId, finding, made } from "../sheet/dom.js";

const MOST = 10000;

export class Rows {
  /** @param {any} state @param {{id: number, title: string}[]} designs */
  constructor(state, designs) {
    this.state = state;
    this.designs = designs;
    this.drawn = "";
    byId("design").replaceChildren(new Option("Choose …", ""), ...designs.map((one) => new Option(one.title, String(one.id))));
    byId("add").addEventListener("submit", (/** @type {Event} */ event) => {
      event.preventDefault();
      this.add(Number(byId("design").value));
    });
    document.addEventListener("wrapunit", () => { this.drawn = ""; this.show(state.view); });
  }

  /** @param {number} design */
  add(design) {
    if (!design) return;
    const { pieces } = this.state.tray;
    const at = pieces.findIndex((/** @type {any} */ one) => one.design === design);
    if (at < 0) this.state.change({ pieces: [...pieces, { design, quantity: 1, order: "" }] });
    else this.quantity(at, pieces[at].quantity + 1);
    byId("design").value = "";
    say("Added.");
    this.show(this.state.view);
  }

  /** @param {number} at @param {number} to */
  quantity(at, to) {
    const count = Math.min(MOST, Math.max(1, Math.round(to) || 1));
    const pieces = this.state.tray.pieces.map((/** @type {any} */ one, /** @type {number} */ index) =>
      index === at ? { ...one, quantity: count } : one);
    const pins = this.state.tray.pins.filter((/** @type {any} */ pin) => pin.piece !== at || pin.copy < count);
    this.state.change({ pieces, pins });
  }

  /** @param {number} at */
  remove(at) {
    const pieces = this.state.tray.pieces.filter((/** @type {any} */ _one, /** @type {number} */ index) => index !== at);
    const pins = this.state.tray.pins
      .filter((/** @type {any} */ pin) => pin.piece !== at)
      .map((/** @type {any} */ pin) => (pin.piece > at ? { ...pin, piece: pin.piece - 1 } : pin));
    this.state.change({ pieces, pins });
    this.show(this.state.view);
    const next = /** @type {HTMLElement | null} */ (document.querySelector(".t-piece button")) ?? byId("design");
    next.focus();
  }

  /** @param {any} view */
  show(view) {
    const { pieces } = this.state.tray;
    byId("pieces-none").hidden = pieces.length > 0;
    const told = view?.pieces.length === pieces.length ? view.pieces : [];
    const now = JSON.stringify([pieces.map((/** @type {any} */ one) => one.design), told.map((/** @type {any} */ one) => [one.title, one.width_mm, one.height_mm, one.problems, one.notes, one.revision])]);
    if (now !== this.drawn) {
      this.drawn = now;
      const focus = document.activeElement?.id ?? "";
      byId("pieces").replaceChildren(...pieces.map((/** @type {any} */ one, /** @type {number} */ at) => this.row(one, at, told[at])));
      if (focus.startsWith("quantity-")) document.getElementById(focus)?.focus();
    }
    pieces.forEach((/** @type {any} */ one, /** @type {number} */ at) => {
      const field = byId(`quantity-${at}`);
      if (field && document.activeElement !== field) field.value = String(one.quantity);
    });
  }

  /** @param {any} piece @param {number} at @param {any} told */
  row(piece, at, told) {
    const title = told?.title || this.designs.find((one) => one.id === piece.design)?.title || "A design that has been removed";
    const row = made("li", "", "t-piece");
    if (told?.revision) {
      const picture = made("img", "", "t-small");
      picture.src = api.proofUrl(piece.design, told.revision, 160, "flat");
      picture.alt = "";
      picture.loading = "lazy";
      row.append(picture);
    }
    const link = made("a", title, "t-piece-title");
    link.href = pages.compose(piece.design);
    const size = told?.width_mm ? `${format(told.width_mm)} × ${format(told.height_mm)}` : "";
    row.append(link, this.away(at, title), made("span", size, "note figure"), this.count(piece, at, title));
    for (const one of told?.problems ?? []) row.append(finding(one, "error"));
    for (const one of told?.notes ?? []) row.append(finding(one, "note"));
    return row;
  }

  /** @param {any} piece @param {number} at @param {string} title */
  count(piece, at, title) {
    const field = made("input", "", "t-count figure");
    Object.assign(field, { type: "number", min: "1", max: String(MOST), step: "1", id: `quantity-${at}` });
    field.value = String(piece.quantity);
    field.setAttribute("aria-label", `How many of ${title}`);
    field.addEventListener("change", () => {
      this.quantity(at, Number(field.value));
      field.value = String(this.state.tray.pieces[at].quantity);
    });
    return field;
  }

  /** @param {number} at @param {string} title */
  away(at, title) {
    const button = made("button", "×", "button button-quiet s-small");
    button.type = "button";
    button.setAttribute("aria-label", `Take ${title} out of the tray`);
    button.addEventListener("click", () => this.remove(at));
    return button;
  }
}
