// Puts the two elements on a page as the composing screen does, joined by their events, and keeps what they send.

import "/static/mod/view/turning-view.js";
import "/static/mod/dial/wrap-dial.js";

const view = document.querySelector("turning-view");
const dial = document.querySelector("wrap-dial");
const both = [view, dial];
const heard = [];

for (const name of ["select", "live", "change", "cancel", "facing"]) {
  document.addEventListener(`wrap${name}`, (event) => {
    heard.push({ name: event.type, from: event.target.localName, ...event.detail });
    const others = both.filter((one) => one !== event.target);
    for (const one of others) {
      if (name === "select") one.selected = event.detail.keys;
      if (name === "live") one.changing = event.detail;
      if (name === "facing") one.facing = event.detail.deg;
      if (name === "change" || name === "cancel") one.changing = null;
    }
  });
}

const asked = new URLSearchParams(location.search);
document.body.className = asked.get("size") ?? "";
const start = asked.get("drawn");
const drawn = start ? await (await fetch(start)).json() : null;
for (const one of both) {
  one.drawn = drawn;
}

/** Wait until the view has drawn and asks for nothing more. */
async function settled() {
  for (let rest = 0; rest < 3;) {
    await new Promise(requestAnimationFrame);
    rest = view.frameAsked ? 0 : rest + 1;
  }
}

Object.assign(window, { view, dial, heard, settled, drawn, ready: true });
