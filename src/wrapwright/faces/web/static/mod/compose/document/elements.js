// What can be done to the elements of a job document: every function returns a new document and leaves the old one be.

import { degreesOf, lengthText, mmOf, rounded, wordOf } from "./measures.js";
import { MOST_COPIES, acrossAt, copiesOf, isFlat, placedAt, same, wholeTurn } from "./places.js";

/**
 * @typedef {import("./places.js").Element} Element
 * @typedef {Record<string, any>} Job A job document.
 */

export const KIND_WORDS = { picture: "picture", text: "text", tile: "pattern", fill: "fill", code: "code" };
const LONGEST_NAME = 80;

/**
 * The elements, back to front.
 * @param {Job} job
 * @returns {Element[]}
 */
export function elementsOf(job) {
  return Array.isArray(job.element) ? job.element : [];
}

/**
 * The kind of an element in small letters.
 * @param {Element} element
 * @returns {string}
 */
export function kindOf(element) {
  return wordOf(element.kind);
}

/**
 * Whether an element covers the wrap from end to end, so that it has no place.
 * @param {Element} element
 * @returns {boolean}
 */
export function goesRound(element) {
  const kind = kindOf(element);
  return kind === "fill" || kind === "tile" || (kind === "picture" && wordOf(element.width) === "wrap");
}

/**
 * The name of each element: as written, else its kind and its number among those of its kind, as checks call it.
 * @param {Job} job
 * @returns {string[]}
 */
export function namesOf(job) {
  /** @type {Record<string, number>} */
  const counts = {};
  return elementsOf(job).map((element) => {
    const kind = kindOf(element) || "element";
    counts[kind] = (counts[kind] ?? 0) + 1;
    return typeof element.name === "string" && element.name ? element.name : `${kind} ${counts[kind]}`;
  });
}

/**
 * A name that no element has yet, whatever the case of its letters: `wanted`, else with a number.
 * @param {Job} job
 * @param {string} wanted
 * @returns {string}
 */
export function freeName(job, wanted) {
  const taken = new Set(namesOf(job).map((name) => name.toLowerCase()));
  const stem = wanted.trim().replace(/\s+\d+$/, "").slice(0, LONGEST_NAME - 4) || "element";
  if (!taken.has(wanted.trim().toLowerCase()) && wanted.trim()) return wanted.trim().slice(0, LONGEST_NAME);
  for (let number = 2; ; number += 1) {
    if (!taken.has(`${stem} ${number}`.toLowerCase())) return `${stem} ${number}`;
  }
}

/**
 * Why an element cannot be called so, or "".
 * @param {Job} job
 * @param {number} index
 * @param {string} name
 * @returns {string}
 */
export function nameProblem(job, index, name) {
  const wanted = name.trim();
  if (!wanted) return "";
  if (wanted.length > LONGEST_NAME) return `A name has at most ${LONGEST_NAME} characters; this one has ${wanted.length}.`;
  const other = namesOf(job).findIndex((one, at) => at !== index && one.toLowerCase() === wanted.toLowerCase());
  return other < 0 ? "" : `Another element is already called ${wanted}. Give each its own name.`;
}

/**
 * The document with one element changed.
 * @param {Job} job
 * @param {number} index
 * @param {(element: Element) => Element} change
 * @returns {Job}
 */
export function withElement(job, index, change) {
  return { ...job, element: elementsOf(job).map((element, at) => (at === index ? change(element) : element)) };
}

/**
 * The document with one value of an element set; `path` may go one table deeper ("outline.width"). A value of
 * undefined takes the key out, and with it a table that is left empty.
 * @param {Job} job
 * @param {number} index
 * @param {string} path
 * @param {unknown} value
 * @returns {Job}
 */
export function withValue(job, index, path, value) {
  return withElement(job, index, (element) => withPath(element, path.split("."), value));
}

/**
 * A table with a value set at a path; undefined takes it out.
 * @param {Record<string, any>} table
 * @param {string[]} path
 * @param {unknown} value
 * @returns {Record<string, any>}
 */
