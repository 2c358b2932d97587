// A log: dropped or chosen, its columns named, fitted, looked at with its residuals, and kept.

import { evidence } from "../app/pressing/evidence.js";
import { say, sayError } from "../app/say.js";
import { element, form, gathered, get, given, typed } from "./parts.js";

const ROLES = [["", "not used"], ["time", "time"], ["air", "air of the oven"], ["wall", "wall of the blank"]];
const PLACES = {
  unit: "l-unit", at: "l-set", wall: "l-wall", material: "l-material", dates: "l-dates", date: "l-day",
  from: "l-from", to: "l-to", reference: "l-shown",
};

/** @param {number} heater @param {() => void} done */
export function logForm(heater, done) {
  const own = /** @type {HTMLFormElement} */ (get("log"));
  const trouble = /** @type {HTMLElement} */ (own.querySelector("[data-trouble]"));
  const keep = /** @type {HTMLButtonElement} */ (own.querySelector("button[name=keep]"));
  /** @type {File | null} */
  let file = null;

  /** @param {File} chosen */
  async function take(chosen) {
    trouble.hidden = true;
    own.querySelector("[data-result]")?.replaceChildren();
    keep.disabled = true;
    get("log-name").textContent = chosen.name;
    try {
      const look = await evidence.lookAtLog(heater, chosen, {});
      file = chosen;
      columns(look);
      /** @type {HTMLSelectElement} */ (get("l-unit")).value = look.unit === "F" || look.unit === "C" ? look.unit : "";
      for (const id of ["log-columns", "log-more", "log-deeds"]) get(id).hidden = false;
      say(look.questions[0] ?? `${chosen.name} can be read. Say what it was set to, then fit it.`);
    } catch (error) {
      file = null;
      for (const id of ["log-columns", "log-more", "log-deeds"]) get(id).hidden = true;
      sayError(trouble, error);
    }
  }

  drops(get("drop"), (chosen) => void take(chosen));
  own.addEventListener("input", () => { keep.disabled = true; });
  form(own, {
    send: (kept) => {
      if (!file) throw new Error("Choose a log first.");
      return evidence.fitLog(heater, file, { ...said(), keep: kept });
    },
    places: PLACES,
    done,
    seen: () => { keep.disabled = false; },
  });
}

/** @returns {Record<string, unknown>} what the form says of the log */
function said() {
  const covers = [...document.querySelectorAll("#log input[name=cover]:checked")].map((one) => /** @type {HTMLInputElement} */ (one).value);
  return {
    ...roles(), unit: typed("l-unit"), dates: typed("l-dates"), set_c: given("l-set"), material: typed("l-material"),
    wall_mm: given("l-wall"), covers: covers.join(","), true_c: given("l-true"), shown_c: given("l-shown"),
    from_s: given("l-from"), to_s: given("l-to"), ...gathered("l"),
  };
}

/** @returns {Record<string, string>} the number of the column of each role */
function roles() {
  const found = /** @type {Record<string, string>} */ ({});
  for (const one of document.querySelectorAll("#log-columns select")) {
    const select = /** @type {HTMLSelectElement} */ (one);
    if (select.value) found[select.value] = select.dataset.column ?? "";
  }
  return found;
}

/** @param {{columns: {number: number, name: string, role: string}[], rows: string[][]}} look */
function columns(look) {
  const table = element("table", "rows ev-columns");
  const names = element("tr");
  const picks = element("tr");
  for (const one of look.columns) {
    const head = element("th", "", one.name || `Column ${one.number}`);
    head.setAttribute("scope", "col");
    names.append(head);
    const cell = element("td");
    const select = document.createElement("select");
    select.dataset.column = String(one.number);
    select.setAttribute("aria-label", `${one.name || `Column ${one.number}`} is`);
    for (const [value, words] of ROLES) select.add(new Option(words, value, false, value === one.role));
    cell.append(select);
    picks.append(cell);
  }
  const head = element("thead");
  head.append(names);
  const body = element("tbody");
  body.append(picks);
  for (const row of look.rows.slice(0, 4)) {
    const line = element("tr");
    for (const value of row) line.append(element("td", "", value));
    body.append(line);
  }
  table.append(head, body);
  get("log-columns").replaceChildren(table);
}

/** @param {HTMLElement} place @param {(file: File) => void} take */
function drops(place, take) {
  const chosen = /** @type {HTMLInputElement} */ (get("log-file"));
  chosen.addEventListener("change", () => {
    if (chosen.files?.[0]) take(chosen.files[0]);
    chosen.value = "";
  });
  place.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    place.dataset.over = "";
  });
  place.addEventListener("dragleave", () => { delete place.dataset.over; });
  place.addEventListener("drop", (event) => {
    delete place.dataset.over;
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    take(file);
  });
}
