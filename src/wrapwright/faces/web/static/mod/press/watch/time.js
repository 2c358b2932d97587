// Times and temperatures as they stand on the screen.

import { figure } from "../../app/lengths.js";

const MINUTE_S = 60;
const HOUR_S = 3600;

/**
 * A count-down: "4:07", "1:02:07". What is left is counted to its end, so 0:00 is the end itself.
 * @param {number} seconds
 */
export function countDown(seconds) {
  return clock(Math.max(0, Math.ceil(seconds - 0.001)));
}

/**
 * What has passed: "0:14".
 * @param {number} seconds
 */
export function countUp(seconds) {
  return clock(Math.max(0, Math.floor(seconds + 0.001)));
}

/**
 * A time as one says it: "5 min 20 s", "45 s".
 * @param {number} seconds
 */
export function inWords(seconds) {
  const whole = Math.round(seconds);
  if (whole < MINUTE_S) return `${whole} s`;
  if (whole >= HOUR_S) return `${Math.floor(whole / HOUR_S)} h ${Math.round((whole % HOUR_S) / MINUTE_S)} min`;
  const rest = whole % MINUTE_S;
  return rest ? `${Math.floor(whole / MINUTE_S)} min ${rest} s` : `${whole / MINUTE_S} min`;
}

/**
 * A range of times: "4 to 7 min", "40 s to 1 min 20 s".
 * @param {[number, number]} range
 */
export function span([low, high]) {
  if (low === high) return inWords(low);
  const whole = low >= MINUTE_S && high < HOUR_S && low % MINUTE_S === 0 && high % MINUTE_S === 0;
  return whole ? `${low / MINUTE_S} to ${high / MINUTE_S}\u00a0min` : `${inWords(low)} to ${inWords(high)}`;
}

/** @param {number} celsius */
export const celsiusWords = (celsius) => `${figure(celsius, 0)}\u00a0°C`;

/** @param {number} celsius */
export const fahrenheitWords = (celsius) => `${figure(toFahrenheit(celsius), 0)}\u00a0°F`;

/**
 * A range in both units: "190 to 205 °C (374 to 401 °F)".
 * @param {[number, number]} range in Celsius
 */
export function bothWords([low, high]) {
  if (low === high) return `${celsiusWords(low)} (${fahrenheitWords(low)})`;
  return `${figure(low, 0)} to ${celsiusWords(high)} (${figure(toFahrenheit(low), 0)} to ${fahrenheitWords(high)})`;
}

/** @param {number} celsius */
export const toFahrenheit = (celsius) => celsius * 1.8 + 32;

/** @param {number} fahrenheit */
export const toCelsius = (fahrenheit) => (fahrenheit - 32) / 1.8;

/**
 * "1 piece", "4 pieces".
 * @param {number} count
 */
export const pieces = (count) => (count === 1 ? "1 piece" : `${count} pieces`);

/** @param {number} whole */
function clock(whole) {
  const seconds = String(whole % MINUTE_S).padStart(2, "0");
  if (whole < HOUR_S) return `${Math.floor(whole / MINUTE_S)}:${seconds}`;
  return `${Math.floor(whole / HOUR_S)}:${String(Math.floor((whole % HOUR_S) / MINUTE_S)).padStart(2, "0")}:${seconds}`;
}
