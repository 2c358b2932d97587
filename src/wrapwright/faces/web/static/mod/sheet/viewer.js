// The page on a canvas: tiles, rulers, and the mark that is pointed at; hands, keys and fingers move it.

import { unit } from "../app/lengths.js";
import { Camera } from "./camera.js";
import { ticks } from "./ruler.js";
import { Tiles } from "./tiles.js";

/** @typedef {[number, number, number, number]} Box left, top, width, height in mm */

const MOVE_PX = 48;

export class Viewer extends EventTarget {
  /** @param {HTMLElement} host @param {HTMLCanvasElement} canvas */
  constructor(host, canvas) {
    super();
    this.host = host;
    this.canvas = canvas;
    this.pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
    this.camera = new Camera();
    /** @type {Tiles | null} */
    this.tiles = null;
    /** @type {Box[]} */
    this.marked = [];
    /** @type {Map<number, {x: number, y: number}>} */
    this.fingers = new Map();
    this.drawing = 0;
    new ResizeObserver(() => this.resize()).observe(host);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.draw());
    this.listen();
  }

  /**
   * @param {{width_mm: number, height_mm: number}} page
   * @param {number} ppi of the sheet
   * @param {(what: any) => string} address of a part
   */
  show(page, ppi, address) {
    const same = page.width_mm === this.camera.page.width_mm && page.height_mm === this.camera.page.height_mm;
    this.camera.page = page;
    this.camera.ppi = ppi;
    this.tiles = new Tiles(address, () => this.draw());
    this.marked = [];
    if (!same || this.camera.fitted) this.camera.fit();
    this.changed();
  }

  /** @param {Box[]} boxes the mark's places, none to let go */
  mark(boxes) {
    this.marked = boxes;
    this.draw();
  }

  resize() {
    const { clientWidth, clientHeight } = this.host;
    this.camera.width = clientWidth;
    this.camera.height = clientHeight;
    const dots = window.devicePixelRatio || 1;
    this.canvas.width = Math.round(clientWidth * dots);
    this.canvas.height = Math.round(clientHeight * dots);
    if (this.camera.fitted) this.camera.fit();
    else this.camera.hold();
    this.changed();
  }

  changed() {
    // As long as all of the page is in sight, one finger scrolls past it.
    this.host.style.touchAction = this.camera.fitted ? "pan-y" : "none";
    this.dispatchEvent(new CustomEvent("zoom", { detail: { share: this.camera.share, fitted: this.camera.fitted } }));
    this.draw();
  }

  draw() {
    if (!this.drawing) this.drawing = requestAnimationFrame(() => { this.drawing = 0; this.paint(); });
  }

  paint() {
    const { pen, camera } = this;
    const dots = window.devicePixelRatio || 1;
    const look = getComputedStyle(this.host);
    pen.setTransform(dots, 0, 0, dots, 0, 0);
    pen.clearRect(0, 0, camera.width, camera.height);
    if (!this.tiles) return;
    this.paintPage(dots, look);
    for (const box of this.marked) this.paintMark(box, look);
    this.paintRulers(look);
    this.dispatchEvent(new CustomEvent("drawing", { detail: { waiting: this.tiles.missing } }));
  }

  /** @param {number} dots @param {CSSStyleDeclaration} look */
  paintPage(dots, look) {
    const { pen, camera } = this;
    const { width_mm: wide, height_mm: high } = camera.page;
    pen.fillStyle = "#ffffff"; // paper
    pen.fillRect(camera.x, camera.y, wide * camera.scale, high * camera.scale);
    pen.imageSmoothingEnabled = camera.share * dots <= 1;
    const sight = camera.sight();
    if (this.tiles && sight.right > sight.left && sight.bottom > sight.top) {
      const whole = { left: 0, top: 0, right: wide, bottom: high };
      const level = Tiles.level(camera.scale * dots, camera.ppi);
      if (level > 36) this.paintTiles(this.tiles.of(whole, 36, camera.page));
      this.paintTiles(this.tiles.of(sight, level, camera.page));
    }
    pen.strokeStyle = look.getPropertyValue("--ink-3");
    pen.lineWidth = 1;
    pen.strokeRect(camera.x - 0.5, camera.y - 0.5, wide * camera.scale + 1, high * camera.scale + 1);
  }

  /** @param {import("./tiles.js").Tile[]} tiles */
  paintTiles(tiles) {
    const { pen, camera } = this;
    const dots = window.devicePixelRatio || 1;
    const snap = (/** @type {number} */ px) => Math.round(px * dots) / dots;
    for (const one of tiles) {
      if (!one.ready) continue;
      const pitch = 25.4 / one.ppi;
      const left = snap(camera.x + one.left * camera.scale);
      const top = snap(camera.y + one.top * camera.scale);
      const right = snap(camera.x + (one.left + one.image.naturalWidth * pitch) * camera.scale);
      const bottom = snap(camera.y + (one.top + one.image.naturalHeight * pitch) * camera.scale);
      pen.drawImage(one.image, left, top, right - left, bottom - top);
    }
  }

  /** @param {Box} box @param {CSSStyleDeclaration} look */
  paintMark(box, look) {
    const { pen, camera } = this;
    const [left, top, wide, high] = box.map((mm) => mm * camera.scale);
    const room = 4;
    pen.lineWidth = 4;
    pen.strokeStyle = "#ffffff"; // a halo, so that it shows on any art
    pen.strokeRect(camera.x + left - room, camera.y + top - room, wide + 2 * room, high + 2 * room);
    pen.lineWidth = 2;
    pen.strokeStyle = look.getPropertyValue("--mark");
    pen.strokeRect(camera.x + left - room, camera.y + top - room, wide + 2 * room, high + 2 * room);
  }

  /** @param {CSSStyleDeclaration} look */
  paintRulers(look) {
    const { pen, camera } = this;
    const { edge } = camera;
    pen.fillStyle = look.getPropertyValue("--panel");
    pen.fillRect(0, 0, camera.width, edge);
    pen.fillRect(0, 0, edge, camera.height);
    pen.strokeStyle = pen.fillStyle = look.getPropertyValue("--ink-3");
    pen.lineWidth = 1;
    pen.font = `11px ${look.fontFamily}`;
    pen.textBaseline = "middle";
    for (const one of ticks(camera.scale, (edge - camera.x) / camera.scale, (camera.width - camera.x) / camera.scale, unit())) {
      const x = Math.round(camera.x + one.mm * camera.scale) + 0.5;
      if (x > edge) this.tick(x, edge, x, edge - one.long, one.words, x + 3, 8, 0);
    }
    for (const one of ticks(camera.scale, (edge - camera.y) / camera.scale, (camera.height - camera.y) / camera.scale, unit())) {
      const y = Math.round(camera.y + one.mm * camera.scale) + 0.5;
      if (y > edge) this.tick(edge, y, edge - one.long, y, one.words, 8, y + 3, Math.PI / 2);
    }
    pen.fillStyle = look.getPropertyValue("--panel");
    pen.fillRect(0, 0, edge, edge);
    pen.strokeStyle = look.getPropertyValue("--line");
    pen.strokeRect(edge - 0.5, edge - 0.5, camera.width, camera.height);
    pen.fillStyle = look.getPropertyValue("--ink-3");
    pen.fillText(unit(), 3, edge / 2);
  }

  /**
   * @param {number} x0 @param {number} y0 @param {number} x1 @param {number} y1
   * @param {string} words @param {number} wx @param {number} wy @param {number} turn
   */
  tick(x0, y0, x1, y1, words, wx, wy, turn) {
    const { pen } = this;
    pen.beginPath();
    pen.moveTo(x0, y0);
    pen.lineTo(x1, y1);
    pen.stroke();
    if (!words) return;
    pen.save();
    pen.translate(wx, wy);
    pen.rotate(turn);
    pen.fillText(words, 0, 0);
    pen.restore();
  }

  listen() {
    const { host } = this;
    host.addEventListener("keydown", (event) => this.onKey(event));
    host.addEventListener("wheel", (event) => {
      if (this.camera.fitted && event.deltaY > 0) return;
      event.preventDefault();
      const { x, y } = this.at(event);
      this.camera.zoom(Math.exp(-event.deltaY / 400), x, y);
      this.changed();
    }, { passive: false });
    host.addEventListener("pointerdown", (event) => {
      this.fingers.set(event.pointerId, this.at(event));
      try { host.setPointerCapture(event.pointerId); } catch { /* an event of a script has no pointer */ }
    });
    host.addEventListener("pointermove", (event) => this.onMove(event));
    for (const end of ["pointerup", "pointercancel"]) {
      host.addEventListener(end, (event) => this.fingers.delete(/** @type {PointerEvent} */ (event).pointerId));
    }
  }

  /** @param {MouseEvent} event */
  at(event) {
    const box = this.host.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }

  /** One finger moves the page, two zoom it. @param {PointerEvent} event */
  onMove(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before) return;
    const now = this.at(event);
    const other = [...this.fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (other) {
      const gap = (/** @type {{x: number, y: number}} */ one) => Math.hypot(one.x - other.x, one.y - other.y) || 1;
      this.camera.zoom(gap(now) / gap(before), (now.x + other.x) / 2, (now.y + other.y) / 2);
    } else {
      this.camera.move(now.x - before.x, now.y - before.y);
    }
    this.fingers.set(event.pointerId, now);
    this.changed();
  }

  /** @param {KeyboardEvent} event */
  onKey(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const far = event.shiftKey ? 4 * MOVE_PX : MOVE_PX;
    /** @type {Record<string, () => void>} */
    const keys = {
      ArrowLeft: () => this.camera.move(far, 0), ArrowRight: () => this.camera.move(-far, 0),
      ArrowUp: () => this.camera.move(0, far), ArrowDown: () => this.camera.move(0, -far),
      "+": () => this.camera.step(1), "=": () => this.camera.step(1), "-": () => this.camera.step(-1),
      0: () => this.camera.fit(), 1: () => this.camera.pixels(),
    };
    const deed = keys[event.key];
    if (!deed) return;
    event.preventDefault();
    deed();
    this.changed();
  }
}
