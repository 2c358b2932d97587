// Signing in, then on to where one wanted to go.

import { api } from "./api.js";
import { sayError } from "./say.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("sign-in"));
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));
const person = /** @type {HTMLInputElement} */ (document.getElementById("person"));
const password = /** @type {HTMLInputElement} */ (document.getElementById("password"));

const enter = /** @type {HTMLButtonElement} */ (form.querySelector("button"));

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  trouble.hidden = true;
  enter.disabled = true;
  try {
    await api.signIn(person.value, password.value);
    location.assign(form.dataset.next || "/");
  } catch (error) {
    sayError(trouble, error);
    password.select();
  } finally {
    enter.disabled = false;
  }
});
enter.disabled = false;
person.focus();
