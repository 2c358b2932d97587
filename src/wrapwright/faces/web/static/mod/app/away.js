// One calm line while the server cannot be reached; it goes when the server answers again.

import { api } from "./api.js";
import { say } from "./say.js";

const AGAIN_MS = 2000;

/** Show and hide the line; while it stands, ask the server every two seconds whether it is back. */
export function watchServer() {
  const line = document.getElementById("away");
  let timer = 0;
  document.addEventListener("wrapoffline", () => {
    if (!line || !line.hidden) return;
    line.hidden = false;
    say(line.textContent?.trim() ?? "");
    timer = window.setInterval(() => { api.length("1", "mm").catch(() => {}); }, AGAIN_MS);
  });
  document.addEventListener("wraponline", () => {
    if (!line || line.hidden) return;
    line.hidden = true;
    window.clearInterval(timer);
    say("The server answers again.");
  });
}
