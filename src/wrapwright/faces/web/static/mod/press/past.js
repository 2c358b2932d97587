// What was heated before: found by piece, opened for what happened, heated again the same way.

import { heats } from "../app/pressing/heats.js";
import { figure } from "../app/lengths.js";
import { showTimes } from "../app/figures.js";
import { sayError } from "../app/say.js";
import { byId, make } from "../compose/dom.js";
import { bothWords, inWords, pieces } from "./watch/time.js";

const REST_MS = 250;

/** @typedef {import("./heat/phases.js").Heat} Heat */

/**
 * Fill the list whenever it is opened or something is sought in it.
 * @param {Record<string, string>} faults @param {(heat: Heat) => void} again
 */
export function showPast(faults, again) {
  const place = byId("past");
  let timer = 0;
  const fill = async () => {
    try {
      const found = await heats.past({ piece: byId("past-piece").value.trim() });
      const ended = found.filter((/** @type {Heat} */ one) => one.phase === "ended");
      byId("past-rows").replaceChildren(...ended.map((/** @type {Heat} */ one) => row(one, faults, again)));
      byId("past-none").hidden = ended.length > 0;
      showTimes(place);
    } catch (error) {
      sayError(byId("past-trouble"), error);
    }
  };
  place.addEventListener("toggle", () => { if (place.open) void fill(); });
  byId("past-piece").addEventListener("input", () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void fill(), REST_MS);
  });
  byId("past-piece").addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Enter") void fill();
  });
}

/** @param {Heat} heat @param {Record<string, string>} faults @param {(heat: Heat) => void} again */
function row(heat, faults, again) {
  const dose = heat.dose.now === null ? "" : ` · dose ${figure(heat.dose.now, 1)} min at 195\u00a0°C (383\u00a0°F)`;
  const inside = heat.loaded ? `in for ${inWords(heat.in_s)} of ${inWords(heat.dwell_s)}${dose}` : "nothing was put in";
  return make(
    "li", { class: "p-past-row" },
    make("details", {},
      make("summary", {}, make("strong", {}, heat.heater.name), " ", make("time", { dateTime: heat.started }), ` · ${heat.recipe.title} · ${results(heat, faults)}`),
      make("p", {}, `${bothWords([heat.set_c, heat.set_c])} · ${inside}`),
      make("p", {}, heat.pieces.map((one) => `${one.piece || `piece ${one.place}`}: ${word(one.result, faults)}`).join(", ")),
      ...heat.words.map((one) => make("p", {}, one)),
      make("ol", { class: "p-events" }, ...heat.events.map((one) => make("li", {}, `${new Date(one.at).toLocaleTimeString()} ${one.words}`))),
    ),
    make("button", { class: "p-act", type: "button", onclick: () => again(heat) }, "Same again", make("span", { class: "only-spoken" }, ` as heat ${heat.id}`)),
  );
}

/** "2 good, 1 faded". @param {Heat} heat @param {Record<string, string>} faults */
function results(heat, faults) {
  if (!heat.loaded) return "stopped";
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const one of heat.pieces) counts.set(one.result, (counts.get(one.result) ?? 0) + 1);
  return `${pieces(heat.pieces.length)}: ${[...counts].map(([result, count]) => `${count} ${word(result, faults)}`).join(", ")}`;
}

/** @param {string} result @param {Record<string, string>} faults */
function word(result, faults) {
  if (!result) return "not looked at";
  return (faults[result]?.split(": ")[0] ?? result).toLowerCase();
}
