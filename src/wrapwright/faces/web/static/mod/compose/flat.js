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
  const node = byId("plate");
  const stage = /** @type {SVGElement} */ (node.querySelector("svg"));
  const words = /** @type {HTMLElement} */ (node.querySelector("figcaption"));
  const clip = part("path", {}, part("clipPath", { id: "plate-shape" }, stage));
  const ground = part("path", { class: "plate-ground" }, stage);
  const print = part("image", { class: "plate-print", preserveAspectRatio: "none", "clip-path": "url(#plate-shape)" }, stage);
  const edge = part("path", { class: "plate-edge" }, stage);
  const show = () => {
    const { frame, lines, solid, proof } = bench.drawn;
    const flat = Boolean(frame?.plate);
    if (frame) byId("compose").toggleAttribute("data-flat", flat);
    const trim = lines?.find((line) => line.kind === "trim");
    if (!flat || !trim) return;
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
    words.textContent = `${format(width)} × ${format(height)}`;
  };
  bench.listen((parts) => { if (parts.has("drawn")) show(); });
  show();
}
