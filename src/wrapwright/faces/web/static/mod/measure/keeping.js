// Keeping a blank: saving it, a newer version from elsewhere, and composing on it.

import { api, ApiError, pages } from "../app/api.js";
import { say, sayError } from "../app/say.js";

/** @param {string} id @returns {any} */
const byId = (id) => document.getElementById(id);

export class Keeping {
  /**
   * @param {{id: number, name: string, version: number, newest: number}} start
   * @param {() => any} found what the server made of the form last
   * @param {() => void} saved told once the form is kept
   */
  constructor(start, found, saved) {
    this.id = start.id;
    this.base = start.newest;
    this.found = found;
    this.saved = saved;
    this.dirty = false;
    this.name = byId("name");
    this.kept = byId("kept");
    this.clash = byId("clash");
    window.addEventListener("beforeunload", (event) => { if (this.dirty) event.preventDefault(); });
  }

  touched() {
    this.dirty = true;
    this.kept.textContent = "";
    this.nameWrong("");
  }

  /** @param {any} found */
  know(found) {
    const ready = Boolean(found?.ready);
    for (const one of [byId("save"), byId("compose")]) one.setAttribute("aria-disabled", String(!ready));
  }

  /** @returns {Promise<boolean>} whether it is kept now */
  async save() {
    const found = this.found();
    const name = this.name.value.trim();
    if (!found?.ready) return this.notReady(found);
    if (!name) {
      this.nameWrong("Give it a name, so that you find it on the shelf.");
      this.name.focus();
      return false;
    }
    try {
      const body = { name, table: found.table, wrap: found.wrap };
      const made = this.id ? await api.changeBlank(this.id, { ...body, base: this.base }) : await api.addBlank(body);
      this.done(made);
      return true;
    } catch (error) {
      this.failed(error);
      return false;
    }
  }

  /** @param {any} found */
  notReady(found) {
    const words = found?.problems?.length ? "Mend what is marked first." : found?.needed || "Type the readings first.";
    this.kept.textContent = words;
    say(words);
    const wrong = /** @type {HTMLElement | null} */ (document.querySelector('[aria-invalid="true"]') ?? fieldOf(found?.needed_fields?.[0]));
    wrong?.focus();
    return false;
  }

  /** @param {{id: number, name: string, version: number, newest: number, added: string}} made */
  done(made) {
    const first = !this.id;
    this.id = made.id;
    this.base = made.newest;
    this.dirty = false;
    this.saved();
    this.clash.hidden = true;
    document.querySelector("h1").textContent = made.name;
    document.title = `${made.name} · Wrapwright`;
    history.replaceState(null, "", pages.measure(made.id));
    const words = first ? `${made.name} is on the shelf.` : `Kept as version ${made.version}.`;
    this.kept.textContent = words;
    say(words);
    this.listed(made);
  }

  /** Put the new version at the head of the list, where there is one. @param {any} made */
  listed(made) {
    const list = byId("versions");
    if (!list) return;
    for (const one of list.querySelectorAll("[aria-current]")) one.removeAttribute("aria-current");
    const row = document.createElement("li");
    const words = row.appendChild(document.createElement("span"));
    words.setAttribute("aria-current", "true");
    words.textContent = `now, version ${made.version}`;
    list.prepend(row);
  }

  /** @param {unknown} error */
  failed(error) {
    if (error instanceof ApiError && error.status === 409 && this.id) {
      this.tellClash(error);
    } else if (error instanceof ApiError && error.status === 409) {
      this.nameWrong(`${error.message} ${error.remedy}`.trim());
      this.name.focus();
    } else {
      sayError(this.kept, error);
    }
  }

  /** Another station kept a newer version: nothing is lost, and the choice is told. @param {ApiError} error */
  async tellClash(error) {
    let newest;
    try { newest = await api.blank(this.id); } catch { sayError(this.kept, error); return; }
    if (newest.newest === this.base) {
      this.nameWrong(`${error.message} ${error.remedy}`.trim());
      this.name.focus();
      return;
    }
    const words = document.createElement("p");
    words.textContent = `Version ${newest.newest} of these readings was kept at another station while you worked. Nothing is lost: yours are still here.`;
    const mine = document.createElement("button");
    mine.type = "button";
    mine.className = "button";
    mine.textContent = `Keep mine as version ${newest.newest + 1}`;
    mine.addEventListener("click", () => { this.base = newest.newest; this.save(); });
    const theirs = document.createElement("a");
    theirs.className = "button button-quiet";
    theirs.href = pages.measure(this.id);
    theirs.textContent = `Open version ${newest.newest}`;
    theirs.addEventListener("click", () => { this.dirty = false; this.saved(); });
    this.clash.replaceChildren(words, mine, theirs);
    this.clash.hidden = false;
  }

  /** Keep it when there is something to keep, then go on to a new design on it. */
  async compose() {
    if ((this.dirty || !this.id) && !(await this.save())) return;
    try {
      const made = await api.newDesign({ title: `New design, ${this.name.value.trim()}`, blank_id: this.id });
      location.assign(pages.compose((made.design ?? made).id));
    } catch (error) {
      sayError(this.kept, error);
    }
  }

  /** @param {string} words */
  nameWrong(words) {
    const wrong = byId("name-wrong");
    wrong.textContent = words;
    wrong.hidden = !words;
    if (words) this.name.setAttribute("aria-invalid", "true");
    else this.name.removeAttribute("aria-invalid");
    if (words) say(words);
  }
}

/** @param {string | undefined} field */
function fieldOf(field) {
  if (!field) return null;
  if (field === "blank.kind") return /** @type {HTMLElement | null} */ (document.querySelector('[name="kind"]'));
  return /** @type {HTMLElement | null} */ ([...document.querySelectorAll(`[data-field="${CSS.escape(field)}"]`)].find((one) => !one.closest("[hidden]")) ?? null);
}
