// One selection and one drag for the wrap, the piece and the dial: what happens in one shows in all.

import { elementsOf } from "./document/elements.js";
import { mmOf } from "./document/measures.js";
import { byId } from "./dom.js";

/**
 * @param {import("./bench.js").Bench} bench
 * @param {import("./acts/acts.js").Acts} acts
 * @param {{straight: () => void, files: (files: File[], place?: object) => void, foot: import("./foot.js").Foot}} more
 */
export function joinViews(bench, acts, { straight, files, foot }) {
  const views = ["canvas", "view", "dial"].map(byId);
  bench.listen((parts) => {
    for (const one of views) {
      // A drag that is over is told before the places that come of it.
      if (parts.has("changing") && one !== source) one.changing = bench.changing;
      if (parts.has("drawn")) one.both = oblong(bench.job);
      if (parts.has("drawn")) one.drawn = bench.drawn;
      if ((parts.has("selected") || parts.has("drawn")) && bench.inStep) one.selected = bench.selected;
    }
  });
  /** The view whose drag it is needs not be told of it. @type {any} */
  let source = null;
  for (const one of views) {
    one.addEventListener("wrapselect", (event) => { if (bench.inStep) bench.select(event.detail.keys); });
    one.addEventListener("wraplive", (event) => { source = one; bench.change(event.detail); source = null; });
    one.addEventListener("wrapchange", (event) => acts.drop(event.detail));
    one.addEventListener("wrapcancel", () => bench.change(null));
    one.addEventListener("wrapstraight", straight);
    one.addEventListener("wrapdrop", (event) => {
      const { at_deg, up_mm } = event.detail;
      files([...event.detail.files], { at_deg, up_mm });
    });
    // The piece and the eye on the dial face the same way.
    one.addEventListener("wrapfacing", (event) => {
      for (const other of views) if (other !== one && "facing" in other) other.facing = event.detail.deg;
    });
    one.addEventListener("wrapcursor", (event) => foot.cursor(event.detail));
  }
}

/** The elements whose width and height are each their own. @param {Record<string, any>} job */
function oblong(job) {
  return elementsOf(job).flatMap((one, at) => (mmOf(one.width) !== null && mmOf(one.height) !== null ? [at] : []));
}
