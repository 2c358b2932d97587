// A question before something that cannot be taken back.

/**
 * Ask, and give back whether the answer was yes; Escape and the backdrop mean no.
 * @param {{title: string, words: string, yes: string, no?: string, grave?: boolean}} question
 * @returns {Promise<boolean>}
 */
export function ask({ title, words, yes, no = "Keep it", grave = false }) {
  const dialog = document.createElement("dialog");
  dialog.className = "dialog";
  dialog.setAttribute("aria-labelledby", "ask-title");
  dialog.setAttribute("aria-describedby", "ask-words");

  const body = document.createElement("form");
  body.method = "dialog";
  body.className = "dialog-body";
  body.append(line("h2", title, "ask-title"), line("p", words, "ask-words"));

  const end = document.createElement("div");
  end.className = "dialog-end";
  end.append(button(no, "no", "button"), button(yes, "yes", grave ? "button button-bad" : "button button-main"));
  body.append(end);
  dialog.append(body);
  document.body.append(dialog);

  return new Promise((resolve) => {
    dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close("no"); });
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(dialog.returnValue === "yes");
    });
    dialog.returnValue = "no";
    dialog.showModal();
  });
}

/**
 * @param {string} kind
 * @param {string} words
 * @param {string} id
 */
function line(kind, words, id) {
  const made = document.createElement(kind);
  made.id = id;
  made.textContent = words;
  return made;
}

/**
 * @param {string} words
 * @param {string} value
 * @param {string} look
 */
function button(words, value, look) {
  const made = document.createElement("button");
  made.className = look;
  made.value = value;
  made.textContent = words;
  return made;
}
