// The papers that may be used, the liked ones first: name, price, how many there are.

import { byId, made } from "../sheet/dom.js";

export class Papers {
  /** @param {any} state */
  constructor(state) {
    this.state = state;
    byId("paper-add").addEventListener("click", () => {
      byId("papers").append(this.row({ paper: "", price: null, at_hand: null }));
      byId("papers").lastElementChild?.querySelector("input")?.focus();
    });
    const papers = state.tray.papers.length ? state.tray.papers : [{ paper: "", price: null, at_hand: null }];
    byId("papers").replaceChildren(...papers.map((/** @type {any} */ one) => this.row(one)));
  }

  rows() {
    return /** @type {HTMLElement[]} */ ([...byId("papers").querySelectorAll(".t-paper-row")]);
  }

  /** @param {{paper: string, price: number | null, at_hand: number | null}} one */
  row(one) {
    const row = made("div", "", "t-paper-row");
    const paper = this.field(row, "Paper", one.paper, "the printer's own");
    paper.setAttribute("list", "known-papers");
    paper.dataset.key = "paper";
    const price = this.field(row, "Price", one.price === null ? "" : String(one.price), "–");
    price.inputMode = "decimal";
    price.dataset.key = "price";
    const hand = this.field(row, "At hand", one.at_hand === null ? "" : String(one.at_hand), "any");
    hand.inputMode = "numeric";
    hand.dataset.key = "at_hand";
    const away = made("button", "×", "button button-quiet s-small");
    away.type = "button";
    away.setAttribute("aria-label", "Leave this paper out");
    away.addEventListener("click", () => {
      if (this.rows().length > 1) row.remove();
      else for (const field of row.querySelectorAll("input")) field.value = "";
      this.read();
      byId("paper-add").focus();
    });
    row.append(away);
    return row;
  }

  /** @param {HTMLElement} row @param {string} name @param {string} value @param {string} empty */
  field(row, name, value, empty) {
    const label = made("label", name, "field");
    const field = made("input");
    field.value = value;
    field.placeholder = empty;
    field.addEventListener("change", () => this.read());
    label.append(field);
    row.append(label);
    return field;
  }

  read() {
    /** @type {any[]} */
    const papers = [];
    let wrong = false;
    for (const row of this.rows()) {
      const [paper, price, hand] = [...row.querySelectorAll("input")];
      const cost = number(price);
      const count = number(hand);
      wrong ||= Number.isNaN(cost) || Number.isNaN(count);
      if (paper.value.trim() || cost !== null || count !== null) {
        papers.push({ paper: paper.value.trim(), price: cost, at_hand: count === null ? null : Math.round(count) });
      }
    }
    if (!wrong) this.state.change({ papers });
  }
}

/** What stands in a field: null for nothing, NaN (and marked) for what is no number. @param {HTMLInputElement} field */
function number(field) {
  const typed = field.value.trim();
  const value = typed ? Number(typed.replace(",", ".")) : null;
  const bad = value !== null && !(value > 0 || (value === 0 && field.dataset.key === "at_hand"));
  if (bad) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
  return bad ? NaN : value;
}
