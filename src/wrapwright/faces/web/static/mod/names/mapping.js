// Which column gives what: a row for each field of the texts, and below it what else a row may change.

import { byId, freshId, make } from "../compose/dom.js";

/** @typedef {import("./types.js").List} List */

const USES = /** @type {[string, string, string[]][]} */ ([
  ["pictures", "Picture of", ["picture", "tile"]],
  ["colours", "Colour of", ["text", "code", "fill"]],
  ["shown", "Whether there is", ["picture", "tile", "text", "code", "fill"]],
]);

export class Mapping {
  /** @param {string[]} cases @param {(mapping: Record<string, any>) => void} changed */
  constructor(cases, changed) {
    this.cases = cases;
    this.changed = changed;
    /** @type {Record<string, any>} */
    this.mapping = {};
  }

  /** @param {List} list */
  show(list) {
    this.list = list;
    this.mapping = list.mapping;
    byId("fields-wait").hidden = true;
    byId("fields-none").hidden = list.fields.length > 0;
    keepFocus(byId("fields"), () => byId("fields").replaceChildren(...list.fields.map((one) => this.field(one))));
    keepFocus(byId("others"), () => byId("others").replaceChildren(...this.others()));
    byId("more").hidden = false;
  }

  /** @param {List["fields"][number]} field */
  field(field) {
    const id = `field-${field.name}`;
    const same = !field.column;
    const trim = make("input", { type: "checkbox", checked: field.trim, id: `${id}-trim` });
    const letters = make("select", { id: `${id}-case` }, ...this.cases.map((one) => make("option", { value: one, selected: one === field.case }, one)));
    const otherwise = make("input", { id: `${id}-otherwise`, value: field.otherwise ?? "", maxLength: 1000, placeholder: "nothing", autocomplete: "off" });
    const column = this.select(id, field.column, same ? "no column" : "");
    const write = () => this.write(field.name, column.value, { trim: trim.checked, case: letters.value, otherwise: otherwise.value });
    for (const one of [column, trim, letters, otherwise]) one.addEventListener("change", write);
    const plain = !field.trim && field.case === "as typed" && field.otherwise === null;
    return make("div", { class: "n-map", "data-same": same && "" },
      make("label", { class: "n-map-name", for: id }, make("b", { class: "n-field" }, `{${field.name}}`), make("span", { "aria-hidden": "true" }, " ← ")),
      column,
      same && make("p", { class: "finding n-map-said", "data-severity": "warning" }, field.given === null || field.given === field.name
        ? "Choose the column that gives it." : `Every piece says “${field.given}”.`),
      make("details", { class: "n-changes" }, make("summary", {}, plain ? "as typed" : told(field)),
        make("div", { class: "n-how" },
          make("label", { class: "n-tick" }, trim, " Trim white space"),
          make("label", { class: "field", for: letters.id }, "Capitals", letters),
          make("label", { class: "field", for: otherwise.id }, "Where the cell is empty", otherwise))));
  }

  others() {
    const { elements } = /** @type {List} */ (this.list);
    const rows = [this.other("Number of pieces", ["quantity"], this.mapping.quantity ?? "")];
    for (const [use, words, kinds] of USES) {
      for (const { name } of elements.filter((one) => kinds.includes(one.kind))) {
        rows.push(this.other(`${words} ${name}`, [use, name], this.mapping[use]?.[name] ?? ""));
      }
    }
    return rows;
  }

  /** @param {string} words @param {string[]} place @param {string} column */
  other(words, [use, element], column) {
    const id = freshId("other");
    const select = this.select(id, column, use === "quantity" ? "one each" : "the design's own");
    select.dataset.place = `${use} ${element ?? ""}`;
    select.addEventListener("change", () => {
      const next = structuredClone(this.mapping);
      if (!element) next[use] = select.value;
      else next[use] = { ...next[use], [element]: select.value };
      this.changed(tidied(next));
    });
    return make("label", { class: "field", for: id }, words, select);
  }

  /** @param {string} id @param {string} column @param {string} none words for no column; "" where there must be one */
  select(id, column, none) {
    const { columns } = /** @type {List} */ (this.list);
    const named = columns.filter((one) => one.name);
    const chosen = named.find((one) => one.name.toLocaleLowerCase() === column.toLocaleLowerCase());
    const lost = column && !chosen;
    return make("select", { id, "aria-invalid": lost ? "true" : null },
      (none || lost) && make("option", { value: lost ? column : "", selected: !chosen }, lost ? `${column} (not in this table)` : none),
      lost && none && make("option", { value: "" }, none),
      ...named.map((one) => make("option", { value: one.name, selected: one === chosen }, one.name)));
  }

  /** @param {string} name @param {string} column @param {{trim: boolean, case: string, otherwise: string}} how */
  write(name, column, how) {
    const next = structuredClone(this.mapping);
    const given = next.fields?.[name];
    const before = typeof given === "object" ? given : {};
    const made = column ? { ...before, column } : null;
    if (made) {
      for (const [key, value, plain] of /** @type {[string, unknown, unknown][]} */ ([["trim", how.trim, false], ["case", how.case, "as typed"], ["otherwise", how.otherwise, ""]])) {
        if (value === plain) delete made[key];
        else made[key] = value;
      }
    }
    next.fields = { ...next.fields, [name]: made && Object.keys(made).length === 1 ? column : made };
    this.changed(tidied(next));
  }
}

/** @param {List["fields"][number]} field */
function told(field) {
  return [field.trim && "trimmed", field.case !== "as typed" && field.case, field.otherwise !== null && `else “${field.otherwise}”`].filter(Boolean).join(", ");
}

/** A mapping without what says nothing. @param {Record<string, any>} mapping */
function tidied(mapping) {
  /** @type {Record<string, any>} */
  const made = {};
  for (const [key, value] of Object.entries(mapping)) {
    if (value && typeof value === "object") {
      const kept = Object.fromEntries(Object.entries(value).filter(([, one]) => one));
      if (Object.keys(kept).length) made[key] = kept;
    } else if (value !== "" && value !== null) {
      made[key] = value;
    }
  }
  return made;
}

/** Put parts anew and leave the focus, and what was unfolded, where they were. @param {HTMLElement} root @param {() => void} put */
function keepFocus(root, put) {
  const held = /** @type {HTMLElement | null} */ (document.activeElement);
  const key = held && root.contains(held) ? held.dataset.place ? `[data-place="${CSS.escape(held.dataset.place)}"]` : `#${CSS.escape(held.id)}` : "";
  const open = [...root.querySelectorAll("details")].map((one) => one.open);
  put();
  [...root.querySelectorAll("details")].forEach((one, at) => { one.open = open[at] ?? false; });
  if (key && key !== "#") /** @type {HTMLElement | null} */ (root.querySelector(key))?.focus();
}
