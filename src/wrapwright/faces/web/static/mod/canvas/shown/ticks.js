/** Where a ruler has its marks, and what is written at them. */

import { plain, unit } from "../../app/lengths.js";

const INCH = 25.4;
const LABEL_PX = 46; // least from one figure to the next
const TICK_PX = 4; // least from one mark to the next

/** Figures' distances, each with the parts it can be divided into; in mm, and in inches. */
const STEPS = {
  mm: [[0.1, 2], [0.2, 2], [0.5, 5], [1, 10], [2, 4], [5, 5], [10, 10], [20, 20], [50, 10], [100, 10], [200, 4]],
  in: [[0.01, 10], [0.05, 5], [0.1, 10], [0.25, 5], [0.5, 8], [1, 16], [2, 16], [5, 10], [10, 10]],
};

/**
 * @typedef {{mm: number, size: 0 | 1 | 2, text: string}} Tick  size 2 carries a figure, 1 is half way to the next
 * @param {number} from mm
 * @param {number} to mm
 * @param {number} scale px a mm
 * @returns {Tick[]}
 */
export function ticks(from, to, scale) {
  const inches = unit() === "in";
  const size = inches ? INCH : 1;
  const steps = inches ? STEPS.in : STEPS.mm;
  const [step, most] = steps.find(([one]) => one * size * scale >= LABEL_PX) ?? steps[steps.length - 1];
  const parts = [most, most / 2, most / 4, 2, 1].find(
    (one) => Number.isInteger(one) && (step * size * scale) / one >= TICK_PX,
  ) ?? 1;
  const small = step / parts;
  const out = [];
  const last = Math.floor(to / size / small + 1e-9);
  for (let i = Math.ceil(from / size / small - 1e-9); i <= last; i += 1) {
    const figured = i % parts === 0;
    const half = parts % 2 === 0 && i % (parts / 2) === 0;
    const text = figured ? plain(i * small, 2) : "";
    out.push({ mm: i * small * size, size: /** @type {0 | 1 | 2} */ (figured ? 2 : half ? 1 : 0), text });
  }
  return out;
}
