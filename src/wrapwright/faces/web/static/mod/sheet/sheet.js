// The sheet's screen: the page, its marks and checks, the set-up, and the making.

import { api, ApiError } from "../app/api.js";
import { figure, format, inUnit } from "../app/lengths.js";
import { say, sayError } from "../app/say.js";
import { Checks } from "./checks.js";
import { byId, finding, made } from "./dom.js";
import { Making } from "./making.js";
import { Viewer } from "./viewer.js";

const OUTPUTS = { pdf: "PDF", png: "PNG pictures", tiff: "TIFF pictures" };
const ROUTES = { driver: "the printer's own software converts the colours", convert: "already in the printer's colours" };

const start = JSON.parse(byId("start").textContent);
const viewer = new Viewer(byId("view"), byId("page"));
const checks = new Checks(start.design, start.never, ready);
const making = new Making(start.design, ready);
const state = { revision: start.revision, side: "printed", page: 1, busy: false, /** @type {any} */ sheet: null };

/** Fetch the sheet and the checks of the revision, side by side. */
async function load() {
  const { revision } = state;
  checks.wait();
  const told = api.checks(start.design, revision).then((found) => { if (revision === state.revision) checks.show(found); });
  try {
    const sheet = await api.sheet(start.design, revision);
    if (revision !== state.revision) return;
    state.sheet = sheet;
    showSheet();
  } catch (error) {
    state.sheet = null;
    noPage(error);
  }
  ready();
  await told;
}

function showSheet() {
  const { sheet } = state;
  const page = sheet.pages[state.page - 1] ?? sheet.pages[0];
  byId("no-page").hidden = Boolean(page);
  byId("marks-part").hidden = !page;
  byId("view").hidden = byId("keys").hidden = !page;
  showFacts(page);
  byId("notes-part").hidden = sheet.notes.length === 0;
  byId("notes").replaceChildren(...sheet.notes.map((/** @type {string} */ words) => finding(words, "note")));
  if (!page) {
    byId("no-page").replaceChildren(...sheet.findings.map((/** @type {any} */ one) => finding(inUnit(one.message), one.severity)));
  } else {
    state.page = page.page;
    viewer.show(page, sheet.ppi, (what) => api.sheetPictureUrl(start.design, state.revision, { page: page.page, side: state.side, state: sheet.state, ...what }));
    showMarks(page);
  }
  showAdvice();
  byId("output").replaceChildren(...sheet.outputs.map((/** @type {keyof typeof OUTPUTS} */ one) => new Option(OUTPUTS[one], one)));
}

/** @param {any} page */
function showFacts(page) {
  const { sheet } = state;
  const size = page ? `${format(page.width_mm)} × ${format(page.height_mm)}` : "";
  byId("facts").textContent = [sheet.paper, size, `${sheet.ppi} ppi`].filter(Boolean).join(" · ");
  const scale = sheet.calibrated ? "scale measured" : "scale never measured";
  byId("setup-words").textContent = `${sheet.paper}, ${sheet.ppi} ppi, ${scale}; ${ROUTES[/** @type {keyof typeof ROUTES} */ (sheet.route)]}.`;
  byId("pages").hidden = sheet.pages_all < 2;
  byId("page-words").textContent = `page ${state.page} of ${sheet.pages_all}`;
  byId("before").disabled = state.page <= 1;
  byId("after").disabled = state.page >= sheet.pages.length;
  if (page) {
    const side = state.side === "printed" ? "as printed, mirrored: text reads backwards" : "as seen, looked at through the paper";
    byId("view").setAttribute("aria-label", `Page ${state.page} of ${sheet.pages_all}, ${size}, ${side}`);
  }
}

/** @param {any} page */
function showMarks(page) {
  const seen = state.side === "seen";
  byId("marks-none").hidden = !seen;
  byId("marks").hidden = seen;
  byId("marks").replaceChildren(...page.marks.map((/** @type {any} */ mark) => {
    const row = made("li");
    const button = made("button", "", "s-mark");
    button.type = "button";
    button.append(made("b", mark.name), made("span", mark.words));
    for (const on of ["pointerenter", "focus"]) button.addEventListener(on, () => viewer.mark(mark.boxes));
    for (const off of ["pointerleave", "blur"]) button.addEventListener(off, () => viewer.mark([]));
    row.append(button);
    return row;
  }));
}

function showAdvice() {
  const { advice, look, cautions, before_heat: heat } = state.sheet;
  byId("advice-part").hidden = advice.length === 0;
  byId("advice").replaceChildren(...advice.map((/** @type {[string, string]} */ [what, how]) => {
    const row = made("div");
    row.append(made("dt", what), made("dd", how));
    return row;
  }));
  byId("look").replaceChildren(...look.map((/** @type {string} */ words) => made("li", words)));
  byId("before-heat").replaceChildren(...heat.map((/** @type {string} */ words) => finding(words, "warning")));
  byId("cautions").replaceChildren(...cautions.map((/** @type {string} */ words) => finding(words, "warning")));
}

