/**
 * What is printed on the piece as it turns: the server's proof, and while something changes a picture painted here.
 *
 * The painted picture is uploaded only after the graphics card has finished with the one before (the view sees to
 * that), and where there is no card to speak of at most four times a second; the hand never waits for it.
 */

import { frameOf } from "../canvas/frame.js";
import { lapsOf, pathOf } from "./copies.js";

const SIDE_PX = 1024;
const REST_MS = 250;

/**
 * @typedef {import("./held.js").Changing} Changing
 * @typedef {{frame: import("../canvas/frame.js").Frame, box: [number, number, number, number], key: string}} Laid
 */

/** @returns {Laid} where a picture lies on the wrap; the same key = the same place */
function laidOn(view, box) {
  return { frame: frameOf(view), box, key: JSON.stringify([view, box]) };
}

export class Sheets {
  /**
   * @param {() => any} painter the one that draws now
   * @param {() => void} ask for another picture
   */
  constructor(painter, ask) {
    this.painter = painter;
    this.ask = ask;
    this.drawn = null;
    this.changing = null;
    /** @type {"proof" | "live" | null} */
    this.slot = null;
    /** @type {Record<string, Laid>} */
    this.laid = {};
    this.wanted = "";
    this.shown = "";
    this.stale = false;
    this.asked = -REST_MS;
    this.uploads = 0;
    this.idle = 0;
    /** The copy that is selected. */
    this.key = "";
    this.paint = new Paint(() => {
      if (this.slot !== "proof") {
        this.live();
      } else if (!this.changing) {
        this.prepare(this.key);
      }
    });
  }

  /** @param {any} drawn */
  set(drawn) {
    this.drawn = drawn?.frame ? drawn : null;
    this.paint.forget(this.drawn?.copies ?? []);
    const url = this.drawn?.proof?.url ?? "";
    if (!this.drawn) {
      this.wanted = "";
      this.shown = "";
      this.slot = null;
    } else if (url && url !== this.wanted) {
      this.fetch(url);
    } else if (!url) {
      this.wanted = "";
      this.shown = "";
      this.live();
    }
    if (this.drawn && this.slot !== "proof") {
      this.live();
    }
  }

  /** @param {Changing | null} changing */
  change(changing) {
    const ended = this.changing !== null && changing === null;
    this.changing = changing;
    if (changing) {
      this.live();
    } else if (ended && this.shown && this.shown === this.wanted) {
      this.slot = "proof";
      this.stale = false;
    } else if (ended && !this.wanted) {
      this.live();
    }
    this.ask();
  }

  live() {
    this.stale = true;
    this.ask();
  }

  /** @param {string} url the new proof; the old picture stays until this one can be shown */
  async fetch(url) {
    this.wanted = url;
    const { frame, proof } = this.drawn;
    try {
      const reply = await fetch(url);
      if (!reply.ok) {
        throw new Error(String(reply.status));
      }
      const picture = await createImageBitmap(await reply.blob(), { colorSpaceConversion: "none" });
      if (this.wanted === url && this.painter().ready) {
        this.painter().sheet("proof", picture, true);
        this.laid.proof = laidOn(frame, proof.box);
        this.shown = url;
        if (!this.changing) {
          this.slot = "proof";
          this.stale = false;
          this.prepare(this.key);
        }
        this.uploads += 1;
        this.ask();
      }
      picture.close();
    } catch {
      if (this.wanted === url) {
        this.wanted = "";
        this.live();
      }
    }
  }

  /** The card lost everything: bring it back. */
  again() {
    this.slot = null;
    this.shown = "";
    this.wanted = "";
    this.set(this.drawn);
    if (this.changing) {
      this.live();
    }
  }

  /**
   * Paint and upload when it is time.
   *
   * @param {number} now ms
   * @param {boolean} slow whether there is no graphics card to speak of
   * @returns {boolean} whether an upload still waits for its turn
   */
  tick(now, slow) {
    if (!this.stale || !this.drawn) {
      return false;
    }
    if (slow && now < this.asked + REST_MS) {
      return true;
    }
    this.stale = false;
    const { canvas, laid } = this.paint.picture(this.drawn, this.changing);
    this.painter().sheet("live", canvas, false);
    this.laid.live = laid;
    this.slot = "live";
    this.uploads += 1;
    this.asked = now;
    return false;
  }

  /**
   * A copy was selected: have all the others painted, and room for the picture, before a drag begins.
   *
   * @param {string} key "" for none
   */
  prepare(key) {
    this.key = key;
    cancelIdle(this.idle);
    this.idle = key ? whenIdle(() => this.prepared(key)) : 0;
  }

  prepared(key) {
    const copy = this.drawn?.copies.find((one) => one.key === key);
    if (!copy || copy.fixed || this.changing || this.slot !== "proof" || !this.painter().ready) {
      return;
    }
    const { at_deg, up_mm, turn_deg } = copy;
    const still = { key, at_deg, up_mm, turn_deg, scale_x: 1, scale_y: 1 };
    this.painter().sheet("live", this.paint.picture(this.drawn, still).canvas, false);
  }

  dispose() {
    cancelIdle(this.idle);
    this.wanted = "";
    this.drawn = null;
    this.paint.dispose();
  }
}

// Not every browser tells when it is idle.
const whenIdle = window.requestIdleCallback?.bind(window) ?? ((act) => window.setTimeout(act, 1));
const cancelIdle = window.cancelIdleCallback?.bind(window) ?? window.clearTimeout.bind(window);

