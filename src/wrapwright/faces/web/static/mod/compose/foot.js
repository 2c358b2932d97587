// The foot of the screen, and the state of its buttons: where the cursor is, what is saved, what can be undone.

import { format } from "../app/lengths.js";
import { say } from "../app/say.js";
import { acrossOf, acrossWords, placeWords } from "./document/places.js";
import { byId } from "./dom.js";

/** @typedef {import("./bench.js").Bench} Bench */

const WORDS = {
  saved: "Saved",
  saving: "Saving",
  away: "Not saved: the server does not answer; what you did is kept here and sent when it answers",
  unsafe: "Not saved: the server does not answer, and this browser keeps nothing; leave the page open",
};
const REFUSED_MS = 8000;

export class Foot {
  /** @param {Bench} bench */
  constructor(bench) {
    this.bench = bench;
    this.saved = byId("saved");
    this.place = byId("place");
    this.again = byId("again");
    this.title = byId("design-title");
    this.spoken = "saved";
    this.note = "";
  }

  show() {
    const { saving, way, design, drawn, frame } = this.bench;
    const unsafe = saving.state === "away" && way && !way.kept.safe;
    const words = saving.state === "failed" ? `Not saved: ${saving.error?.message ?? ""}` : WORDS[unsafe ? "unsafe" : saving.state];
    this.saved.textContent = this.note || words;
    this.saved.dataset.state = this.note ? "failed" : saving.state;
    this.again.hidden = saving.state !== "failed";
    this.speak(words);
    const going = Boolean(way && !way.settled);
    const away = saving.state === "away";
    this.button("undo").disabled = away || !(design.can_undo || going);
    this.button("redo").disabled = away || !design.can_redo || going;
    this.acts();
    this.title.textContent = String(this.bench.job.title ?? design.title);
    const straight = this.button("straight");
    straight.hidden = !drawn.figures || Math.abs(drawn.figures.girth_top_mm - drawn.figures.girth_bottom_mm) < 1e-6;
    straight.setAttribute("aria-pressed", String(frame === "straight"));
  }

  /** What can be done with the selected element. */
  acts() {
    const { chosen, job } = this.bench;
    this.button("duplicate").disabled = this.button("remove").disabled = !chosen;
    this.button("nearer").disabled = !chosen || chosen.element >= (job.element?.length ?? 0) - 1;
    this.button("farther").disabled = !chosen || chosen.element <= 0;
  }

  /** Each change for the worse is spoken, and that it is over. @param {string} words */
  speak(words) {
    const { state } = this.bench.saving;
    if (state === "saving" || state === this.spoken) return;
    if (state !== "saved" || this.spoken !== "saving") say(words);
    this.spoken = state;
  }

  /** @param {string} name @returns {HTMLButtonElement} */
  button(name) {
    return /** @type {HTMLButtonElement} */ (document.querySelector(`[data-do="${name}"]`));
  }

  /** Say for a while why something was not done. @param {any} error */
  refuse(error) {
    this.note = [error.message, error.remedy].filter(Boolean).join(" ");
    say(this.note);
    this.show();
    window.setTimeout(() => { this.note = ""; this.show(); }, REFUSED_MS);
  }

  /** Where an angle is, in words; on a flat blank across it. @param {number} at_deg */
  placed(at_deg) {
    const { frame } = this.bench.drawn;
    if (!frame?.plate) return placeWords(at_deg);
    const across = acrossOf(frame, at_deg);
    return acrossWords(across, format(Math.abs(across)));
  }

  /** @param {{at_deg: number, up_mm: number}|null} cursor */
  cursor(cursor) {
    this.place.textContent = cursor ? `${this.placed(cursor.at_deg)}  ${format(cursor.up_mm)} up` : "";
  }
}
