// A load before it is heated: which heater, recipe and pieces, what is reckoned, what must be ticked, and the start.

import { followUnit, readField } from "../../app/fields.js";
import { heats } from "../../app/pressing/heats.js";
import { say, sayError } from "../../app/say.js";
import { byId, make } from "../../compose/dom.js";
import { celsiusWords, countDown, fahrenheitWords, pieces } from "../watch/time.js";
import { freshKey, surely } from "../heat/sending.js";
import { choice, heaterWords, recipeWords, suits } from "./choices.js";
import { Estimate } from "./estimate.js";
import { Pieces } from "./pieces.js";
import { stepper } from "./stepper.js";

const STEP_C = 5;
const STEP_S = 15;
const ROUND_S = 5;
const HOT_MS = 900000;

/** @typedef {import("../watch/board.js").Heater} Heater */
/** @typedef {import("../watch/board.js").Recipe} Recipe */

/** The form. */
export class Load {
  heater = 0;
  recipe = "";
  /** Asked otherwise than reckoned. @type {number | undefined} */ setC;
  /** @type {number | undefined} */ dwellS;
  /** Measured. @type {number | undefined} */ wallMm;
  /** The one chosen was taken from another screen: another is chosen by hand. */ #taken = false;
  #wallWrong = false;
  #laid = "";
  #ticked = new Set();
  #key = freshKey();
  #all = false;

