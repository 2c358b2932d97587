// The composing screen: joins the wrap, the piece, the dial, the list and the figures to one state and to the server.

import { api, pages } from "../app/api.js";
import { kept as workshop } from "../app/pressing/kept.js";
import { say } from "../app/say.js";
import { Acts } from "./acts/acts.js";
import { askWhose, showKeys } from "./acts/asking.js";
import { Bringing, choosePicture, listenForFiles } from "./acts/bring.js";
import { listenToKeys } from "./acts/keys.js";
import { Bench } from "./bench.js";
import { Checks } from "./checks.js";
import { alike } from "./document/wording.js";
import { byId } from "./dom.js";
import { Side } from "./fields/side.js";
import { ElementList } from "./list/list.js";
import { Kept } from "./saving/kept.js";
import { Saving } from "./saving/saving.js";
import { joinFlat } from "./flat.js";
import { Foot } from "./foot.js";
import { joinViews } from "./views.js";

const design = Number(byId("compose").dataset.design);
const ZOOM = 1.25;

/** Begin with what the server has, then with what has not reached it yet. */
async function begin() {
  const kept = new Kept(design);
  const bench = new Bench(await api.design(design, "flat"));
  const foot = new Foot(bench);
  bench.way = savingOf(bench, kept, foot);
  const acts = new Acts(bench);
  const known = { blank: null, setups: [], families: [], recipes: [] };
  const bringing = new Bringing(byId("bringing"), design);
  const list = new ElementList(byId("elements"), bench);
  const checks = new Checks({ list: byId("findings"), count: byId("checks-count") }, bench, (revision, signal) => api.checks(design, revision, signal));
  const pictures = picturesOf(bench, acts, bringing);
  const side = new Side(bench, acts, () => known, { replace: () => pictures.replace(), font: (file) => addFont(file, known, side, bringing) });
  const straight = () => straighten(bench);
  joinViews(bench, acts, { straight, files: pictures.drop, foot });
  joinFlat(bench);
  bench.listen((parts) => show(parts, { bench, list, side, checks, foot }));
  joinTools(bench, acts, pictures, straight);
  listenToKeys(acts, { straight, keys: showKeys });
  listenForFiles((files) => pictures.drop(files));
  document.addEventListener("wrapunit", () => { side.element.built = side.design.built = ""; side.show(); checks.show(); });
  bench.tell("job", "drawn", "selected", "saving", "design");
  sendWhatIsLeft(bench, kept);
  selectNamed(bench);
  window.addEventListener("hashchange", () => selectNamed(bench));
  learn(known, bench, side);
  watchOthers(bench, kept);
  document.addEventListener("wraponline", () => checks.again());
}

/** Show what changed. */
function show(parts, { bench, list, side, checks, foot }) {
  if (parts.has("changing")) side.follow();
  if (parts.size === 1 && parts.has("changing")) return;
  if (parts.has("job")) list.show();
  else if (parts.has("selected")) list.mark();
  if (parts.has("selected")) side.selected();
  else if (parts.has("job") || parts.has("drawn") || parts.has("design")) side.show();
  if (parts.has("drawn") || parts.has("design")) checks.ask();
  foot.show();
  byId("teach").hidden = (bench.job.element ?? []).length > 0;
}

/** @param {Bench} bench @param {Kept} kept @param {Foot} foot */
function savingOf(bench, kept, foot) {
  const server = {
    save: (revision, job) => api.saveDesign(design, revision, job, bench.frame),
    newest: () => api.design(design, bench.frame),
    order: (revision, order) => {
      if (order === "redo") return api.redo(design, revision, bench.frame);
      if (typeof order === "object") return api.useSetup(design, revision, order.setup, bench.frame);
      return api.undo(design, revision, bench.frame);
    },
  };
  const way = new Saving(bench.design.newest, server, kept, {
    state: (state, error) => { bench.saving = { state, error }; bench.tell("saving"); },
    reply: (reply, tag, more) => bench.take(reply, tag, more),
    conflict: (theirs) => askWhose(theirs, way.revision),
    refused: (error) => { foot.refuse(error); bench.caughtUp(); },
  });
  return way;
}

/** Send what an earlier load of this page could not. @param {Bench} bench @param {Kept} kept */
function sendWhatIsLeft(bench, kept) {
  const left = kept.left();
  if (!left) return;
  if (alike(left.job, bench.job)) return kept.clear();
  bench.way.revision = left.base;
  bench.edit(() => left.job, { reshaped: true });
  say("What had not been saved is here again.");
}

/** Select the element that the address names. @param {Bench} bench */
function selectNamed(bench) {
  const named = /^#element-(\d+)$/.exec(location.hash);
  if (named) bench.select([`${named[1]}.0`]);
}

/** What the fields offer: fonts, set-ups, and the blank as it is on the shelf now. */
async function learn(known, bench, side) {
  const none = () => [];
  const blank = bench.design.blank_id ? api.blank(bench.design.blank_id).catch(() => null) : null;
  const asked = [api.fonts().catch(none), api.setups().catch(none), blank, workshop.recipes().catch(none)];
  [known.families, known.setups, known.blank, known.recipes] = await Promise.all(asked);
  side.show();
}

