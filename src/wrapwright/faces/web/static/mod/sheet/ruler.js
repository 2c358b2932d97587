// The ticks of a ruler at a scale: which lengths get a line, and which a figure.

const MM_PER_INCH = 25.4;
const STEPS_MM = [0.1, 0.5, 1, 5, 10, 50, 100];
const STEPS_IN = [0.01, 0.05, 0.1, 0.5, 1, 5];
const LEAST_PX = 5;
const FIGURE_PX = 44;

/**
 * @param {number} scale px per mm
 * @param {number} from mm
 * @param {number} to mm
 * @param {"mm" | "in"} unit
 * @returns {{mm: number, long: number, words: string}[]}
 */
export function ticks(scale, from, to, unit) {
  const size = unit === "in" ? MM_PER_INCH : 1;
  const steps = unit === "in" ? STEPS_IN : STEPS_MM;
  const small = steps.find((one) => one * size * scale >= LEAST_PX) ?? steps[steps.length - 1];
  const large = steps.find((one) => one * size * scale >= FIGURE_PX) ?? steps[steps.length - 1];
  const every = Math.max(1, Math.round(large / small));
  const made = [];
  for (let at = Math.ceil(from / (small * size)); at * small * size <= to && made.length < 2000; at += 1) {
    const figured = at % every === 0;
    const value = at * small;
    made.push({ mm: value * size, long: figured ? 10 : 5, words: figured ? String(Math.round(value * 1e4) / 1e4) : "" });
  }
  return made;
}