  /**
   * @param {import("../watch/board.js").Board} board
   * @param {(heat: import("../heat/phases.js").Heat) => void} started
   */
  constructor(board, started) {
    this.board = board;
    this.started = started;
    this.pieces = new Pieces(() => this.#changed());
    this.estimate = new Estimate(() => this.#figures());
    this.set = [make("output", { class: "p-figure" }), make("output", { class: "p-figure-second" })];
    this.dwell = [make("output", { class: "p-figure" }), make("span", { class: "p-figure-second" })];
    stepper(byId("set"), { less: "5 °C cooler", more: "5 °C hotter", shown: this.set, change: (by) => this.#set(by) });
    stepper(byId("dwell"), { less: "15 s shorter", more: "15 s longer", shown: this.dwell, change: (by) => this.#dwell(by) });
    byId("as-reckoned").addEventListener("click", () => { this.setC = this.dwellS = undefined; this.#changed(); byId("start-heat").focus(); });
    followUnit(byId("load-form"));
    byId("wall").addEventListener("change", () => void this.#wall());
    byId("all-recipes").addEventListener("click", () => { this.#all = true; this.lay(); });
    byId("load-form").addEventListener("submit", (/** @type {Event} */ event) => { event.preventDefault(); void this.#start(); });
  }

  get open() {
    return !byId("load").hidden;
  }

  /** What is to be heated next. @param {{recipe?: string, pieces?: string, count?: number}} what */
  want({ recipe, pieces: numbers, count }) {
    if (recipe) this.recipe = recipe;
    if (numbers) this.pieces.add(numbers);
    if (count) this.pieces.be(count);
  }

  /** Open it for a heater. @param {number} heater @param {boolean} [focus] */
  show(heater, focus = true) {
    this.heater = heater;
    this.#taken = false;
    byId("load").hidden = false;
    this.#hot();
    this.pieces.show();
    this.lay();
    if (!focus) return;
    byId("load").scrollIntoView({ block: "start" });
    this.pieces.field.focus({ preventScroll: true });
  }

  close() {
    byId("load").hidden = true;
    this.#rest();
  }

  /** What was asked of this load is over; pieces that did not go in wait for the next. */
  #rest() {
    this.#ticked.clear();
    this.#key = freshKey();
    this.setC = this.dwellS = undefined;
  }

  /** A heater that pieces came out of a while ago needs no preheating. */
  #hot() {
    const now = this.board.clock.now();
    const hot = this.board.heats.some((one) => one.heater.id === this.heater && one.out && now - Date.parse(one.out) < HOT_MS);
    /** @type {HTMLInputElement} */ (byId(hot ? "hot" : "cold")).checked = true;
  }

  /** What there is to choose, where the server's word of it has changed. */
  lay() {
    const { heaters, recipes } = this.board;
    const { free } = this.board;
    if (!free.some((one) => one.id === this.heater)) {
      this.#taken ||= this.heater !== 0;
      this.heater = this.#taken ? 0 : free[0]?.id ?? 0;
    }
    const heater = free.find((one) => one.id === this.heater);
    const fitting = recipes.filter((one) => this.#all || !heater || suits(one, heater));
    if (!fitting.some((one) => one.name === this.recipe)) this.recipe = fitting[0]?.name ?? "";
    const key = JSON.stringify([this.heater, this.recipe, this.#all, heaters.map((one) => [one.id, one.name, one.capacity, one.calibrated, free.includes(one)]), recipes, this.board.circuits]);
    if (key !== this.#laid) {
      this.#laid = key;
      this.#choices(heaters, fitting);
      byId("all-recipes").hidden = fitting.length === recipes.length;
    }
    this.#changed();
  }

  /** @param {Heater[]} heaters @param {Recipe[]} recipes */
  #choices(heaters, recipes) {
    const { free, circuits } = this.board;
    const held = /** @type {HTMLInputElement | null} */ (document.activeElement);
    const [name, value] = [held?.name, held?.value];
    byId("heaters").replaceChildren(...heaters.map((one) => choice(
      { group: "heater", value: String(one.id), words: one.name, small: heaterWords(one, free.includes(one), circuits), checked: one.id === this.heater, off: !free.includes(one) },
      () => { this.heater = one.id; this.#taken = false; this.setC = this.dwellS = undefined; this.#hot(); this.lay(); },
    )));
    byId("recipes").replaceChildren(...recipes.map((one) => choice(
      { group: "recipe", value: one.name, words: one.title, small: recipeWords(one), checked: one.name === this.recipe },
      () => { this.recipe = one.name; this.#ticked.clear(); this.setC = this.dwellS = undefined; this.lay(); },
    )));
    if (name === "heater" || name === "recipe") {
      /** @type {HTMLElement | null} */ (document.querySelector(`#load-form input[name="${name}"][value="${CSS.escape(value ?? "")}"]`))?.focus();
    }
  }

  #changed() {
    const heater = this.board.heaters.find((one) => one.id === this.heater);
    const recipe = this.#recipe();
    this.#capacity(heater);
    this.estimate.ask(heater && recipe && this.open ? {
      heater: heater.id, recipe: recipe.name, pieces: this.pieces.count, set_c: this.setC, dwell_s: this.dwellS, wall_mm: this.wallMm,
    } : null);
    byId("heat-part").hidden = recipe?.preheat === false;
    this.#ticks(recipe);
    this.#cautions(recipe, heater);
    this.#figures();
  }

  #recipe() {
    return this.board.recipes.find((one) => one.name === this.recipe);
  }

  /** @param {Heater | undefined} heater */
  #capacity(heater) {
    if (heater && this.pieces.capacity !== heater.capacity) {
      this.pieces.capacity = heater.capacity;
      this.pieces.show();
    }
    const { count, waiting } = this.pieces;
    const place = byId("count-wrong");
    const over = heater ? count - heater.capacity : 0;
    const words = over > 0 ? `${over} too many.` : waiting.length ? `${waiting.length} more ${waiting.length === 1 ? "waits" : "wait"} for the next load.` : "";
    place.hidden = !words;
    if (heater && words) place.textContent = `${heater.name} holds ${pieces(heater.capacity)}: ${words}`;
  }

  /** Set temperature and dwell, and what the start button says. */
  #figures() {
    const found = this.estimate.found;
    const recipe = this.#recipe();
    const celsius = this.setC ?? found?.set_c ?? (recipe ? (recipe.celsius[0] + recipe.celsius[1]) / 2 : 195);
    const seconds = this.dwellS ?? found?.dwell_s ?? 0;
    this.set[0].textContent = celsiusWords(celsius);
    this.set[1].textContent = fahrenheitWords(celsius);
    this.dwell[0].textContent = seconds ? countDown(seconds) : "–";
    this.dwell[1].textContent = this.dwellS === undefined ? "as reckoned" : "as you set it";
    byId("as-reckoned").hidden = this.setC === undefined && this.dwellS === undefined;
    byId("start-words").textContent = this.#wanting(recipe);
  }

  /** What is wanting before it can start. @param {Recipe | undefined} recipe */
  #wanting(recipe) {
    if (!this.heater) return this.#taken ? "The heater was taken meanwhile. Choose another one first." : "Choose a heater first.";
    if (this.#wallWrong) return "Mend the wall's thickness first, or empty its field.";
    const missing = (recipe?.ticks ?? []).filter((one) => !this.#ticked.has(one.name)).length;
    return missing ? `Tick ${missing === 1 ? "the box" : `the ${missing} boxes`} above first.` : "";
  }

  /** Where what is wanting is found. @returns {HTMLElement | null} */
  #first() {
    if (!this.heater) return document.querySelector("#heaters input:enabled");
    if (this.#wallWrong) return byId("wall");
    return byId("ticks").querySelector("input:not(:checked)");
  }

  /** The wall's thickness as it was typed; what is wrong with it stands below it. */
  async #wall() {
    try {
      this.wallMm = (await readField(byId("wall"))) ?? undefined;
      this.#wallWrong = false;
    } catch {
      this.wallMm = undefined;
      this.#wallWrong = true;
    }
    this.#changed();
  }

  /** @param {number} by */
  #set(by) {
    const now = this.setC ?? this.estimate.found?.set_c;
    if (now === undefined) return;
    const step = now / STEP_C;
    this.setC = STEP_C * (by > 0 ? Math.floor(step + 1e-6) + 1 : Math.ceil(step - 1e-6) - 1);
    this.#changed();
  }

  /** @param {number} by */
  #dwell(by) {
    const now = this.dwellS ?? this.estimate.found?.dwell_s;
    if (now === undefined) return;
    this.dwellS = Math.max(STEP_S, ROUND_S * Math.round(now / ROUND_S) + by * STEP_S);
    this.#changed();
  }

  /** @param {Recipe | undefined} recipe */
  #ticks(recipe) {
    const ticks = recipe?.ticks ?? [];
    const place = byId("ticks");
    byId("ticks-part").hidden = !ticks.length;
    const key = JSON.stringify([recipe?.name, ticks]);
    if (place.dataset.of === key) return;
    place.dataset.of = key;
    place.replaceChildren(...ticks.map((one) => make(
      "label", { class: "p-tick" },
      make("input", {
        type: "checkbox", checked: this.#ticked.has(one.name),
        onchange: (/** @type {Event} */ event) => {
          if (/** @type {HTMLInputElement} */ (event.target).checked) this.#ticked.add(one.name);
          else this.#ticked.delete(one.name);
          this.#figures();
        },
      }),
      make("span", {}, one.text),
    )));
  }

  /** What can hurt at this step, for this ware and heater. @param {Recipe | undefined} recipe @param {Heater | undefined} heater */
  #cautions(recipe, heater) {
    const kind = heater?.kind === "oven" ? "oven" : "press";
    const all = /** @type {{text: string, grave: boolean, ware: string[], heater: string[]}[]} */ (JSON.parse(byId("start").textContent).cautions);
    const found = all.filter((one) => (!one.ware.length || !recipe || one.ware.includes(recipe.ware)) && (!one.heater.length || one.heater.includes(kind)));
    found.sort((one, other) => Number(other.grave) - Number(one.grave));
    const key = found.map((one) => one.text).join("|");
    const place = byId("load-cautions");
    if (place.dataset.of === key) return;
    place.dataset.of = key;
    place.replaceChildren(...found.map((one) => make("p", { class: "pa-caution", "data-grave": one.grave }, one.text)));
  }

  async #start() {
    const trouble = byId("start-trouble");
    const button = byId("start-heat");
    trouble.hidden = true;
    this.pieces.take();
    if (this.#wallWrong) await this.#wall();
    const wanting = this.#wanting(this.#recipe());
    if (wanting) { this.#first()?.focus(); say(wanting); return; }
    button.setAttribute("aria-busy", "true");
    const preheat = this.#recipe()?.preheat !== false && /** @type {HTMLInputElement} */ (byId("cold")).checked;
    const asked = {
      heater: this.heater, recipe: this.recipe, pieces: this.pieces.going, count: this.pieces.count,
      set_c: this.setC, dwell_s: this.dwellS, ticked: [...this.#ticked], preheat, key: this.#key,
      log: byId("log").value.trim(), thickness_mm: this.wallMm,
    };
    try {
      const heat = await surely(() => heats.start(asked), () => button.setAttribute("data-waits", ""));
      this.pieces.gone();
      this.close();
      this.started(heat);
    } catch (error) {
      this.#key = freshKey();
      sayError(trouble, error);
    } finally {
      button.removeAttribute("aria-busy");
      button.removeAttribute("data-waits");
    }
  }
}
