// Making the sheets: asked for, followed while it runs, stopped, and what it leaves to download.

import { api, pages } from "../app/api.js";
import { say, sayError } from "../app/say.js";
import { Printing } from "../print/printing.js";
import { byId, made, size } from "./dom.js";

const EACH_MS = 500;
const RUNNING = ["waiting", "making"];
const FILES = {
  "sheets.pdf": "the transfers: print at 100 %",
  "proof.pdf": "the finished piece, to show before it is made",
  "ticket.pdf": "the page that goes with the work: cut, wrap, heat",
  "report.json": "every figure, for programs",
  "cut-list.pdf": "stroke by stroke, for the trimmer",
};

export class Making {
  /** @param {number} design @param {() => void} changed */
  constructor(design, changed) {
    this.design = design;
    this.changed = changed;
    this.id = 0;
    this.running = false;
    byId("stop").addEventListener("click", () => this.stop());
  }

  /** Take up what another page has begun, or show what was made of this revision (0: last). @param {number} revision */
  async resume(revision) {
    const all = await api.madeList(this.design).catch(() => []);
    const list = all.filter((/** @type {any} */ row) => this.own(row));
    const one = list.find((/** @type {any} */ row) => RUNNING.includes(row.state))
      ?? list.find((/** @type {any} */ row) => row.state === "done" && (!revision || row.revision === revision));
    if (one) this.show(one, false);
  }

  /** Whether a making is one of this screen's: 0 asks for all. @param {any} row a MadeKept */
  own(row) {
    return row.design === this.design && Object.keys(row.names ?? {}).length === 0;
  }

  /** @param {any} asked */
  ask(asked) {
    return api.make(asked);
  }

  /** @param {any} asked as `ask` sends it */
  async begin(asked) {
    byId("trouble").hidden = true;
    byId("made").hidden = true;
    try {
      this.show(await this.ask(asked), true);
    } catch (error) {
      sayError(byId("trouble"), error);
    }
  }

  /** @param {any} now a MadeKept @param {boolean} speak */
  show(now, speak) {
    this.id = now.id;
    const before = this.running;
    this.running = RUNNING.includes(now.state);
    byId("making").hidden = !this.running;
    if (this.running) {
      byId("making-words").textContent = now.state === "waiting" ? "Waiting for its turn" : sentence(now.words) || "Making";
      byId("share").value = now.share;
      if (!before) window.setTimeout(() => this.follow(), EACH_MS);
    } else {
      this.ended(now, speak || before);
    }
    if (before !== this.running) this.changed();
  }

  async follow() {
    if (!this.running) return;
    try {
      if (!document.hidden) this.show(await api.made(this.id), true);
    } catch { /* the line about the server says it; it is asked again */ }
    if (this.running) window.setTimeout(() => this.follow(), EACH_MS);
  }

  async stop() {
    byId("stop").disabled = true;
    try {
      this.show(await api.stopMaking(this.id), true);
    } catch (error) {
      sayError(byId("trouble"), error);
    } finally {
      byId("stop").disabled = false;
    }
  }

  /** @param {any} now @param {boolean} speak */
  ended(now, speak) {
    const trouble = byId("trouble");
    if (now.state === "stopped") {
      byId("made").hidden = true;
      if (speak) say("Stopped. Nothing was left half-made.");
      trouble.hidden = false;
      trouble.textContent = "Stopped. Nothing was left half-made.";
      return;
    }
    if (now.state === "failed") {
      const { message = "It could not be made.", remedy = "" } = now.error?.error ?? {};
      trouble.textContent = `${message} ${remedy}`.trim();
      trouble.hidden = false;
      return;
    }
    trouble.hidden = true;
    const revision = now.design ? `, revision ${now.revision}` : "";
    byId("made-words").textContent = `Made: ${now.files.length} files${revision}. Print the sheets at 100 %; the ticket leads through the rest.`;
    byId("files").replaceChildren(...now.files.map((/** @type {any} */ file) => this.file(now.id, file)));
    byId("heat-it").href = pages.press(now.id);
    byId("made").hidden = false;
    this.print(now);
    if (!speak) return;
    /** @type {HTMLDetailsElement} */ (document.querySelector(".s-heat")).open = true;
    byId("made").scrollIntoView({ block: "nearest" });
  }

  /** The sheets can be printed from here, where they are a PDF. @param {any} now */
  print(now) {
    const place = byId("print");
    const printable = now.files.some((/** @type {any} */ file) => file.name === "sheets.pdf");
    place.hidden = !printable;
    place.replaceChildren(byId("print-title"));
    if (printable) new Printing(place, now.id, Number(byId("setup").value)).open();
  }

  /** @param {number} id @param {{name: string, bytes: number}} file */
  file(id, file) {
    const row = made("li");
    const link = made("a", file.name);
    link.href = api.madeFileUrl(id, file.name);
    link.download = "";
    const words = this.words(file.name);
    row.append(link, made("span", `${size(file.bytes)}${words ? `, ${words}` : ""}`, "note"));
    return row;
  }

  /** What a file is. @param {string} file */
  words(file) {
    return FILES[/** @type {keyof typeof FILES} */ (file)] ?? (file.startsWith("sheet") ? "sheets: print at 100 %" : "");
  }
}

/** @param {string} words */
function sentence(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
