/**
 * `<turning-view>`: the piece in its real shape, turned by hand, with what is on the wrap laid round it.
 *
 * Properties `drawn`, `selected` (keys of copies), `changing` (a drag in hand anywhere) and `facing` (degrees). Events
 * `wrapselect {keys}`, `wraplive`, `wrapchange`, `wrapcancel` as the flat canvas has them, and `wrapfacing {deg}` when a
 * hand turned it. It draws only when something changed.
 */

import { frameOf, shortTurn, wholeTurn } from "../canvas/frame.js";
import { Camera, LEVEL } from "./camera.js";
import { SIDES, capital, degrees, shownAngle, sideWords } from "./angles.js";
import { Held } from "./held.js";
import { Wall, drawMarks, drawTable } from "./overlay.js";
import { Hand, limited, onKey, picked } from "./placing.js";
import { Sheets } from "./sheets.js";
import { PARTS, STYLE } from "./style.js";
import { meshOf } from "./gl/mesh.js";
import { painterFor } from "./gl/painter.js";
import { shapeOf } from "./shape.js";
import { linearOf, pieceWords } from "./seen.js";

const MOST_DOTS = 2;
const QUIET_MS = 600;

export class TurningView extends HTMLElement {
  constructor() {
    super();
    const root = this.attachShadow({ mode: "open" });
    const style = document.createElement("style");
    style.textContent = STYLE;
    root.append(style, document.createRange().createContextualFragment(PARTS));
    this.stage = root.querySelector(".stage");
    this.table = root.querySelector(".table");
    this.marks = root.querySelector(".marks");
    this._drawn = null;
    this._selected = [];
    this._facing = 0;
    this.tilt = LEVEL;
    this.shape = null;
    this.camera = null;
    this.meshed = null;
    this.pictures = 0;
    this.frameAsked = 0;
    this.held = new Held(() => this.changed());
    this.addSides(root.querySelector(".sides"));
  }

