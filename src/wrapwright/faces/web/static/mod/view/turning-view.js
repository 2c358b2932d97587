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
import { Looks, sceneOf } from "./scene.js";
import { pieceWords, showStandIn } from "./seen.js";

const MOST_DOTS = 2;
const QUIET_MS = 600;
/** A picture that takes longer is drawn without a graphics card. */
const SLOW_MS = 30;
const SETTLE_MS = 160;

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
    this.frameAsked = 0;
    this.fence = null;
    this.slow = false;
    this.seen = "";
    this.fine = false;
    this.movedAt = 0;
    this.looks = new Looks(this, this.stage);
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
    this.watch = new ResizeObserver(() => { this.looks.forget(); this.ask(); });
    this.watch.observe(this.stage);
    this.looks.forget();
    this.worded = null;
    this.ownerDocument.addEventListener("wrapcancel", () => this.held.release(), { signal });
    for (const query of ["(prefers-color-scheme: dark)", "(forced-colors: active)"]) {
      matchMedia(query).addEventListener("change", () => { this.looks.forget(); this.ask(); }, { signal });
    }
    this.meshed = null;
    this.fence = null;
    this.seen = "";
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
    this.sheets?.prepare(this._selected[0] ?? "");
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
    const { width, height } = this.looks.room();
    return this.shape && width && height
      ? new Camera(this.shape, { width, height, facing: this._facing, tilt: this.tilt })
      : null;
  }

  /** @param {number} x @param {number} y stage pixels */
  pick(x, y) {
    const camera = this.eye();
    return camera && this.frame
      ? picked(this, camera, { x, y })
      : { place: null, copy: null };
  }

  /** @param {number} x @param {number} y @returns {{at: number, up: number} | null} */
  placeAt(x, y) {
    return this.pick(x, y).place;
  }

  /** As `placeAt`; beside the piece the nearest place towards its axis. */
  placeNear(x, y) {
    const { width, height } = this.looks.room();
    const [middle, centre] = [width / 2, height / 2];
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
    if (!this._drawn?.solid || !this.painter.ready || this.painter.lost) {
      return;
    }
    if (this.fence && !this.fence.done()) {
      this.ask();
    } else {
      if (this.fence) {
        // Only a fine picture tells: a quick rough one is no sign of a graphics card.
        this.slow = this.fine ? now - this.fence.from > SLOW_MS : this.slow;
        this.fence = null;
      }
      this.follow(now);
    }
    if (this.camera) {
      drawMarks(this.marks, {
        camera: this.camera, wall: this.wall, frame: this.frame, copies: this._drawn.copies,
        selected: this._selected, changing: this.held.now, line: this.hand.line, band: this._drawn.solid.band_height_mm,
      });
    }
  }

  /** Draw the piece if it looks different now: at once, rough where that takes long, and fine when it rests. */
  follow(now) {
    const camera = this.eye();
    if (!camera) {
      return;
    }
    if (this.sheets.tick(now, this.slow)) {
      this.ask();
    }
    const scene = sceneOf(this, camera, Math.min(MOST_DOTS, window.devicePixelRatio || 1));
    const { seen, laid } = scene;
    const moved = seen !== this.seen;
    const resting = !moved && !this.held.now && !this.hand.press && now - this.movedAt > SETTLE_MS;
    const fine = !this.slow || !this.seen || resting;
    if (moved || !this.fine) {
      if (moved || fine) {
        this.movedAt = moved ? now : this.movedAt;
        this.picture(scene, laid, fine);
        this.fence = { from: now, ...this.painter.fence() };
        this.camera = camera;
        this.seen = seen;
        this.fine = fine;
        drawTable(this.table, camera, this.shape, this._facing);
      }
      if (!this.held.now) {
        this.ask();
      }
    }
  }

  picture(scene, laid, fine) {
    const { painter } = this;
    const { width, height } = scene.camera;
    painter.size(Math.round(width * scene.dots), Math.round(height * scene.dots));
    const from = this._drawn.solid.band_from_mm;
    const meshed = this.meshed;
    const key = laid?.key ?? "";
    if (meshed?.key !== key || meshed.from !== from) {
      painter.shape(meshOf(this.shape, laid ? { ...laid, from } : null));
      this.meshed = { key, from };
    }
    painter.draw(scene, fine);
  }

  again() {
    this.meshed = null;
    this.fence = null;
    this.seen = "";
    this.sheets.again();
    this.said();
    this.ask();
  }

  /** The readout and the buttons, each time the angle changed. */
  words() {
    if (this.worded === this._facing) return;
    this.worded = this._facing;
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
    this.stage.setAttribute("aria-label", pieceWords(this._drawn, this._facing, this.tilt));
    showStandIn(this.shadowRoot, this._drawn, this.painter);
  }
}

if (!customElements.get("turning-view")) {
  customElements.define("turning-view", TurningView);
}
