// All that decides how the piece looks in one picture, and what of the page it depends on.

import { linearOf } from "./seen.js";

/** The stage's size and the page's colours, kept until told: reading them in every frame of a drag lays out the whole
 * page anew. */
export class Looks {
  /** @param {HTMLElement} host @param {HTMLElement} stage */
  constructor(host, stage) {
    this.host = host;
    this.stage = stage;
    this.forget();
  }

  forget() {
    this.size = null;
    this.seen = null;
  }

  /** @returns {{width: number, height: number}} of the stage, px */
  room() {
    this.size ??= { width: this.stage.clientWidth, height: this.stage.clientHeight };
    return this.size;
  }

  /** @returns {{heat: string, dark: boolean}} */
  colours() {
    this.seen ??= {
      heat: getComputedStyle(this.host).getPropertyValue("--heat").trim(),
      dark: matchMedia("(prefers-color-scheme: dark)").matches,
    };
    return this.seen;
  }
}

/**
 * `seen` in what is returned is the same whenever the picture would be.
 *
 * @param {import("./turning-view.js").TurningView} view
 * @param {import("./camera.js").Camera} camera
 * @param {number} dots device pixels a pixel of the page
 */
export function sceneOf(view, camera, dots) {
  const { shape, sheets, facing } = view;
  const { frame, solid } = view.drawn;
  const slot = sheets.slot;
  const laid = slot ? sheets.laid[slot] : null;
  const lay = laid?.frame ?? view.frame;
  const { heat, dark } = view.looks.colours();
  const seen = [
    facing, view.tilt, camera.width, camera.height, dots, slot, sheets.uploads, view.solidSaid, solid.coating,
    solid.band_from_mm, solid.band_height_mm, frame.gap_mm, frame.overlap_mm, heat, dark,
  ].join();
  return {
    camera, slot, laid, seen, dots,
    coating: linearOf(solid.coating),
    seam: linearOf(heat),
    band: [solid.band_height_mm, lay?.lower ?? 1, lay?.theta ?? 0, frame.gap_mm / 2],
    join: [frame.overlap_mm, laid && !solid.handle ? 1 : 0],
    floor: { y: shape.low - 0.05, radius: shape.footRadius, dark: dark ? 0.55 : 0.3 },
  };
}
