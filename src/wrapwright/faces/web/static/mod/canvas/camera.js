/**
 * Where the canvas is looked at from: pixels of the view = scale x canvas mm + x, y.
 *
 * @typedef {import("./matrix.js").Matrix} Matrix
 * @typedef {import("./matrix.js").Point} Point
 * @typedef {{top: number, right: number, bottom: number, left: number}} Edges  px kept free round the wrap
 */

const MOST = 200; // px a mm: a dot of 300 to the inch is 17 px
const PART = 0.25; // of the whole view: the least

export class Camera {
  constructor() {
    this.scale = 1;
    this.x = 0;
    this.y = 0;
    this.width = 0;
    this.height = 0;
    /** Whether the whole wrap is shown, and goes on being shown when the view changes its size. */
    this.fitted = true;
    this.least = 0.01;
  }

  /** @returns {Matrix} canvas mm -> px */
  get matrix() {
    return [this.scale, 0, 0, this.scale, this.x, this.y];
  }

  /** @param {number} x px @param {number} y @returns {Point} canvas mm */
  mm(x, y) {
    return { x: (x - this.x) / this.scale, y: (y - this.y) / this.scale };
  }

  /** @param {number} x canvas mm @param {number} y @returns {Point} px */
  px(x, y) {
    return { x: x * this.scale + this.x, y: y * this.scale + this.y };
  }

  /**
   * Take a new size of the view: what was in its middle stays there.
   * @param {number} width px
   * @param {number} height px
   */
  resize(width, height) {
    this.x += (width - this.width) / 2;
    this.y += (height - this.height) / 2;
    this.width = width;
    this.height = height;
  }

  /**
   * Show a whole box, as large as goes.
   * @param {number[]} box x, y, width, height in canvas mm
   * @param {Edges} edges
   */
  fit([x, y, width, height], edges) {
    const across = Math.max(40, this.width - edges.left - edges.right);
    const along = Math.max(40, this.height - edges.top - edges.bottom);
    this.scale = Math.min(across / width, along / height, MOST);
    this.least = this.scale * PART;
    this.x = edges.left + (across - width * this.scale) / 2 - x * this.scale;
    this.y = edges.top + (along - height * this.scale) / 2 - y * this.scale;
    this.fitted = true;
  }

  /**
   * @param {number} scale px a mm wanted
   * @param {number} x px of the point that stays
   * @param {number} y
   */
  zoom(scale, x = this.width / 2, y = this.height / 2) {
    const wanted = Math.min(MOST, Math.max(this.least, scale));
    const factor = wanted / this.scale;
    this.x = x - (x - this.x) * factor;
    this.y = y - (y - this.y) * factor;
    this.scale = wanted;
    this.fitted = false;
  }

  /** @param {number} x px @param {number} y */
  pan(x, y) {
    this.x += x;
    this.y += y;
    this.fitted = false;
  }

  /** @param {Point} point canvas mm, put in the middle */
  look({ x, y }) {
    this.x = this.width / 2 - x * this.scale;
    this.y = this.height / 2 - y * this.scale;
    this.fitted = false;
  }
}
