// What the server tells of a list of names: types alone.

/**
 * @typedef {{name: string, feeds: string[]}} Column
 * @typedef {{rule: string, severity: string, field: string, problem: string, figure: string, remedy: string,
 *   acceptable: boolean, state: string, columns: number[], rows: number[]}} Problem
 * @typedef {{number: number, state: "waits" | "fine" | "accepted" | "skipped" | "unchecked", cells: string[],
 *   file_cells: Record<string, string>, quantity: number, problems: Problem[]}} Row
 * @typedef {{rule: string, severity: string, waiting: number, settled: number, acceptable: boolean}} Rule
 * @typedef {{message: string, remedy: string, where: string}} Trouble
 * @typedef {{checked: number, rows: number, empty: number, pieces: number, skipped: number, changed: number,
 *   stale: number, waiting: number, rules: Rule[], trouble: Trouble | null}} Check
 * @typedef {{name: string, column: string, given: string | null, trim: boolean, case: string, otherwise: string | null}} Field
 * @typedef {{design: number, revision: number, list_revision: number, columns: Column[],
 *   table: {file: string, kind: string, encoding: string, separator: string, sheet: string, header_row: number, remarks: string[]},
 *   mapping: Record<string, any>, fields: Field[], elements: {name: string, kind: string, own: boolean}[], check: Check | null,
 *   troubles: Trouble[]}} List
 */

export {};