/** The flat wrap painted in this browser from outlines and sprites; what lies still is painted once a drag. */
class Paint {
  /** @param {() => void} arrived called when a sprite has come */
  constructor(arrived) {
    this.arrived = arrived;
    this.canvas = document.createElement("canvas");
    this.pen = this.canvas.getContext("2d", { alpha: false, willReadFrequently: true });
    /** @type {Map<string, ImageBitmap | null>} */
    this.sprites = new Map();
    /** @type {Set<string>} */
    this.missed = new Set();
    this.layers = null;
    /** @type {Laid | null} */
    this.laid = null;
  }

  /** Another drawing: only the sprites of its copies are kept, and those that did not come are asked for again. */
  forget(copies) {
    this.layers = null;
    this.laid = null;
    const wanted = new Set(copies.map((copy) => copy.sprite?.url));
    for (const [url, sprite] of this.sprites) {
      if (!wanted.has(url) || this.missed.has(url)) {
        sprite?.close();
        this.sprites.delete(url);
      }
    }
    this.missed.clear();
  }

  dispose() {
    for (const sprite of this.sprites.values()) {
      sprite?.close();
    }
    this.sprites.clear();
    this.layers = null;
    this.canvas.width = 0;
    this.canvas.height = 0;
  }

  /** @returns {{canvas: HTMLCanvasElement, laid: Laid}} */
  picture(drawn, changing) {
    this.laid ??= laidOn(drawn.frame, drawn.frame.box);
    const { frame, box } = this.laid;
    const scale = SIDE_PX / Math.max(box[2], box[3]);
    const size = { width: Math.max(1, Math.round(box[2] * scale)), height: Math.max(1, Math.round(box[3] * scale)) };
    if (this.canvas.width !== size.width || this.canvas.height !== size.height) {
      Object.assign(this.canvas, size);
      this.layers = null;
    }
    const base = [size.width / box[2], 0, 0, size.height / box[3], (-box[0] * size.width) / box[2],
      (-box[1] * size.height) / box[3]];
    const place = drawn.copies.findIndex((copy) => changing && copy.key === changing.key);
    const job = { frame, base, size, scale };
    if (place < 0) {
      this.layers = null;
      this.clear(this.pen, size);
      drawn.copies.forEach((copy) => this.copy(this.pen, copy, null, job));
    } else {
      this.inLayers(drawn.copies, place, changing, job);
    }
    return { canvas: this.canvas, laid: this.laid };
  }

  clear(pen, { width, height }) {
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, width, height);
  }

  inLayers(copies, place, changing, job) {
    const { key } = copies[place];
    if (this.layers?.key !== key) {
      this.layers = {
        key,
        below: this.layer(copies.slice(0, place), job, false),
        above: this.layer(copies.slice(place + 1), job, true),
      };
    }
    const { pen } = this;
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.globalAlpha = 1;
    pen.drawImage(this.layers.below, 0, 0);
    this.copy(pen, copies[place], changing, job);
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.globalAlpha = 1;
    if (place < copies.length - 1) {
      pen.drawImage(this.layers.above, 0, 0);
    }
  }

  layer(copies, job, clear) {
    const canvas = document.createElement("canvas");
    Object.assign(canvas, job.size);
    const pen = canvas.getContext("2d", { alpha: clear, willReadFrequently: true });
    if (!clear) {
      this.clear(pen, job.size);
    }
    copies.forEach((copy) => this.copy(pen, copy, null, job));
    return canvas;
  }

  copy(pen, copy, changing, { frame, base, scale }) {
    for (const matrix of lapsOf(frame, copy, changing)) {
      pen.setTransform(...base);
      pen.transform(...matrix);
      pen.globalAlpha = 1;
      if (copy.sprite) {
        const sprite = this.sprite(copy.sprite, scale);
        if (sprite) {
          pen.drawImage(sprite, ...copy.sprite.box);
        }
      }
      copy.shapes.forEach((shape) => this.shape(pen, shape));
    }
    pen.globalAlpha = 1;
  }

  shape(pen, { d, fill, stroke, stroke_mm: width, even_odd: evenOdd, opacity }) {
    const path = pathOf(d);
    pen.globalAlpha = opacity;
    if (fill) {
      pen.fillStyle = fill;
      pen.fill(path, evenOdd ? "evenodd" : "nonzero");
    }
    if (stroke && width > 0) {
      pen.strokeStyle = stroke;
      pen.lineWidth = width;
      pen.lineJoin = "round";
      pen.stroke(path);
    }
  }

  /** @returns {ImageBitmap | null} no larger than it can be seen */
  sprite({ url, box }, scale) {
    const found = this.sprites.get(url);
    if (found !== undefined) {
      return found;
    }
    this.sprites.set(url, null);
    this.fetch(url, Math.max(1, Math.ceil(box[2] * scale * 1.5)));
    return null;
  }

  async fetch(url, most) {
    try {
      const reply = await fetch(url);
      if (!reply.ok) {
        throw new Error(String(reply.status));
      }
      const whole = await createImageBitmap(await reply.blob());
      let sprite = whole;
      if (whole.width > most) {
        sprite = await createImageBitmap(whole, { resizeWidth: most, resizeQuality: "medium" });
        whole.close();
      }
      if (!this.sprites.has(url)) {
        sprite.close();
        return;
      }
      this.sprites.set(url, sprite);
      this.layers = null;
      this.arrived();
    } catch {
      this.missed.add(url);
    }
  }
}
