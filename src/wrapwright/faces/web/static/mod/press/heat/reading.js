// A thermometer's reading, typed in either unit.

import { make, freshId } from "../../compose/dom.js";
import { toCelsius } from "../watch/time.js";

/**
 * A small form that gives what was read, in Celsius.
 * @param {(celsius: number) => void} read
 */
export function reading(read) {
  const id = freshId("reads");
  const field = make("input", { class: "input", id, inputmode: "decimal", autocomplete: "off" });
  const unit = make("select", { class: "input", "aria-label": "Unit of the reading" }, make("option", { value: "C" }, "°C"), make("option", { value: "F" }, "°F"));
  return make(
    "form", {
      class: "p-reading",
      onsubmit: (/** @type {Event} */ event) => {
        event.preventDefault();
        const typed = Number.parseFloat(field.value.replace(",", "."));
        if (Number.isFinite(typed)) read(unit.value === "F" ? toCelsius(typed) : typed);
      },
    },
    make("label", { for: id }, "Thermometer reads"), field, unit, make("button", { class: "p-act", type: "submit" }, "Keep the reading"),
  );
}