  addSides(group) {
    this.sides = SIDES.map(({ name, at }) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = capital(name);
      button.addEventListener("click", () => this.turnTo(at, this.tilt));
      group.append(button);
      return { button, at };
    });
  }

  connectedCallback() {
    this.ending = new AbortController();
    const { signal } = this.ending;
    const fresh = document.createElement("canvas");
    fresh.setAttribute("aria-hidden", "true");
    this.shadowRoot.querySelector("canvas").replaceWith(fresh);
    this.painter = painterFor(fresh, { lost: () => this.said(), back: () => this.again() });
    this.sheets = new Sheets(() => this.painter, () => this.ask());
    this.hand = new Hand(this);
    this.stage.addEventListener("keydown", (event) => onKey(this, event), { signal });
    this.watch = new ResizeObserver(() => this.ask());
    this.watch.observe(this.stage);
    this.ownerDocument.addEventListener("wrapcancel", () => this.held.release(), { signal });
    for (const query of ["(prefers-color-scheme: dark)", "(forced-colors: active)"]) {
      matchMedia(query).addEventListener("change", () => this.ask(), { signal });
    }
    this.meshed = null;
    this.drawn = this._drawn;
  }

  disconnectedCallback() {
    this.dispose();
  }

  /** Free the graphics card and all listeners; putting the element into a page again starts it anew. */
  dispose() {
    this.ending?.abort();
    this.watch?.disconnect();
    cancelAnimationFrame(this.frameAsked);
    clearTimeout(this.quiet);
    this.frameAsked = 0;
    this.held.release();
    this.sheets?.dispose();
    this.painter?.dispose();
  }

  get drawn() {
    return this._drawn;
  }

  set drawn(value) {
    this._drawn = value ?? null;
    const solid = this._drawn?.solid ?? null;
    const said = solid ? JSON.stringify([solid.wall, solid.handle]) : "";
    if (said !== this.solidSaid) {
      this.solidSaid = said;
      this.shape = solid ? shapeOf(solid) : null;
      this.meshed = null;
    }
    this.wall = solid ? new Wall(solid) : null;
    this.frame = this._drawn?.frame ? frameOf(this._drawn.frame) : null;
    if (this.isConnected && this.painter) {
      this.sheets.set(this._drawn);
      this.held.answered();
      this.said();
      this.ask();
    }
  }

  get selected() {
    return this._selected;
  }

  set selected(keys) {
    this._selected = [...(keys ?? [])];
    this.ask();
  }

  get changing() {
    return this.held.now;
  }

  set changing(value) {
    this.held.set(value ?? null);
  }

  get facing() {
    return this._facing;
  }

  set facing(deg) {
    if (Number.isFinite(Number(deg)) && wholeTurn(Number(deg)) !== this._facing) {
      this._facing = wholeTurn(Number(deg));
      this.ask();
      this.saidSoon();
    }
  }

  /** The hand turned it. @param {number} facing @param {number} tilt degrees */
  turnTo(facing, tilt) {
    const before = this._facing;
    this.tilt = limited(tilt);
    this.facing = facing;
    this.ask();
    if (this._facing !== before) {
      this.tell("wrapfacing", { deg: this._facing });
    } else {
      this.saidSoon();
    }
  }

  /** @param {string} name @param {object} detail */
  tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  /** @param {string[]} keys */
  choose(keys) {
    if (keys.join() !== this._selected.join()) {
      this.selected = keys;
      this.tell("wrapselect", { keys });
    }
  }

  changed() {
    this.sheets?.change(this.held.now);
    this.ask();
  }

  /** @returns {Camera | null} */
  eye() {
    const { clientWidth: width, clientHeight: height } = this.stage;
    return this.shape && width && height
      ? new Camera(this.shape, { width, height, facing: this._facing, tilt: this.tilt })
      : null;
  }

  /** @param {number} x @param {number} y stage pixels */
  pick(x, y) {
    const camera = this.eye();
    return camera && this.frame
      ? picked(this._drawn, camera, this.frame, { x, y }, this.held.now)
      : { place: null, copy: null };
  }

  /** @param {number} x @param {number} y @returns {{at: number, up: number} | null} */
  placeAt(x, y) {
    return this.pick(x, y).place;
  }

  /** As `placeAt`; beside the piece the nearest place towards its axis. */
  placeNear(x, y) {
    const middle = this.stage.clientWidth / 2;
    const centre = this.stage.clientHeight / 2;
    for (let share = 0; share <= 1; share += 0.02) {
      const place = this.placeAt(x + (middle - x) * share, y);
      if (place) {
        return place;
      }
    }
    for (let share = 0; share <= 1; share += 0.02) {
      const place = this.placeAt(middle + (x - middle) * 0.5, y + (centre - y) * share);
      if (place) {
        return place;
      }
    }
    return null;
  }

  /** @param {number} at @param {number} up @returns {{x: number, y: number, faces: boolean} | null} stage pixels */
  spotOf(at, up) {
    const camera = this.eye();
    if (!camera) {
      return null;
    }
    const { x, y } = camera.project(this.wall.place(at, up));
    return { x, y, faces: this.wall.faces(camera, at, up) };
  }

  /** @returns {number} how many pixels a degree round the piece is wide there */
  pxPerDegree(at, up) {
    const [a, b] = [this.spotOf(at - 0.5, up), this.spotOf(at + 0.5, up)];
    return Math.max(0.2, Math.hypot(b.x - a.x, b.y - a.y));
  }

  /** @returns {number} the piece's radius as seen */
  radiusPx() {
    const camera = this.eye();
    return camera ? Math.max(20, (camera.scale * this.shape.radius) / camera.away) : 100;
  }

  /** Ask for one more picture. */
  ask() {
    if (!this.frameAsked && this.isConnected) {
      this.frameAsked = requestAnimationFrame((now) => this.show(now));
    }
  }

  show(now) {
    this.frameAsked = 0;
    this.hand.frame();
    this.words();
    this.camera = this.eye();
    if (!this.camera || !this._drawn?.solid) {
      return;
    }
    if (this.painter.ready && !this.painter.lost) {
      const more = this.sheets.tick(now);
      this.picture();
      this.sheets.drewIt();
      if (more) {
        this.ask();
      }
      drawTable(this.table, this.camera, this.shape, this._facing);
      drawMarks(this.marks, {
        camera: this.camera, wall: this.wall, frame: this.frame, copies: this._drawn.copies,
        selected: this._selected, changing: this.held.now, line: this.hand.line, band: this._drawn.solid.band_height_mm,
      });
    }
  }

  picture() {
    const { painter, camera, shape } = this;
    const { frame, solid } = this._drawn;
    const dots = Math.min(MOST_DOTS, window.devicePixelRatio || 1);
    painter.size(Math.round(camera.width * dots), Math.round(camera.height * dots));
    const slot = this.sheets.slot;
    const laid = slot ? this.sheets.laid[slot] : null;
    if (this.meshed !== (laid ?? "bare")) {
      painter.shape(meshOf(shape, laid ? { ...laid, from: solid.band_from_mm } : null));
      this.meshed = laid ?? "bare";
    }
    const lay = laid?.frame ?? this.frame;
    const style = getComputedStyle(this);
    const dark = matchMedia("(prefers-color-scheme: dark)").matches;
    painter.draw({
      camera, slot,
      coating: linearOf(solid.coating),
      seam: linearOf(style.getPropertyValue("--heat").trim()),
      band: [solid.band_height_mm, lay?.lower ?? 1, lay?.theta ?? 0, frame.gap_mm / 2],
      join: [frame.overlap_mm, laid && !solid.handle ? 1 : 0],
      floor: { y: shape.low - 0.05, radius: shape.footRadius, dark: dark ? 0.55 : 0.3 },
    });
    this.pictures += 1;
  }

  again() {
    this.meshed = null;
    this.sheets.again();
    this.said();
    this.ask();
  }

  /** The readout and the buttons, each time the angle changed. */
  words() {
    const root = this.shadowRoot;
    root.querySelector(".angle").textContent = degrees(this._facing);
    root.querySelector(".side").textContent = capital(sideWords(this._facing));
    for (const { button, at } of this.sides) {
      button.setAttribute("aria-pressed", String(Math.abs(shortTurn(at - this._facing)) < 0.05));
    }
  }

  saidSoon() {
    clearTimeout(this.quiet);
    this.quiet = setTimeout(() => {
      this.said();
      this.shadowRoot.querySelector("[role=status]").textContent =
        `${shownAngle(this._facing)} degrees, ${sideWords(this._facing)}`;
    }, QUIET_MS);
  }

  /** What is said of the picture, and what stands in its place where there is none. */
  said() {
    const root = this.shadowRoot;
    this.stage.setAttribute("aria-label", pieceWords(this._drawn, this._facing, this.tilt));
    const empty = root.querySelector(".empty");
    empty.hidden = Boolean(this._drawn?.solid);
    empty.textContent = "The piece turns here once the blank's readings can be used.";
    const works = this.painter.ready && !this.painter.lost;
    const flat = root.querySelector(".flat");
    flat.hidden = works || !this._drawn?.solid;
    this.shadowRoot.querySelector("canvas").style.visibility = works && this._drawn?.solid ? "" : "hidden";
    this.table.style.visibility = this.marks.style.visibility = works && this._drawn?.solid ? "" : "hidden";
    if (!flat.hidden) {
      flat.querySelector("p").textContent = this.painter.ready
        ? "The graphics card stopped drawing for a moment. The flat wrap is shown until it is back."
        : "This browser does not draw in three dimensions (WebGL2 is off), so the piece cannot be turned here. "
          + "The flat wrap shows the same print, and everything else works.";
      const url = this._drawn.proof?.url ?? "";
      const picture = flat.querySelector("img");
      picture.hidden = !url;
      if (url && picture.getAttribute("src") !== url) {
        picture.src = url;
      }
    }
  }
}

if (!customElements.get("turning-view")) {
  customElements.define("turning-view", TurningView);
}
