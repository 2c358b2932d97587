// Both ends of a strip side by side, enlarged: drawn for a flat length, and read back from two marks.

const SVG = "http://www.w3.org/2000/svg";
const ZOOM = 3;
const BEFORE = 4.2;
const WIDE = 82;
const TALL = 26;
const MIDDLE = 13;

/**
 * The flat length of a head's mark and a vernier's line, in mm; NaN for marks that a strip does not have.
 * @param {number} head @param {number} line @param {number} divisions
 */
export function flatOf(head, line, divisions) {
  const sound = Number.isInteger(head) && head > 0 && line >= 0 && line <= divisions && Number.isInteger(line * 2);
  return sound ? head + line / divisions : NaN;
}

/**
 * The marks by which a flat length is read: the mark passed, and the line that meets one, to half a line.
 * @param {number} flat @param {number} divisions
 */
export function marksOf(flat, divisions) {
  const halves = Math.round(flat * divisions * 2);
  const head = Math.floor(halves / (divisions * 2));
  return { head, line: (halves - head * divisions * 2) / 2 };
}

/**
 * Draw the picture into an SVG element of 82 by 26.
 * @param {SVGElement} picture
 * @param {number} flat in mm
 * @param {{divisions: number, step: number}} gauge
 */
export function drawVernier(picture, flat, { divisions, step }) {
  const parts = [node("path", { d: `M0 ${MIDDLE}H${WIDE}`, stroke: "currentColor", "stroke-width": 0.25 })];
  const low = flat - BEFORE;
  const across = (/** @type {number} */ mm) => (mm - low) * ZOOM;
  const meets = marksOf(flat, divisions).line;
  for (let mm = Math.ceil(low); across(mm) < WIDE; mm += 1) {
    const long = mm % 5 === 0;
    parts.push(tick(across(mm), MIDDLE - (long ? 7 : 4.5), MIDDLE, 0.25));
    if (long && across(mm) > 3 && across(mm) < WIDE - 3) parts.push(text(across(mm), MIDDLE - 8, String(mm)));
  }
  for (let line = 0; line <= divisions; line += 1) {
    const x = across(flat + line * step);
    const strong = Math.abs(line - meets) <= 0.5 && (Number.isInteger(meets) ? line === meets : true);
    const one = tick(x, MIDDLE, MIDDLE + (line % 5 === 0 ? 6 : 4.5), strong ? 0.6 : 0.25);
    if (strong) one.setAttribute("class", "g-meet");
    parts.push(one, text(x, MIDDLE + 9.2, String(line)));
  }
  const nought = across(flat);
  parts.push(node("path", { d: `M${nought} ${MIDDLE + 10}l-1.1 2h2.2z`, fill: "currentColor" }));
  parts.push(text(1, 2.8, "head", "start", "g-soft"), text(1, TALL - 1, "tail", "start", "g-soft"));
  picture.replaceChildren(...parts);
  picture.setAttribute("aria-label", spoken(flat, divisions));
}

/** @param {number} flat @param {number} divisions */
function spoken(flat, divisions) {
  const { head, line } = marksOf(flat, divisions);
  const which = Number.isInteger(line) ? `line ${line} meets a mark` : `lines ${line - 0.5} and ${line + 0.5} meet marks as well`;
  return `The vernier's 0 has passed ${head}; ${which}.`;
}

/** @param {number} x @param {number} from @param {number} to @param {number} width */
function tick(x, from, to, width) {
  return node("path", { d: `M${x.toFixed(3)} ${from}V${to}`, stroke: "currentColor", "stroke-width": width });
}

/** @param {number} x @param {number} y @param {string} words @param {string} [anchor] @param {string} [how] */
function text(x, y, words, anchor = "middle", how = "") {
  const made = node("text", { x: x.toFixed(3), y, "text-anchor": anchor, class: how });
  made.textContent = words;
  return made;
}

/** @param {string} name @param {Record<string, string | number>} values */
function node(name, values) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) if (value !== "") made.setAttribute(key, String(value));
  return made;
}
