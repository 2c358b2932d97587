// One heater that heats: its count-down, what it is at, and what hands can do.

import { heats } from "../../app/pressing/heats.js";
import { say, sayError } from "../../app/say.js";
import { freshId, make } from "../../compose/dom.js";
import { celsiusWords, countUp, fahrenheitWords, pieces } from "../watch/time.js";
import { acts, rare } from "./acts.js";
import { bigFigure, figureWord, phaseWord, seen } from "./phases.js";
import { doseStrip } from "./dose.js";
import { Looks } from "./looks.js";
import { reading } from "./reading.js";
import { rule } from "./rule.js";
import { freshKey, surely } from "./sending.js";

const SURE_MS = 6000;
const MOST_AGO_S = 3600;

/** @typedef {import("./phases.js").Heat} Heat */
/** @typedef {import("./phases.js").Seen} Seen */
/** @typedef {import("./acts.js").Act} Act */

/** The card of one heat; `show` takes the server's word, `tick` lets the time go on. */
export class Card {
  /** @type {Heat} */ heat;
  #shown = "";
  #said = "";
  #moreLaid = "";
  #sending = false;

  /**
   * @param {Heat} heat
   * @param {import("../watch/board.js").Board} board
   * @param {import("../signal/alarms.js").Alarms} alarms
   */
  constructor(heat, board, alarms) {
    this.heat = heat;
    this.board = board;
    this.alarms = alarms;
    const id = freshId("heat");
    this.title = make("h2", { class: "p-name", id }, heat.heater.name);
    this.recipe = make("p", { class: "p-recipe" });
    this.phase = make("p", { class: "p-phase" });
    this.set = make("p", { class: "p-set" });
    this.big = make("p", { class: "p-big", role: "timer" });
    this.what = make("p", { class: "p-what" });
    this.door = make("p", { class: "p-door", hidden: true });
    this.rule = rule();
    this.load = make("p", { class: "p-load" });
    this.dose = doseStrip();
    this.words = make("div", { class: "p-words" });
    this.trouble = make("p", { class: "finding p-trouble", "data-severity": "error", role: "alert", hidden: true });
    this.acts = make("div", { class: "p-acts", role: "group", "aria-label": `${heat.heater.name}: what was done` });
    this.looks = new Looks(this);
    this.more = make("details", { class: "p-more" }, make("summary", {}, "More"));
    this.element = make(
      "article", { class: "p-card", "aria-labelledby": id, "data-heat": String(heat.id) },
      make("header", { class: "p-head" }, this.title, this.recipe),
      make("div", { class: "p-state" }, this.phase, this.set),
      make("div", { class: "p-time" }, this.big, make("div", {}, this.what, this.door)),
      this.rule.element, this.load, this.dose.element, this.trouble, this.acts, this.looks.element, this.words, this.more,
    );
    this.show(heat);
  }

  /** @param {Heat} heat */
  show(heat) {
    this.heat = heat;
    put(this.recipe, `${heat.recipe.title}${heat.recipe.version > 1 ? `, version ${heat.recipe.version}` : ""}`);
    if (!this.set.textContent) this.set.append(make("span", {}, celsiusWords(heat.set_c)), " ", make("span", {}, fahrenheitWords(heat.set_c)));
    const names = heat.pieces.map((one) => one.piece).filter(Boolean);
    const load = `${pieces(heat.pieces.length)}${names.length ? ` ${names.join("  ")}` : ""}`;
    if (this.load.textContent !== load) this.load.replaceChildren(make("strong", {}, pieces(heat.pieces.length)), names.length ? ` ${names.join("  ")}` : "");
    this.tick();
  }

  /** The state now, as this page reckons it. */
  tick() {
    const heat = this.heat;
    const now = seen(heat, this.board.clock.now());
    this.alarms.watch(heat, now);
    const call = this.alarms.of(heat.id);
    put(this.phase, phaseWord(heat, now));
    put(this.big, bigFigure(heat, now));
    put(this.what, figureWord(heat, now) + (now.presumed ? ", by what the server last said" : ""));
    this.big.classList.toggle("p-long", this.big.textContent.length > 5);
    this.element.dataset.phase = now.phase;
    this.#call(call.calls);
    this.#rule(now);
    this.#door(now);
    this.#say();
    const key = JSON.stringify([now.phase, now.turn, call.sounds, heat.door_open, heat.offers, heat.pieces, heat.events.length]);
    if (key !== this.#shown && !this.#sending) {
      this.#shown = key;
      this.#lay(now, call.sounds);
    }
    this.dose.element.hidden = now.phase === "preheat" || now.phase === "ended";
    this.dose.show(heat.dose, heat.loaded !== null);
    return now;
  }

