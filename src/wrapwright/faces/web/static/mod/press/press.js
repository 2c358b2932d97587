// The screen by the oven: joins the server's word, the cards of what heats, the form for what is next, and the signals.

import { say } from "../app/say.js";
import { byId, make } from "../compose/dom.js";
import { Card } from "./heat/card.js";
import { bigFigure, phaseWord } from "./heat/phases.js";
import { suits, tooMuch } from "./load/choices.js";
import { Load } from "./load/load.js";
import { showPast } from "./past.js";
import { Alarms } from "./signal/alarms.js";
import { Awake } from "./signal/awake.js";
import { Sound } from "./signal/sound.js";
import { Board } from "./watch/board.js";
import { Clock } from "./watch/clock.js";
import { hearScanner } from "./watch/scan.js";

const TICK_MS = 200;

const clock = new Clock();
const board = new Board(clock);
const sound = new Sound();
const awake = new Awake();
const alarms = new Alarms(sound);
/** @type {Map<number, Card>} */
const cards = new Map();
/** @type {{pieces: string, count: number, recipe: string, heater: string}} */
const start = JSON.parse(byId("start").textContent);
const load = new Load(board, (heat) => {
  board.renew(heat);
  const card = cards.get(heat.id);
  card?.element.scrollIntoView({ block: "start" });
  card?.element.querySelector("button")?.focus({ preventScroll: true });
});
let begun = false;
let slept = false;

board.addEventListener("told", () => {
  layCards();
  if (!begun) begin();
  if (load.open) load.lay();
  layFree();
  byId("press").toggleAttribute("data-loading", load.open);
  document.documentElement.toggleAttribute("data-loading", load.open && !byId("board").hidden);
  byId("words").replaceChildren(...board.words.map((one) => make("p", { class: "p-line" }, one)));
  tick();
});
board.addEventListener("back", () => void load.estimate.renew());
byId("away").textContent = "The server does not answer just now. What heats goes on counting to the ends that were last told; a button that is pressed waits for it.";

/** What the address asks for, or the first free heater where nothing heats. */
function begin() {
  begun = true;
  showPast(board.faults, (heat) => {
    load.want({ recipe: heat.recipe.name, count: heat.pieces.length });
    const free = board.free.find((one) => one.id === heat.heater.id) ?? freeFor(heat.recipe.name);
    if (free) load.show(free.id);
    else say("Every heater is taken.");
    board.tell();
  });
  byId("asking").hidden = true;
  const { free } = board;
  const asked = free.find((one) => String(one.id) === start.heater || one.name === start.heater) ?? freeFor(start.recipe);
  const wanted = Boolean(start.pieces || start.count || start.recipe || start.heater);
  if (wanted) load.want(start);
  if (free.length && (wanted || free.length === board.heaters.length)) load.show(asked?.id ?? free[0].id, wanted);
  else if (wanted) say("Every heater is taken. What was asked for waits for the next load.");
}

/** A free heater that suits a recipe, else any. @param {string} name */
function freeFor(name) {
  const recipe = board.recipes.find((one) => one.name === name);
  return board.free.find((one) => recipe && suits(recipe, one)) ?? board.free[0];
}

/** A card for every heat, in the heaters' order. */
function layCards() {
  const { heats } = board;
  const live = new Set(heats.map((one) => one.id));
  let freed = false;
  for (const [id, card] of cards) {
    if (live.has(id)) continue;
    const held = card.element.contains(document.activeElement);
    card.element.remove();
    cards.delete(id);
    if (held) freed = true;
  }
  for (const heat of heats) {
    const card = cards.get(heat.id);
    if (card) card.show(heat);
    else cards.set(heat.id, new Card(heat, board, alarms));
  }
  lay(byId("board"), heats.filter((one) => !isOut(one)));
  lay(byId("out"), heats.filter(isOut));
  alarms.keep(live);
  // What had the focus is gone: it goes to what can be done next.
  if (freed) /** @type {HTMLElement | null} */ (document.querySelector(".p-card button, #free button, #main"))?.focus();
  awake.wanted = heats.some((one) => one.phase !== "look" && one.phase !== "ended");
}

/** @param {import("./heat/phases.js").Heat} heat */
function isOut(heat) {
  return heat.out !== null || heat.phase === "ended";
}

/** @param {HTMLElement} place @param {import("./heat/phases.js").Heat[]} heats */
function lay(place, heats) {
  heats.forEach((heat, at) => {
    const card = cards.get(heat.id);
    if (!card || place.children[at] === card.element) return;
    const held = card.element.contains(document.activeElement);
    place.insertBefore(card.element, place.children[at] ?? null);
    if (held) card.element.querySelector("button")?.focus();
  });
  place.hidden = !heats.length;
}

/** A large button for every heater that is free, while the form is closed. */
function layFree() {
  const { free } = board;
  const said = free.map((one) => tooMuch(one, board.circuits) || "is free: load it");
  const key = JSON.stringify(free.map((one, at) => [one.id, one.name, said[at]]));
  const place = byId("free");
  place.hidden = load.open || !free.length;
  byId("no-heater").hidden = board.heaters.length > 0;
  if (place.dataset.of === key) return;
  place.dataset.of = key;
  place.replaceChildren(...free.map((one, at) => make("button", {
    class: "p-act p-free", type: "button", onclick: () => { load.show(one.id); board.tell(); },
  }, make("span", { class: "p-act-words" }, one.name), make("span", { class: "p-act-small" }, said[at]))));
}

byId("load").addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
  if (event.key === "Escape") byId("load-close").click();
});

byId("load-close").addEventListener("click", () => {
  load.close();
  board.tell();
  /** @type {HTMLElement | null} */ (document.querySelector("#free button, #main"))?.focus();
});

hearScanner((text) => {
  const looked = document.querySelector(`.p-looked[data-piece="${CSS.escape(text)}"] button`);
  if (looked instanceof HTMLElement) {
    looked.focus();
    say(text);
    return;
  }
  const [free] = board.free;
  if (load.open) load.pieces.add(text);
  else if (free) {
    load.want({ pieces: text });
    load.show(free.id);
    board.tell();
  }
});

/** Sound: one button that says how it is. */
function showSound() {
  const button = byId("sound");
  button.setAttribute("aria-pressed", String(sound.wanted));
  button.textContent = sound.heard ? "Sound on" : sound.wanted ? "Tap for sound" : "Sound off";
  button.classList.toggle("p-wants", sound.wanted && !sound.heard);
}
byId("sound").addEventListener("click", () => void sound.want(!sound.heard));
sound.addEventListener("change", showSound);
showSound();
byId("dark").hidden = awake.can;

function tick() {
  if (!clock.known) return;
  let first = "";
  let least = Infinity;
  for (const card of cards.values()) {
    const now = card.tick();
    if (now.phase === "look" || now.phase === "ended") continue;
    const left = now.left ?? (now.over === null ? Infinity : -1);
    if (left < least) {
      least = left;
      first = `${bigFigure(card.heat, now)} ${phaseWord(card.heat, now)}, ${card.heat.heater.name}`;
    }
  }
  document.title = `${first ? `${first} · ` : ""}Press · Wrapwright`;
  if (clock.slept && !slept) void board.ask();
  slept = clock.slept;
}

window.setInterval(tick, TICK_MS);
void board.ask();