export function withPath(table, [key, ...deeper], value) {
  const inner = deeper.length ? withPath(table[key] ?? {}, deeper, value) : value;
  const { [key]: _gone, ...rest } = table;
  const empty = inner === undefined || (deeper.length > 0 && Object.keys(inner).length === 0);
  return empty ? rest : { ...table, [key]: inner };
}

/**
 * The value at a path of a table, or undefined.
 * @param {Record<string, any>} table
 * @param {string} path
 * @returns {any}
 */
export function valueAt(table, path) {
  return path.split(".").reduce((inner, key) => (inner && typeof inner === "object" ? inner[key] : undefined), table);
}

/**
 * The document with one copy moved: its angle is its own, the height is the element's.
 * @param {Job} job
 * @param {number} index
 * @param {number} copy
 * @param {{at_deg?: number, across_mm?: number, up_mm?: number}} to `across_mm` on a flat blank instead of the angle
 * @returns {Job}
 */
export function moved(job, index, copy, to) {
  return withElement(job, index, (element) => {
    let next = to.across_mm === undefined ? element : acrossAt(element, to.across_mm);
    if (to.at_deg !== undefined) {
      const angles = copiesOf(element).map((angle, at) => (at === copy ? wholeTurn(to.at_deg ?? 0) : angle));
      next = placedAt(next, angles);
    }
    return to.up_mm === undefined ? next : { ...next, up: lengthText(to.up_mm) };
  });
}

/**
 * The document with one element turned, clockwise as seen; upright takes the key out.
 * @param {Job} job
 * @param {number} index
 * @param {number} degrees
 * @returns {Job}
 */
export function turned(job, index, degrees) {
  const turn = rounded(wholeTurn(degrees + 180) - 180);
  return withValue(job, index, "turn", turn === 0 ? undefined : turn);
}

/**
 * The document with one element sized. What the element has of width, height and size changes by the same share as
 * what is seen of it; a side without a figure of its own follows.
 * @param {Job} job
 * @param {number} index
 * @param {{width_mm?: number, height_mm?: number}} to
 * @param {{width_mm: number, height_mm: number}} was
 * @returns {Job}
 */
export function sized(job, index, to, was) {
  const across = to.width_mm === undefined ? undefined : to.width_mm / was.width_mm;
  const upright = to.height_mm === undefined ? undefined : to.height_mm / was.height_mm;
  const shares = { width: across ?? upright, height: upright ?? across, size: upright ?? across };
  return withElement(job, index, (element) => {
    const own = ["width", "height", "size"].filter((key) => element[key] !== undefined && wordOf(element[key]) !== "wrap");
    const both = own.includes("width") && own.includes("height");
    const next = { ...element };
    for (const key of own) {
      const share = both ? { width: across, height: upright }[key] : shares[key];
      if (share !== undefined && share > 0) next[key] = grown(mmOf(element[key]), share, key, to, was);
    }
    return next;
  });
}

/** A length grown by a share; where it is what is seen (or only the server reads it), the figure that was asked for. */
function grown(mm, share, key, to, was) {
  const [seen, asked] = key === "width" ? [was.width_mm, to.width_mm] : [was.height_mm, to.height_mm];
  const own = mm ?? seen;
  const exact = key !== "size" && asked !== undefined && Math.abs(own - seen) < 1e-4;
  return lengthText(exact ? asked : own * share);
}

/**
 * The document with everything that a drop or a burst of keys changed.
 * @param {Job} job
 * @param {{element: number, copy: number, changes: Record<string, number>}} change
 * @param {{width_mm: number, height_mm: number}} was What is seen of the copy before.
 * @returns {Job}
 */
export function changed(job, { element, copy, changes }, was) {
  let next = job;
  if ([changes.at_deg, changes.across_mm, changes.up_mm].some((one) => one !== undefined)) next = moved(next, element, copy, changes);
  if (changes.turn_deg !== undefined) next = turned(next, element, changes.turn_deg);
  if (changes.width_mm !== undefined || changes.height_mm !== undefined) next = sized(next, element, changes, was);
  return next;
}

