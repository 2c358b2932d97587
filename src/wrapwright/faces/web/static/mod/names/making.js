// The list made: as sheets are, but that what was stopped goes on from where it was.

import { say } from "../app/say.js";
import { names } from "../app/listed/names.js";
import { byId } from "../compose/dom.js";
import { Making } from "../sheet/making.js";

const FILES = {
  "manifest.csv": "every row of the list: made, skipped or refused, with its sheet and place",
  "contact.pdf": "all pieces as finished with their rows, for the customer to sign off",
  "handling.pdf": "piece, name, row and blank, in the order of the trays",
  "proof.pdf": "one finished piece",
};
/** What is printed first, then what goes with it. */
const ORDER = ["sheets", "contact", "handling", "cut-list", "manifest", "ticket", "proof"];
const STOPPED = "Stopped. What is made so far is kept aside: make it again and it goes on from there.";

export class ListMaking extends Making {
  /** @param {any} row a MadeKept */
  own(row) {
    return row.design === this.design && Object.keys(row.names ?? {}).length > 0;
  }

  /** @param {any} asked */
  ask(asked) {
    return names.make(this.design, asked);
  }

  /** @param {any} now @param {boolean} speak */
  ended(now, speak) {
    const files = [...now.files].sort((one, other) => place(one.name) - place(other.name));
    super.ended({ ...now, files }, speak && now.state !== "stopped");
    if (now.state === "stopped") {
      byId("trouble").textContent = STOPPED;
      if (speak) say(STOPPED);
    }
    if (now.state !== "done") return;
    this.of = now.report?.names?.list_sha256 ?? "";
    this.against(this.list ?? "");
    const alone = now.names.only === "contact";
    byId("made-words").textContent = alone ? "The contact sheet is made: have the customer look at it before anything is printed." : madeWords(now);
    /** @type {HTMLElement} */ (document.querySelector(".s-heat")).hidden = alone;
  }

  /** Whether what was made is of the list as it is now. @param {string} list its hash, "" while nothing is known */
  against(list) {
    this.list = list;
    const other = Boolean(this.of && list && this.of !== list);
    byId("made-before").textContent = other ? "The list or its design was changed after this was made: make it again." : "";
    byId("made-before").hidden = !other;
  }

  /** @param {string} file */
  words(file) {
    return FILES[/** @type {keyof typeof FILES} */ (file)] ?? super.words(file);
  }
}

/** @param {string} file */
function place(file) {
  const at = ORDER.findIndex((one) => file.startsWith(one));
  return at < 0 ? ORDER.length : at;
}

/** @param {any} now */
function madeWords(now) {
  const told = now.report?.names ?? {};
  const parts = [`${told.pieces ?? "?"} pieces of ${told.made ?? "?"} rows`];
  if (told.skipped) parts.push(`${told.skipped} skipped`);
  if (told.refused) parts.push(`${told.refused} refused, told in the manifest`);
  const sheets = now.report?.lay?.sheets;
  return `Made: ${parts.join(", ")}${sheets ? `, on ${sheets} ${sheets === 1 ? "sheet" : "sheets"}` : ""}. Print at 100 %; the ticket leads through the rest.`;
}

/**
 * The rows that words name ("12, 15-17"), or null when they cannot be read; none for all.
 * @param {string} words
 * @returns {number[] | null}
 */
export function rowsNamed(words) {
  const found = [];
  for (const part of words.split(/[,;\s]+/).filter(Boolean)) {
    const [, first, last = first] = /^(\d{1,9})(?:[-–](\d{1,9}))?$/.exec(part) ?? [];
    if (!first || Number(last) < Number(first) || Number(last) - Number(first) > 10000) return null;
    for (let row = Number(first); row <= Number(last); row += 1) found.push(row);
  }
  return found.length > 10000 ? null : [...new Set(found)];
}