/** The document cannot be drawn: say why, in the page's place. @param {unknown} error */
function noPage(error) {
  byId("view").hidden = byId("keys").hidden = true;
  const place = byId("no-page");
  place.hidden = false;
  const problems = /** @type {any[]} */ (error instanceof ApiError && error.problems.length ? error.problems : [error]);
  place.replaceChildren(...problems.map((one) => finding([one.message, one.remedy].filter(Boolean).join(" "), "error")));
  const link = made("a", "Mend it in Compose", "button");
  link.href = `/designs/${start.design}`;
  place.append(link);
  say(problems[0].message);
}

/** Whether it can be made now, on the button and in words. */
function ready() {
  const stops = checks.stops();
  const off = Boolean(stops) || making.running || state.busy || !state.sheet?.pages.length;
  byId("make").setAttribute("aria-disabled", String(off));
  byId("make").title = stops;
}

/** Put another set-up or number of pieces into the design: a new revision. @param {() => Promise<any>} change */
async function revise(change) {
  state.busy = true;
  byId("made").hidden = true;
  ready();
  try {
    const { design } = await change();
    state.revision = design.revision;
  } catch (error) {
    if (error instanceof ApiError && error.status === 409 && error.current) {
      state.revision = error.current;
      say("The design was changed at another station; this is its newest revision.");
      byId("trouble").textContent = "The design was changed at another station meanwhile: this is its newest revision. Choose again.";
      byId("trouble").hidden = false;
    } else {
      sayError(byId("trouble"), error);
    }
  } finally {
    state.busy = false;
    await load().catch((error) => sayError(byId("trouble"), error));
  }
}

/** @param {number} quantity */
async function withQuantity(quantity) {
  const { design } = await api.design(start.design, undefined, state.revision);
  return api.saveDesign(start.design, state.revision, { ...design.document, quantity });
}

async function fillSetups() {
  const setups = await api.setups().catch(() => []);
  const own = new Option("the design's own figures", "");
  const named = setups.map((/** @type {any} */ one) => new Option(one.name, String(one.id)));
  byId("setup").replaceChildren(...(start.setup ? [] : [own]), ...named);
  byId("setup").value = start.setup ? String(start.setup) : "";
}

byId("setup").addEventListener("change", () => {
  const chosen = Number(byId("setup").value);
  if (chosen) revise(() => api.useSetup(start.design, state.revision, chosen));
});
byId("quantity").addEventListener("change", () => {
  const field = byId("quantity");
  const wrong = byId("quantity-wrong");
  const right = field.checkValidity() && field.value !== "";
  wrong.hidden = right;
  wrong.textContent = right ? "" : "A whole number from 1 to 10000.";
  field.setAttribute("aria-invalid", String(!right));
  if (right) revise(() => withQuantity(Number(field.value)));
});
byId("make").addEventListener("click", () => {
  if (byId("make").getAttribute("aria-disabled") === "true") {
    const words = checks.stops() || (making.running ? "It is being made." : "There is no page to make.");
    say(words);
    byId("trouble").textContent = words;
    byId("trouble").hidden = making.running;
    return;
  }
  making.begin({ design: start.design, revision: state.revision, output: byId("output").value, accept: [...checks.accepted] });
});
for (const button of document.querySelectorAll("[data-side]")) {
  button.addEventListener("click", () => {
    state.side = /** @type {HTMLElement} */ (button).dataset.side ?? "printed";
    for (const one of document.querySelectorAll("[data-side]")) one.setAttribute("aria-pressed", String(one === button));
    if (state.sheet) showSheet();
  });
}
for (const [id, way] of /** @type {[string, number][]} */ ([["before", -1], ["after", 1]])) {
  byId(id).addEventListener("click", () => {
    state.page += way;
    showSheet();
    say(byId("page-words").textContent);
  });
}
for (const [id, deed] of /** @type {[string, () => void][]} */ ([
  ["in", () => viewer.camera.step(1)], ["out", () => viewer.camera.step(-1)],
  ["fit", () => viewer.camera.fit()], ["pixels", () => viewer.camera.pixels()],
])) {
  byId(id).addEventListener("click", () => { deed(); viewer.changed(); });
}
viewer.addEventListener("zoom", (event) => {
  const { share, fitted } = /** @type {CustomEvent} */ (event).detail;
  byId("zoom").textContent = fitted ? "fit" : `${figure(share * 100 * (window.devicePixelRatio || 1), 0)} %`;
});
viewer.addEventListener("drawing", (event) => {
  const busy = /** @type {CustomEvent} */ (event).detail.waiting > 0;
  byId("drawing").hidden = !busy;
  byId("view").setAttribute("aria-busy", String(busy));
});
document.addEventListener("wrapunit", () => {
  if (state.sheet) showFacts(state.sheet.pages[state.page - 1]);
  if (checks.known) checks.show(checks);
  viewer.draw();
});

fillSetups();
load().catch((error) => sayError(byId("trouble"), error));
making.resume(start.revision);
ready();
