// Puts the element of the page beside what tests ask of it: the frame module and a list of every event it sends.

import { frameOf } from "/static/mod/canvas/frame.js";
import "/static/mod/canvas/wrap-canvas.js";

const canvas = document.querySelector("wrap-canvas");
const heard = [];
for (const name of ["select", "live", "change", "cancel", "straight", "drop", "cursor"]) {
  canvas.addEventListener(`wrap${name}`, (event) => {
    const { detail } = event;
    heard.push({ name: event.type, detail: detail?.files ? { ...detail, files: detail.files.length } : detail });
  });
}
const start = new URLSearchParams(location.search).get("drawn");
if (start) canvas.drawn = await (await fetch(start)).json();
Object.assign(window, { canvas, heard, frameOf, ready: true });
