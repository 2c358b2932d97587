// A table brought: dropped anywhere on the page or chosen.

import { sayError, say } from "../app/say.js";
import { names } from "../app/listed/names.js";
import { byId } from "../compose/dom.js";
import { onScreen } from "./words.js";

/**
 * @param {number} design
 * @param {(list: import("./types.js").List) => void} brought
 */
export function bringTables(design, brought) {
  const field = byId("file");
  const page = byId("names");
  byId("choose").addEventListener("click", () => field.click());
  field.addEventListener("change", () => {
    const [file] = field.files ?? [];
    if (file) void send(file);
    field.value = "";
  });
  document.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    page.dataset.over = "";
  });
  document.addEventListener("dragleave", (event) => { if (!event.relatedTarget) delete page.dataset.over; });
  document.addEventListener("drop", (event) => {
    delete page.dataset.over;
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    void send(file);
  });

  /** @param {File} file */
  async function send(file) {
    byId("table-wrong").hidden = true;
    byId("bringing").hidden = false;
    byId("bring-words").textContent = `Bringing ${file.name}`;
    say(`Bringing ${file.name}.`);
    try {
      const how = { header: Number(byId("header").value) || 1, sheet: byId("sheet-name").value.trim(), encoding: byId("encoding").value, separator: byId("separator").value };
      brought(await names.bring(design, file, how, (share) => {
        byId("bring-share").value = share;
        if (share >= 1) byId("bring-words").textContent = `Reading ${file.name}`;
      }));
    } catch (error) {
      sayError(byId("table-wrong"), error);
      byId("table-wrong").textContent = `${file.name}: ${onScreen(byId("table-wrong").textContent)}`;
    } finally {
      byId("bringing").hidden = true;
    }
  }
}
