// Where the chosen copy lies: its angle, the same in mm round from the front and from the seam, and its height; on a
// flat blank its distance from the middle.

import { frameOf } from "../../canvas/frame.js";
import { bare, plain, read, unit } from "../../app/lengths.js";
import { goesRound, moved, withValue } from "../document/elements.js";
import { mmOf, rounded, wordOf } from "../document/measures.js";
import { SIDES, acrossOf, angleOf, copiesOf, isFlat, same, wholeTurn } from "../document/places.js";
import { make } from "../dom.js";
import { lengthField, numberIn, ownField } from "./control.js";

/** @typedef {import("../bench.js").Bench} Bench */

/** An angle from half a turn left of the front to half a turn right of it. @param {number} degrees */
function fromFront(degrees) {
  const turned = wholeTurn(degrees + 180) - 180;
  return turned === -180 ? 180 : turned;
}

/** Where the chosen copy lies now, a drag in hand included. @param {Bench} bench */
export function placeNow(bench) {
  const chosen = bench.chosen;
  const element = chosen && bench.job.element?.[chosen.element];
  if (!element) return null;
  const drawn = bench.copyDrawn(chosen);
  const live = bench.changing && drawn && bench.changing.key === drawn.key ? bench.changing : null;
  const at_deg = live?.at_deg ?? copiesOf(element)[chosen.copy] ?? 0;
  const up_mm = live?.up_mm ?? mmOf(element.up) ?? drawn?.up_mm ?? null;
  return { at_deg, up_mm, live, drawn, table: element };
}

/** The frame whose lengths are those of the paper: straightened, every height is as long as the middle. */
function paperFrame(bench) {
  const { flat, drawn: { frame } } = bench;
  if (!frame || frame.kind === "flat" || !flat) return frame;
  const middle = (flat.lower_mm + flat.upper_mm) / 2;
  return Math.abs(middle - frame.lower_mm) < 1e-3 && Math.abs(flat.height_mm - frame.height_mm) < 1e-6 ? flat : frame;
}

/** Millimetres of one whole turn at the chosen copy's height. @param {Bench} bench */
function turnLength(bench) {
  const view = paperFrame(bench);
  const place = placeNow(bench);
  return view && place ? frameOf(view).turnLength(place.up_mm ?? view.height_mm / 2) : null;
}

/** @param {Bench} bench @param {{at_deg?: number, up_mm?: number}} to */
function move(bench, to) {
  const chosen = bench.chosen;
  if (chosen) bench.edit((job) => moved(job, chosen.element, chosen.copy, to));
}

/** A field for mm round the blank; `angle` and `back` go between an angle and that count, `gap` mm are left out of it. */
function roundField(bench, label, path, { angle, back, gap = () => 0 }) {
  return ownField({ label, path, get: () => placeNow(bench)?.at_deg, commit: (at_deg) => move(bench, { at_deg }) }, {
    say: (at_deg) => {
      const length = turnLength(bench);
      return length === null || at_deg === undefined ? "" : bare((back(at_deg) / 360) * length - gap(), 3);
    },
    hear: async (text) => {
      const length = turnLength(bench);
      if (length === null) throw new Error("The blank cannot be drawn yet, so there is no distance round it.");
      return angle((((await read(text)) + gap()) / length) * 360);
    },
    unit, number: numberIn, step: 0.5,
  });
}

/** @param {Bench} bench @returns {import("./control.js").Field} */
function angleField(bench) {
  return ownField({ label: "At", path: "at", get: () => placeNow(bench)?.at_deg, commit: (at_deg) => move(bench, { at_deg }) }, {
    say: (at_deg) => (at_deg === undefined ? "" : plain(at_deg, 3)),
    hear: (text) => {
      const angle = angleOf(text);
      if (angle === null || Math.abs(numberIn(text) ?? 0) > 360) {
        throw new Error(`"${text.slice(0, 30)}" is not a place round the blank. Write front, right, back, left or 0 to 360.`);
      }
      return angle;
    },
    unit: () => "°", number: numberIn, step: 1,
  });
}