/** How far beside the first a second one is put on a flat blank. */
const BESIDE_MM = 5;

/**
 * The document with a second element like one of it, in front of it and a little further round.
 * @param {Job} job
 * @param {number} index
 * @param {number} shift_deg
 * @returns {{job: Job, element: number}}
 */
export function duplicated(job, index, shift_deg = 15) {
  const elements = elementsOf(job);
  const twin = structuredClone(elements[index]);
  const beside = () => (isFlat(job)
    ? acrossAt(twin, (mmOf(twin.across) ?? 0) + BESIDE_MM)
    : placedAt(twin, copiesOf(twin).map((angle) => angle + shift_deg)));
  const placed = goesRound(twin) ? twin : beside();
  const named = { ...placed, name: freeName(job, namesOf(job)[index]) };
  return { job: { ...job, element: elements.toSpliced(index + 1, 0, named) }, element: index + 1 };
}

/**
 * The document with a copy exactly opposite another; `already` when there is one.
 * @param {Job} job
 * @param {number} index
 * @param {number} copy
 * @returns {{job: Job, copy: number, already: boolean}}
 */
export function oppositeCopy(job, index, copy) {
  const angles = copiesOf(elementsOf(job)[index]);
  const across = wholeTurn(angles[copy] + 180);
  const there = angles.findIndex((angle) => same(angle, across));
  if (there >= 0) return { job, copy: there, already: true };
  const next = withElement(job, index, (element) => placedAt(element, [...angles, across]));
  return { job: next, copy: angles.length, already: false };
}

/**
 * The document with so many copies of an element evenly round, the first where the chosen one is.
 * @param {Job} job
 * @param {number} index
 * @param {number} copy
 * @param {number} count
 * @returns {Job}
 */
export function spread(job, index, copy, count) {
  const number = Math.max(1, Math.min(MOST_COPIES, Math.round(count)));
  return withElement(job, index, (element) => {
    const first = copiesOf(element)[copy] ?? 0;
    if (!same(first, 0)) return placedAt(element, Array.from({ length: number }, (_, n) => first + (360 * n) / number));
    const { at: _at, around: _around, ...rest } = element;
    return number === 1 ? rest : { ...rest, around: number };
  });
}

/**
 * The document with an element at another place in the order (0 = at the back).
 * @param {Job} job
 * @param {number} from
 * @param {number} to
 * @returns {Job}
 */
export function reordered(job, from, to) {
  const elements = [...elementsOf(job)];
  const [one] = elements.splice(from, 1);
  elements.splice(Math.max(0, Math.min(elements.length, to)), 0, one);
  return { ...job, element: elements };
}

/**
 * The document without one copy; without the whole element when it is its last.
 * @param {Job} job
 * @param {number} index
 * @param {number} copy
 * @returns {Job}
 */
export function removedCopy(job, index, copy) {
  const angles = copiesOf(elementsOf(job)[index]);
  if (angles.length < 2) return removed(job, index);
  return withElement(job, index, (element) => placedAt(element, angles.filter((_, at) => at !== copy)));
}

/**
 * The document without one element.
 * @param {Job} job
 * @param {number} index
 * @returns {Job}
 */
export function removed(job, index) {
  return { ...job, element: elementsOf(job).filter((_, at) => at !== index) };
}

/**
 * The document with an element called otherwise; an empty name takes it out.
 * @param {Job} job
 * @param {number} index
 * @param {string} name
 * @returns {Job}
 */
export function renamed(job, index, name) {
  return withValue(job, index, "name", name.trim() || undefined);
}

/**
 * The own turn of an element, degrees clockwise as seen.
 * @param {Element} element
 * @returns {number}
 */
export function turnOf(element) {
  return degreesOf(element.turn) ?? 0;
}
