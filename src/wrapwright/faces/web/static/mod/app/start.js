// What every page does: lengths and times in the reader's way, the unit switch, sign out, word when the server is away.

import { api, pages } from "./api.js";
import { setUnit } from "./lengths.js";
import { showFigures, showTimes } from "./figures.js";
import { watchServer } from "./away.js";

showFigures(document);
watchServer();
window.setInterval(() => showTimes(document), 30000);

for (const button of document.querySelectorAll("#unit button")) {
  button.addEventListener("click", (event) => {
    event.preventDefault();
    setUnit(/** @type {HTMLButtonElement} */ (button).value === "in" ? "in" : "mm");
  });
}
document.addEventListener("wrapunit", (event) => {
  const { unit } = /** @type {CustomEvent} */ (event).detail;
  for (const button of document.querySelectorAll("#unit button")) {
    button.setAttribute("aria-pressed", String(/** @type {HTMLButtonElement} */ (button).value === unit));
  }
  showFigures(document);
});

document.getElementById("sign-out")?.addEventListener("click", async () => {
  await api.signOut();
  location.assign(pages.shelf);
});