/** The four sides as buttons: the one the copy is exactly at is pressed. @param {Bench} bench */
function sideButtons(bench) {
  const buttons = SIDES.map(([word, at_deg]) => make("button", {
    type: "button", onclick: () => move(bench, { at_deg }), "data-path": `side.${word}`,
  }, word[0].toUpperCase() + word.slice(1)));
  const node = make("div", { class: "switch field-wide", role: "group", "aria-label": "Side" }, ...buttons);
  const show = () => {
    const at_deg = placeNow(bench)?.at_deg;
    SIDES.forEach(([, angle], at) => buttons[at].setAttribute("aria-pressed", String(at_deg !== undefined && same(angle, at_deg))));
  };
  return { node, show, path: "side" };
}

/** Where it is across a flat blank. @param {Bench} bench */
function acrossField(bench) {
  const get = () => {
    const place = placeNow(bench);
    const { frame } = bench.drawn;
    if (!place) return undefined;
    if (place.live && frame) return acrossOf(frame, place.live.at_deg);
    return mmOf(place.table.across) ?? place.drawn?.across_mm ?? 0;
  };
  return lengthField({
    label: "Right of the middle", path: "across", optional: true,
    get: () => rounded(get() ?? 0),
    commit: (value) => {
      const chosen = bench.chosen;
      const across = value === undefined || mmOf(value) === 0 ? undefined : value;
      if (chosen) bench.edit((job) => withValue(job, chosen.element, "across", across));
    },
  });
}

/** @param {Record<string, any>} element */
function inMiddle(element) {
  return element.up === undefined || wordOf(element.up) === "middle";
}

/** @param {Bench} bench */
function upField(bench) {
  return lengthField({
    label: "Up from lower edge", path: "up", words: ["middle"], optional: true,
    get: () => {
      const place = placeNow(bench);
      return place?.up_mm === null || place === null ? "middle" : rounded(place.up_mm);
    },
    commit: (value) => {
      const chosen = bench.chosen;
      const up = value === "middle" ? undefined : value;
      if (chosen) bench.edit((job) => withValue(job, chosen.element, "up", up));
    },
  });
}

/** @param {Bench} bench */
function middleButton(bench) {
  const node = make("button", {
    type: "button", class: "button", "data-path": "up.middle",
    onclick: () => { const chosen = bench.chosen; if (chosen) bench.edit((job) => withValue(job, chosen.element, "up", undefined)); },
  }, "Middle");
  const show = () => {
    const place = placeNow(bench);
    node.setAttribute("aria-pressed", String(Boolean(place) && inMiddle(place.table)));
  };
  return { node: make("div", { class: "field field-end" }, node), show, path: "up.middle" };
}

/**
 * The fields of the chosen copy's place.
 * @param {Bench} bench
 * @param {Record<string, any>} element
 * @returns {import("./control.js").Field[]}
 */
export function placeFields(bench, element) {
  const kind = String(element.kind).trim().toLowerCase();
  if (kind === "fill" || kind === "tile") return [];
  const height = [upField(bench), middleButton(bench)];
  if (goesRound(element)) return height;
  const view = () => bench.drawn.frame;
  const left = () => (view() ? view().seam_deg : 0);
  const gap = () => (view() ? view().gap_mm / 2 : 0);
  if (isFlat(bench.job)) return [acrossField(bench), ...height];
  const end = gap() > 0 ? "Round from handle" : "Round from seam";
  return [
    sideButtons(bench),
    angleField(bench),
    roundField(bench, "Round from front", "round.front", { angle: wholeTurn, back: fromFront }),
    roundField(bench, end, "round.seam", {
      angle: (turn) => wholeTurn(turn + left()), back: (at) => wholeTurn(at - left()), gap,
    }),
    ...height,
  ];
}