  /** Stand out, and flash anew for each thing that calls. @param {string} what */
  #call(what) {
    if ((this.element.dataset.calls ?? "") === what) return;
    this.element.removeAttribute("data-calls");
    if (!what) return;
    void this.element.offsetWidth; // laid out without it in between, the animation begins again
    this.element.dataset.calls = what;
  }

  /** @param {Seen} now */
  #rule(now) {
    const timed = now.phase === "dwell" || ((now.phase === "preheat" || now.phase === "cool") && now.whole !== null);
    this.rule.element.hidden = !timed;
    if (!timed || !now.whole) return;
    const inside = now.phase === "dwell";
    this.rule.show(now.whole, inside ? this.heat.turn_at_s : [], inside ? this.heat.soak_s : null);
    this.rule.move(now.since / now.whole);
  }

  /** @param {Seen} now */
  #door(now) {
    const opened = this.heat.door_open ? this.heat.events.findLast((one) => one.kind === "door-opened") : undefined;
    this.door.hidden = !opened;
    if (opened) put(this.door, `Door open ${countUp((this.board.clock.now() - Date.parse(opened.at)) / 1000)}`);
  }

  /** The server's words for this step, and its cautions. */
  #say() {
    const { words, cautions } = this.heat;
    const key = JSON.stringify([words, cautions]);
    if (key === this.#said) return;
    this.#said = key;
    this.words.replaceChildren(
      ...words.map((one) => make("p", { class: "p-word" }, one)),
      ...cautions.map((one) => make("p", { class: "pa-caution", "data-grave": one.grave }, one.text)),
    );
  }

  /** Buttons anew; what had the focus keeps it, or hands it to the first button. @param {Seen} now @param {boolean} sounds */
  #lay(now, sounds) {
    const held = this.acts.contains(document.activeElement) ? /** @type {HTMLElement} */ (document.activeElement).dataset.kind : null;
    const found = acts(this.heat, now).map((one) => this.#button(one));
    if (sounds) found.push(make("button", { class: "p-act", type: "button", "data-kind": "quiet", onclick: () => { this.alarms.quiet(this.heat.id); this.tick(); } }, "Quiet"));
    this.acts.replaceChildren(...found);
    this.acts.hidden = !found.length;
    this.looks.show(now.phase === "look" || now.phase === "ended");
    this.#layMore(now);
    if (held !== null) (this.acts.querySelector(`[data-kind="${held}"]`) ?? this.element.querySelector("button"))?.focus();
  }

  /** @param {Seen} now */
  #layMore(now) {
    // What is being typed there is left alone.
    const key = JSON.stringify([now.phase, this.heat.door_open, this.heat.events.length]);
    if (key === this.#moreLaid) return;
    this.#moreLaid = key;
    const [summary] = this.more.children;
    const parts = [summary];
    const found = rare(this.heat, now);
    if (found.length) parts.push(make("div", { class: "p-acts" }, ...found.map((one) => this.#button(one))));
    if (now.phase === "preheat" || now.phase === "dwell") parts.push(reading((celsius) => this.do({ kind: "measured", words: "", celsius })));
    parts.push(make("ol", { class: "p-events" }, ...this.heat.events.map((one) => make(
      "li", {}, make("time", { "data-clock": one.at }, new Date(one.at).toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit", second: "2-digit" })), ` ${one.words}`,
    ))));
    this.more.replaceChildren(...parts);
  }

  /** @param {Act} act */
  #button(act) {
    const words = make("span", { class: "p-act-words" }, act.words);
    const button = make(
      "button", { class: `p-act${act.look ? ` p-act-${act.look}` : ""}`, type: "button", "data-kind": act.kind + (act.seconds ?? "") },
      words, act.small && make("span", { class: "p-act-small" }, act.small),
    );
    let sure = 0;
    button.addEventListener("click", () => {
      if (act.sure && !sure) {
        words.textContent = act.sure;
        say(act.sure);
        sure = window.setTimeout(() => { sure = 0; words.textContent = act.words; }, SURE_MS);
        return;
      }
      window.clearTimeout(sure);
      words.textContent = act.words;
      void this.do(act, button);
    });
    return button;
  }

  /**
   * Tell the server what was done.
   * @param {Act & {celsius?: number}} act @param {HTMLButtonElement} [button]
   */
  async do(act, button) {
    if (this.#sending) return;
    const event = { kind: act.kind, key: freshKey(), seconds: act.seconds, celsius: act.celsius };
    await this.send((ago) => heats.tell(this.heat.id, { ...event, ago_s: Math.min(ago, MOST_AGO_S) }), button);
  }

  /**
   * Send something about this heat; what comes back is shown. Gives whether it was taken.
   * @param {(ago: number) => Promise<Heat>} what @param {HTMLElement} [button] that waits meanwhile
   */
  async send(what, button) {
    if (this.#sending) return false;
    this.#sending = true;
    this.trouble.hidden = true;
    button?.setAttribute("aria-busy", "true");
    try {
      const heat = await surely(what, () => { button?.setAttribute("data-waits", ""); });
      this.#sending = false;
      this.board.renew(heat);
      return true;
    } catch (error) {
      sayError(this.trouble, error);
      return false;
    } finally {
      this.#sending = false;
      button?.removeAttribute("aria-busy");
      button?.removeAttribute("data-waits");
      this.#shown = "";
      this.tick();
    }
  }
}

/** @param {HTMLElement} place @param {string} words */
function put(place, words) {
  if (place.textContent !== words) place.textContent = words;
}
