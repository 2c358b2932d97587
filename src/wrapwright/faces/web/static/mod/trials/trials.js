// One trial: scored with big keys, its window and table following, a next coupon added, its window taken.

import { ask } from "../app/ask.js";
import { mark } from "../app/fields.js";
import { screen, trials } from "../app/pressing/trials.js";
import { say, sayError } from "../app/say.js";
import { openPlan } from "./plan.js";
import { openPrint } from "./printing.js";

const SETTLED_MS = 300;
const PARTS = ["t-window", "t-coupons", "t-next", "t-on"];
const root = /** @type {HTMLElement} */ (document.getElementById("trials"));
const id = Number(root.dataset.trial ?? 0);
const card = /** @type {HTMLFormElement | null} */ (document.getElementById("t-card"));
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));

const plan = /** @type {HTMLFormElement | null} */ (document.getElementById("t-plan"));
if (plan) openPlan(plan);
const printing = /** @type {HTMLFormElement | null} */ (document.getElementById("t-print"));
if (printing) openPrint(printing, id);
if (card) openCard(card);

/** Scores and the screen's deeds go one after the other, so that none overtakes another. */
let queue = Promise.resolve();

/** @param {() => Promise<unknown>} step @param {HTMLElement} place where it is told what went wrong */
function inTurn(step, place) {
  queue = queue.then(async () => {
    place.hidden = true;
    try {
      const told = /** @type {{revision?: number} | null} */ (await step());
      if (told?.revision) root.dataset.revision = String(told.revision);
      await refresh();
    } catch (error) {
      sayError(place, error);
    }
  });
  return queue;
}

/** Put what the server shows now in place of the parts that follow from the scores. */
async function refresh() {
  const text = await trials.screen(id, Number(card?.dataset.coupon ?? 0));
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const focused = /** @type {HTMLElement | null} */ (document.activeElement)?.dataset.act;
  for (const part of PARTS) {
    const from = fresh.getElementById(part);
    if (from) document.getElementById(part)?.replaceChildren(...from.childNodes);
  }
  root.dataset.revision = fresh.getElementById("trials")?.dataset.revision ?? root.dataset.revision;
  if (focused && document.activeElement === document.body) {
    /** @type {HTMLElement | null} */ (document.querySelector(`[data-act="${focused}"]`) ?? document.getElementById("t-coupons"))?.focus();
  }
}

/** @param {HTMLFormElement} form */
function openCard(form) {
  const number = Number(form.dataset.coupon);
  const place = /** @type {HTMLElement} */ (document.getElementById("score-trouble"));
  const heated = /** @type {HTMLInputElement} */ (document.getElementById("heated"));
  for (const one of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll(":disabled"))) one.disabled = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  // Arrow keys run through the scores on their way to the one that is meant: what they stop at is sent.
  /** @type {Record<string, number>} */
  let waiting = {};
  let timer = 0;
  let byKeys = false;
  const send = () => {
    window.clearTimeout(timer);
    const scores = waiting;
    waiting = {};
    if (Object.keys(scores).length) void inTurn(() => trials.score(id, { number, ...scores }), place);
  };
  form.addEventListener("keydown", () => { byKeys = true; });
  form.addEventListener("pointerdown", () => { byKeys = false; });
  form.addEventListener("focusout", (event) => {
    const [from, to] = [event.target, event.relatedTarget].map((one) => /** @type {HTMLInputElement | null} */ (one)?.name ?? "");
    if (from !== to) send();
  });
  form.addEventListener("change", (event) => {
    const key = /** @type {HTMLInputElement} */ (event.target);
    if (key.type !== "radio") return;
    say(`Coupon ${number}, ${key.name} ${key.value}.`);
    waiting[key.name] = Number(key.value);
    window.clearTimeout(timer);
    if (byKeys) timer = window.setTimeout(send, SETTLED_MS);
    else send();
  });
  form.addEventListener("click", (event) => {
    const act = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset.act;
    if (act === "heated") void keepTime();
    if (act === "clear") {
      void inTurn(async () => {
        const told = await trials.clear(id, number);
        for (const key of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll(":checked"))) key.checked = false;
        return told;
      }, place);
    }
  });
  heated.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    void keepTime();
  });

  async function keepTime() {
    mark(heated, "");
    if (!heated.value.trim()) {
      mark(heated, "Type how long it was heated, with min or s.");
      heated.focus();
      return;
    }
    try {
      await trials.score(id, { number, heated: heated.value.trim() });
      location.assign(screen(id, number));
    } catch (error) {
      const one = /** @type {any} */ (error);
      if (one.where === "dwell") mark(heated, [one.message, one.remedy].filter(Boolean).join(" "));
      else sayError(place, error);
      heated.focus();
    }
  }
}

document.addEventListener("click", async (event) => {
  const button = /** @type {HTMLElement} */ (event.target).closest("button");
  const seen = Number(root.dataset.revision ?? 0);
  if (!button || !id) return;
  if (button.dataset.act === "accept") await inTurn(() => trials.accept(id, true, seen), trouble);
  if (button.dataset.act === "no-longer") await inTurn(() => trials.accept(id, false, seen), trouble);
  if (button.dataset.act === "add") {
    button.disabled = true;
    try {
      const told = await trials.add(id, seen);
      location.assign(`${screen(id, told.coupons.length)}#t-card`);
    } catch (error) {
      button.disabled = false;
      sayError(trouble, error);
      trouble.scrollIntoView({ block: "nearest" });
    }
  }
});

const remove = /** @type {HTMLButtonElement | null} */ (document.getElementById("t-remove"));
if (remove) {
  remove.disabled = false;
  remove.addEventListener("click", async () => {
    const sure = await ask({
      title: `Remove the trial “${root.dataset.name}”?`,
      words: "Its scores go with it; what was planned by its window goes by the recipe's own range again.",
      yes: "Remove it", grave: true,
    });
    if (!sure) return;
    try {
      await trials.remove(id);
      location.assign(screen());
    } catch (error) {
      sayError(trouble, error);
    }
  });
}
