// A map of an oven: points in rows, each a setting, a place and what was read there.

import { evidence } from "../app/pressing/evidence.js";
import { element, form, gathered, get, given } from "./parts.js";

const FIELDS = [["set", "Set to", "200 C"], ["place", "Place", "top left"], ["read", "Read", "205 C"]];
const BEGUN_WITH = 3;

/** @param {number} heater @param {() => void} done */
export function mapForm(heater, done) {
  const rows = get("points");
  for (let at = 0; at < BEGUN_WITH; at += 1) rows.append(row());
  get("more-points").addEventListener("click", () => {
    const made = row(/** @type {HTMLInputElement | null} */ (rows.lastElementChild?.querySelector("[data-key=set]"))?.value);
    rows.append(made);
    made.querySelector("input")?.focus();
  });
  rows.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement} */ (event.target).closest("button");
    if (!button || rows.children.length < 2) return;
    button.closest("tr")?.remove();
    get("more-points").focus();
  });
  form(/** @type {HTMLFormElement} */ (get("map")), {
    send: (keep) => evidence.map(heater, { points: points(), ...gathered("m"), keep }),
    places: { date: "m-day" },
    done,
  });
}

/** @returns {{set_c: string, place: string, read_c: string, half_k: string | number}[]} the rows in which anything is read */
function points() {
  const half = given("m-half") ?? 5;
  return [...get("points").children].map((one) => {
    const value = (/** @type {string} */ key) => /** @type {HTMLInputElement} */ (one.querySelector(`[data-key=${key}]`)).value.trim();
    return { set_c: value("set"), place: value("place"), read_c: value("read"), half_k: half };
  }).filter((one) => one.read_c || one.place);
}

/** @param {string} [set] */
function row(set = "") {
  const made = element("tr");
  for (const [key, words, example] of FIELDS) {
    const cell = element("td");
    const input = document.createElement("input");
    input.dataset.key = key;
    input.setAttribute("aria-label", words ?? "");
    input.placeholder = example ?? "";
    input.maxLength = 40;
    if (key === "set") input.value = set;
    cell.append(input);
    made.append(cell);
  }
  const end = element("td");
  const button = element("button", "button button-quiet", "Remove");
  button.setAttribute("type", "button");
  button.append(element("span", "only-spoken", " this point"));
  end.append(button);
  made.append(end);
  return made;
}
