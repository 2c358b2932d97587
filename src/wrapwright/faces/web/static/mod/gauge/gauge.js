// The gauge: rough readings become a drawn strip, two marks become a flat length, and that goes to the blank.

import { api, pages } from "../app/api.js";
import { followUnit, mark, readField } from "../app/fields.js";
import { bare, inUnit } from "../app/lengths.js";
import { sayError } from "../app/say.js";
import { Reading } from "./reading.js";

/** @template {HTMLElement} T @param {string} id @returns {T} */
const get = (id) => /** @type {T} */ (document.getElementById(id));
const field = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (get(id));
const start = JSON.parse(get("start").textContent ?? "{}");
const readings = { one: new Reading("one", start), high: new Reading("high", start), low: new Reading("low", start) };
/** @type {any} */
let drawn = null;
/** @type {AbortController | null} */
let under = null;

followUnit(get("rough"));
if (start.setup) field("setup").value = String(start.setup);
if (start.blank) field("blank").value = String(start.blank);
takeBlank();
for (const one of Object.values(readings)) one.node.addEventListener("reading", showUse);

/** What is known of the chosen blank is its rough reading. */
function takeBlank() {
  const rough = start.rough[field("blank").value];
  showUse();
  if (!rough) return void draw();
  field("shape").value = "girth" in rough ? "straight" : "tapered";
  for (const name of ["girth", "top", "bottom", "wall"]) {
    const one = field(name);
    one.dataset.length = name in rough ? String(rough[name]) : "";
    one.value = name in rough ? bare(rough[name]) : "";
    one.dataset.shown = one.value;
  }
  void draw();
}
get("blank").addEventListener("change", takeBlank);
get("rough").addEventListener("change", (event) => {
  if (/** @type {HTMLElement} */ (event.target).id !== "blank") void draw();
});
get("rough").addEventListener("submit", (event) => { event.preventDefault(); void draw(); });

/** @returns {Promise<Record<string, number> | null>} the rough readings as they are asked for, null while they are not whole */
async function rough() {
  const tapered = field("shape").value === "tapered";
  for (const part of document.querySelectorAll("[data-shape]")) {
    /** @type {HTMLElement} */ (part).hidden = /** @type {HTMLElement} */ (part).dataset.shape !== (tapered ? "tapered" : "straight");
  }
  /** @type {Record<string, number>} */
  const found = { setup: Number(field("setup").value) };
  for (const name of tapered ? ["top", "bottom", "wall"] : ["girth", "wall"]) {
    const mm = await readField(field(name));
    if (mm !== null) found[name] = mm;
  }
  const whole = tapered ? ["top", "bottom", "wall"].every((name) => name in found) : "girth" in found;
  return whole ? found : null;
}

/** Draw the strip that the rough readings ask for. */
async function draw() {
  under?.abort();
  const mine = under = new AbortController();
  get("trouble").hidden = true;
  try {
    const asked = await rough();
    if (!asked || mine.signal.aborted) return;
    const told = await api.gauge(asked, mine.signal);
    drawn = { asked, told };
    show();
  } catch (error) {
    if (mine.signal.aborted || field("rough").querySelector("[aria-invalid]")) return;
    atField(/** @type {any} */ (error));
  }
}

/** Put what is wrong with a rough reading at its field. @param {any} error */
function atField(error) {
  drawn = null;
  showUse();
  get("get").hidden = true;
  const known = ["girth", "top", "bottom", "wall"].includes(error.where);
  if (known) mark(field(error.where), inUnit([error.message, error.remedy].filter(Boolean).join(" ")));
  else sayError(get("trouble"), error);
}

function show() {
  const { asked, told } = drawn;
  const papers = [];
  for (let page = 1; page <= told.pages; page += 1) {
    const paper = new Image();
    paper.className = "g-paper";
    paper.alt = `Page ${page} of the strip's sheet, which lies ${told.lies} in the printer.`;
    paper.src = api.gaugePictureUrl({ ...asked, page });
    papers.push(paper);
  }
  get("papers").replaceChildren(...papers);
  const words = told.words.map((/** @type {string} */ one) => Object.assign(document.createElement("p"), { className: "note", textContent: inUnit(one) }));
  get("strip-words").replaceChildren(...words);
  const link = /** @type {HTMLAnchorElement} */ (get("get"));
  link.href = api.gaugeFileUrl(asked);
  link.hidden = false;
  const strips = told.strips;
  readings.one.reach(strips[0]);
  readings.low.reach(strips[0]);
  readings.high.reach(strips[strips.length - 1]);
  showUse();
}

/** What the marks come to, and whether they can go to the blank. */
function showUse() {
  const blank = Number(field("blank").value);
  const names = field("shape").value === "tapered" ? ["high", "low"] : ["one"];
  const whole = drawn && names.every((name) => Number.isFinite(readings[/** @type {"one"} */ (name)].flat));
  const use = /** @type {HTMLButtonElement} */ (get("use"));
  use.disabled = !whole || !blank;
  get("use-words").textContent = !whole ? "Type the marks first."
    : blank ? "It becomes the blank's next version, with its set-up."
      : "Choose the blank above to use it on; a new one is begun on Measure.";
}

get("read").addEventListener("submit", async (event) => {
  event.preventDefault();
  get("read-trouble").hidden = true;
  const use = /** @type {HTMLButtonElement} */ (get("use"));
  use.disabled = true;
  try {
    const blank = Number(field("blank").value);
    const tapered = field("shape").value === "tapered";
    const strips = drawn.told.strips;
    const read = tapered
      ? [{ at_mm: strips[0].at_mm, flat_mm: readings.low.flat }, { at_mm: strips[1].at_mm, flat_mm: readings.high.flat }]
      : [{ at_mm: null, flat_mm: readings.one.flat }];
    const taken = await api.readGauge({
      readings: read, wall_mm: drawn.asked.wall ?? null, setup: drawn.asked.setup, lies: drawn.told.lies, blank,
    });
    const said = Object.assign(document.createElement("p"), { textContent: taken.words.map(inUnit).join(" ") });
    get("read-said").replaceChildren(said);
    location.assign(pages.measure(blank));
  } catch (error) {
    sayError(get("read-trouble"), error);
    showUse();
  }
});
