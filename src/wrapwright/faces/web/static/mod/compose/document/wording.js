// The fields in texts: {name} stands for a value, {{ and }} for braces.

import { elementsOf, kindOf } from "./elements.js";

/** @typedef {import("./elements.js").Job} Job */

/**
 * The names of the fields in a text, in the order they come; a brace without its partner is passed over.
 * @param {string} text
 * @returns {string[]}
 */
export function fieldNames(text) {
  const names = [];
  for (const [, name] of text.replace(/\{\{|\}\}/g, "").matchAll(/\{([^{}]+)\}/g)) {
    if (name.trim() && !names.includes(name.trim())) names.push(name.trim());
  }
  return names;
}

/**
 * The fields that the texts and codes of a document use, and those it has a value for.
 * @param {Job} job
 * @returns {string[]}
 */
export function fieldsOf(job) {
  const used = elementsOf(job)
    .filter((element) => ["text", "code"].includes(kindOf(element)))
    .flatMap((element) => fieldNames(String(element.text ?? "")));
  return [...new Set([...used, ...Object.keys(job.fields ?? {})])];
}

/**
 * The document with every field that its texts use standing under [fields], an empty value for a new one, so that
 * the text can be drawn while the value is still to come.
 * @param {Job} job
 * @returns {Job}
 */
export function withFields(job) {
  const values = job.fields ?? {};
  const missing = fieldsOf(job).filter((name) => !(name in values));
  if (!missing.length) return job;
  return { ...job, fields: { ...values, ...Object.fromEntries(missing.map((name) => [name, name])) } };
}

/**
 * Two documents hold the same, whatever the order of their keys.
 * @param {any} one
 * @param {any} other
 * @returns {boolean}
 */
export function alike(one, other) {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object" || !one || !other) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => key in other && alike(one[key], other[key]));
}