/** @param {File} file */
async function addFont(file, known, side, bringing) {
  try {
    const font = await api.putFont(file);
    known.families = await api.fonts();
    say(`${font.family} can be chosen now.`);
    side.show();
  } catch (error) {
    bringing.trouble(error);
  }
}

/** The ways a picture comes in. @param {Bench} bench @param {Acts} acts @param {Bringing} bringing */
function picturesOf(bench, acts, bringing) {
  const use = async (chosen, put) => {
    try {
      if (chosen?.kept) put(await bringing.kept(chosen.kept));
      for (const file of chosen?.files ?? []) {
        const brought = await bringing.file(file);
        if (brought) put(brought);
      }
    } catch (error) {
      bringing.trouble(error);
    }
  };
  const choose = async (title, words, put) => use(await choosePicture({ title, words }), put);
  return {
    add: () => choose("Add a picture", "It comes to the front of the blank; drag it from there. You can also drop or paste a file onto the wrap.", (one) => acts.addPicture(one)),
    tile: () => choose("Add a pattern", "The picture is repeated over the whole wrap and closes at the seam.", (one) => acts.addTile(one)),
    replace: () => choose("Another picture", "It takes the place of the one that is there.", (one) => acts.replacePicture(one.file)),
    drop: (files, place) => use({ files: [...files] }, (one) => acts.addPicture(one, place)),
  };
}

/** The words of a new text are ready to be typed over. */
function begun() {
  const field = /** @type {HTMLTextAreaElement|null} */ (document.querySelector("[data-path='text']"));
  field?.focus();
  field?.select();
}

/** @param {string} name @returns {HTMLButtonElement} */
const byDo = (name) => /** @type {any} */ (document.querySelector(`[data-do="${name}"]`));

/** The buttons above and on the wrap. */
function joinTools(bench, acts, pictures, straight) {
  const canvas = byId("canvas");
  const does = {
    picture: pictures.add, tile: pictures.tile, straight, keys: showKeys,
    text: () => { acts.addText(); begun(); },
    fill: () => acts.addFill(), code: () => acts.addCode(),
    nearer: () => acts.order(1), farther: () => acts.order(-1), duplicate: () => acts.duplicate(), remove: () => acts.remove(),
    undo: () => acts.step("undo"), redo: () => acts.step("redo"),
    "zoom-out": () => canvas.zoomBy(1 / ZOOM), fit: () => canvas.fit(), "zoom-in": () => canvas.zoomBy(ZOOM),
  };
  canvas.addEventListener("wrapzoom", ({ detail }) => byDo("fit").setAttribute("aria-pressed", String(detail.fitted)));
  for (const one of document.querySelectorAll("[data-do]")) one.addEventListener("click", does[one.dataset.do]);
  for (const name of ["picture", "text", "tile", "fill", "code", "keys", "zoom-out", "fit", "zoom-in"]) {
    byDo(name).disabled = false; // until now a press would have been lost
  }
  byId("again").addEventListener("click", () => bench.way.hurry());
  byId("to-sheet").addEventListener("click", async (event) => {
    if (bench.way.settled) return;
    event.preventDefault();
    // The sheet shows what the server has: first let it have everything.
    if (await bench.way.through()) location.assign(pages.sheet(design));
    else say("The sheet needs what is not saved yet.");
  });
}

/** Show a tapered wrap straightened, or flat again. @param {Bench} bench */
async function straighten(bench) {
  const { figures, frame } = bench.drawn;
  if (!frame || !figures || figures.girth_top_mm === figures.girth_bottom_mm) return;
  const wanted = bench.frame === "flat" ? "straight" : "flat";
  bench.frame = wanted;
  bench.tell("frame");
  let reply;
  do {
    // A save under way answers in the frame it was sent with.
    await bench.way.through();
    reply = await api.design(design, wanted).catch(() => null);
    if (bench.frame !== wanted) return;
  } while (reply && reply.design.revision !== bench.design.revision && !bench.way.settled);
  if (reply?.design.revision === bench.design.revision) {
    bench.redraw(reply.drawn);
    say(wanted === "straight" ? "The wrap is straightened." : "The wrap is shown flat, as it is cut.");
  } else {
    bench.frame = wanted === "flat" ? "straight" : "flat";
    bench.tell("frame");
    say("The wrap could not be drawn anew.");
  }
}

/** What another station saved shows when this page is looked at again; what waits is sent when the server answers. */
function watchOthers(bench, kept) {
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") bench.way.refresh();
    else if (bench.way.timer) bench.way.hurry();
  });
  window.addEventListener("focus", () => bench.way.refresh());
  document.addEventListener("wraponline", () => { if (bench.way.stuck && bench.saving.state === "away") bench.way.hurry(); });
  window.addEventListener("beforeunload", (event) => { if (!bench.way.settled && !kept.safe) event.preventDefault(); });
}

begin().catch((error) => {
  const place = byId("bringing");
  place.textContent = [error.message, error.remedy].filter(Boolean).join(" ");
  place.classList.add("compose-trouble");
  say(place.textContent);
  if (error.kind === "offline") document.addEventListener("wraponline", () => location.reload(), { once: true });
});
