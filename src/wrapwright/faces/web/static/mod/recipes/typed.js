// Fields for temperatures and times: what is typed is read back in both scales; what is not clear is asked about.

import { kept } from "../app/pressing/kept.js";
import { mark } from "../app/fields.js";

const PAUSE_MS = 250;

/**
 * Let every `input[data-typed]` under `root` say what it is read as.
 * @param {HTMLElement} root
 */
export function followTyped(root) {
  for (const field of root.querySelectorAll("input[data-typed]")) follow(/** @type {HTMLInputElement} */ (field));
}

/** @param {HTMLInputElement} field */
function follow(field) {
  let waiting = 0;
  let asked = new AbortController();

  async function read() {
    asked.abort();
    asked = new AbortController();
    const typed = field.value.trim();
    if (!typed) {
      shown(field, "", "", []);
      return;
    }
    try {
      const kind = field.dataset.typed === "time" ? "time" : "temperature";
      const meant = await kept.reading(kind, typed, "single" in field.dataset, asked.signal);
      if (field.value.trim() === typed) shown(field, meant.words, meant.question, meant.choices);
    } catch (error) {
      // Kept back: the server says the same when the form is sent.
      if (!(error instanceof Error) || error.name !== "AbortError") shown(field, "", "", []);
    }
  }

  field.addEventListener("input", () => {
    window.clearTimeout(waiting);
    mark(field, "");
    waiting = window.setTimeout(read, PAUSE_MS);
  });
  field.addEventListener("change", () => {
    window.clearTimeout(waiting);
    void read();
  });
  document.getElementById(`${field.id}-ask`)?.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement} */ (event.target).closest("button[data-text]");
    if (!(button instanceof HTMLElement)) return;
    field.value = button.dataset.text ?? "";
    field.focus();
    void read();
  });
  void read();
}

/**
 * @param {HTMLInputElement} field
 * @param {string} words
 * @param {string} question
 * @param {{text: string, words: string}[]} choices
 */
function shown(field, words, question, choices) {
  const said = document.getElementById(`${field.id}-read`);
  if (said) said.textContent = words === field.value.trim() ? "" : words;
  mark(field, question);
  const ask = document.getElementById(`${field.id}-ask`);
  if (!ask) return;
  ask.replaceChildren(...choices.map(button));
  ask.hidden = choices.length === 0;
}

/** @param {{text: string, words: string}} choice */
function button(choice) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "button";
  made.dataset.text = choice.text;
  made.textContent = choice.text.endsWith(choice.words) ? choice.words : `${choice.text}: ${choice.words}`;
  return made;
}
