// Who agreed to the contact sheet, and what was changed after that.

import { say, sayError } from "../app/say.js";
import { names } from "../app/listed/names.js";
import { byId, make } from "../compose/dom.js";

const QUIET_MS = 600;

export class Signing {
  /** @param {number} design @param {(sha256: string) => void} now told the hash of the list as it is */
  constructor(design, now) {
    this.now = now;
    this.design = design;
    this.later = 0;
    byId("sign").addEventListener("submit", (/** @type {Event} */ event) => {
      event.preventDefault();
      this.sign();
    });
  }

  /** Ask again what is to be said, once nothing changes any more. */
  soon() {
    window.clearTimeout(this.later);
    this.later = window.setTimeout(async () => {
      try { this.show(await names.signed(this.design)); } catch { /* it is asked again with the next change */ }
    }, QUIET_MS);
  }

  /** @param {{words: string[], whole: boolean, list_sha256: string}} told */
  show({ words, whole, list_sha256 }) {
    this.now(list_sha256);
    byId("sign-part").hidden = false;
    if (!words.length) return;
    byId("signed").replaceChildren(...words.map((one, at) =>
      make("p", { class: "finding", "data-severity": at || !whole ? "warning" : "ok" }, one)));
  }

  async sign() {
    byId("sign-wrong").hidden = true;
    try {
      this.show(await names.sign(this.design, byId("by").value.trim()));
      byId("by").value = "";
      say("Signed off.");
    } catch (error) {
      sayError(byId("sign-wrong"), error);
    }
  }
}
