// The dialogs of the screen: which of two stations' work is kept, and the list of keys.

import { button, freshId, make } from "../dom.js";
import { KEYS } from "./keys.js";

/** @param {string} title @param {...Node} parts */
function dialogOf(title, ...parts) {
  const id = freshId("dialog");
  const dialog = make("dialog", { class: "dialog", "aria-labelledby": id },
    make("div", { class: "dialog-body" }, make("h2", { id }, title), ...parts));
  document.body.append(dialog);
  dialog.addEventListener("close", () => dialog.remove());
  return dialog;
}

/**
 * Ask whose work is kept; there is no way round the question, and nothing is lost either way.
 * @param {{revision: number, saved: string}} theirs
 * @param {number} base the revision that ours goes on from
 * @returns {Promise<"mine"|"theirs">}
 */
export function askWhose(theirs, base) {
  const clock = new Date(theirs.saved).toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit" });
  return new Promise((resolve) => {
    const choose = (whose) => () => { dialog.close(); resolve(whose); };
    const dialog = dialogOf("Another station saved this design",
      make("p", {}, `It saved revision ${theirs.revision} at ${clock}, while you went on from revision ${base}. Both are kept:`),
      make("ul", {},
        make("li", {}, make("b", {}, "Keep mine: "), "yours is saved on top; theirs is one step back, at Undo."),
        make("li", {}, make("b", {}, "Keep theirs: "), "theirs is shown; yours is one step on, at Redo.")),
      make("div", { class: "dialog-end" },
        button("Keep theirs", choose("theirs")),
        button("Keep mine", choose("mine"), { class: "button button-main" })));
    dialog.addEventListener("cancel", (event) => event.preventDefault());
    dialog.addEventListener("keydown", (event) => { if (event.key === "Escape") event.preventDefault(); });
    dialog.showModal();
  });
}

/** Show the list of keys. */
export function showKeys() {
  const rows = KEYS.flatMap(([key, words]) => [make("dt", {}, make("kbd", {}, key)), make("dd", {}, words)]);
  const dialog = dialogOf("Keys",
    make("dl", { class: "keys-list" }, ...rows),
    make("p", { class: "note" }, "Letters work inside the wrap, the views and the list, never while you type."),
    make("div", { class: "dialog-end" }, button("Close", () => dialog.close())));
  dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  dialog.showModal();
}
