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

/** The fields that the texts and codes of a document use. @param {Job} job @returns {string[]} */
function usedFields(job) {
  const texts = elementsOf(job).filter((element) => ["text", "code"].includes(kindOf(element)));
  return [...new Set(texts.flatMap((element) => fieldNames(String(element.text ?? ""))))];
}

/**
 * The fields that the texts and codes of a document use, and those it has a value for.
 * @param {Job} job
 * @returns {string[]}
 */
export function fieldsOf(job) {
  return [...new Set([...usedFields(job), ...Object.keys(job.fields ?? {})])];
}

/**
 * The document with every field that its texts use standing under [fields]: a new one begins with its own name, so that
 * the text can be drawn while the value is still to come; one that still has it goes when no text uses it any more.
 * @param {Job} job
 * @returns {Job}
 */
export function withFields(job) {
  const values = job.fields ?? {};
  const used = usedFields(job);
  const kept = Object.entries(values).filter(([name, value]) => used.includes(name) || value !== name);
  const missing = used.filter((name) => !(name in values));
  if (!missing.length && kept.length === Object.keys(values).length) return job;
  const { fields: _fields, ...rest } = job;
  const next = Object.fromEntries([...kept, ...missing.map((name) => [name, name])]);
  return Object.keys(next).length ? { ...rest, fields: next } : rest;
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
