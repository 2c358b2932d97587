// A flat blank as pressed, beside its flat shape: it has no sides to turn to, so that it stands for dial and piece.

import { format } from "../app/lengths.js";
import { byId } from "./dom.js";

const SVG = "http://www.w3.org/2000/svg";
/** Room round it for the hairline of its edge, as a share of its longer side. */
const ROOM = 0.02;

/** @param {string} name @param {Record<string, string>} values @param {Element} [into] */
function part(name, values, into) {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) node.setAttribute(key, value);
  into?.append(node);
  return node;
}

/** Show the piece of a flat blank, or leave the place to dial and turning view. @param {import("./bench.js").Bench} bench */
export function joinFlat(bench) {
  const show = () => {
    const { frame } = bench.drawn;
    if (frame) byId("compose").toggleAttribute("data-flat", Boolean(frame.plate));
    showPlate(byId("plate"), bench.drawn);
  };
  bench.listen((parts) => { if (parts.has("drawn")) show(); });
  show();
}

/** @param {SVGElement} stage the parts of a plate, made once */
function partsOf(stage) {
  const clip = stage.querySelector("clipPath path") ?? part("path", {}, part("clipPath", { id: "plate-shape" }, stage));
  const own = (/** @type {string} */ look, /** @type {() => SVGElement} */ fresh) => stage.querySelector(`.${look}`) ?? fresh();
  return {
    clip,
    ground: own("plate-ground", () => part("path", { class: "plate-ground" }, stage)),
    print: own("plate-print", () => part("image", { class: "plate-print", preserveAspectRatio: "none", "clip-path": "url(#plate-shape)" }, stage)),
    edge: own("plate-edge", () => part("path", { class: "plate-edge" }, stage)),
  };
}

/** Show a flat blank as pressed in a figure; nothing of one that is not flat. @param {HTMLElement} node @param {any} drawn */
export function showPlate(node, drawn) {
  const stage = /** @type {SVGElement} */ (node.querySelector("svg"));
  const { frame, lines, solid, proof } = drawn;
  const trim = lines?.find((/** @type {any} */ line) => line.kind === "trim");
  const { clip, ground, print, edge } = partsOf(stage);
  if (!frame?.plate || !trim) return;
  for (const path of [clip, ground, edge]) path.setAttribute("d", trim.d);
  ground.setAttribute("fill", solid?.coating ?? "var(--sheet)");
  const [x, y, width, height] = [-frame.lower_mm / 2, -frame.height_mm, frame.lower_mm, frame.height_mm];
  const room = ROOM * Math.max(width, height);
  stage.setAttribute("viewBox", `${x - room} ${y - room} ${width + 2 * room} ${height + 2 * room}`);
  stage.setAttribute("aria-label", `The blank as pressed, ${format(width)} wide and ${format(height)} high`);
  if (proof) {
    ["x", "y", "width", "height"].forEach((key, at) => print.setAttribute(key, String(proof.box[at])));
    print.setAttribute("href", proof.url);
  }
  /** @type {HTMLElement} */ (node.querySelector("figcaption")).textContent = `${format(width)} × ${format(height)}`;
}
