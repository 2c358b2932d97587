// Where the page lies in the view: px per mm and the page's corner in px; nothing but figures.

const STEP = 1.25;
const MOST = 40; // screen px for one pixel of the sheet

export class Camera {
  constructor() {
    this.width = 1; // of the view, CSS px
    this.height = 1;
    this.edge = 24; // the rulers
    this.page = { width_mm: 1, height_mm: 1 };
    this.ppi = 300;
    this.scale = 1;
    this.x = 0;
    this.y = 0;
    this.fitted = true;
  }

  /** Screen px (CSS) for one pixel of the sheet. */
  get share() {
    return (this.scale * 25.4) / this.ppi;
  }

  get least() {
    const wide = (this.width - this.edge - 16) / this.page.width_mm;
    const high = (this.height - this.edge - 16) / this.page.height_mm;
    return Math.max(0.05, Math.min(wide, high));
  }

  get most() {
    return Math.max(this.least, (MOST * this.ppi) / 25.4);
  }

  fit() {
    this.scale = this.least;
    this.x = this.edge + (this.width - this.edge - this.page.width_mm * this.scale) / 2;
    this.y = this.edge + (this.height - this.edge - this.page.height_mm * this.scale) / 2;
    this.fitted = true;
  }

  /**
   * Zoom about a place in the view.
   * @param {number} factor @param {number} [px] @param {number} [py]
   */
  zoom(factor, px = this.edge + (this.width - this.edge) / 2, py = this.edge + (this.height - this.edge) / 2) {
    const scale = Math.min(this.most, Math.max(this.least, this.scale * factor));
    if (scale <= this.least * 1.0001) { this.fit(); return; }
    this.x = px - ((px - this.x) * scale) / this.scale;
    this.y = py - ((py - this.y) * scale) / this.scale;
    this.scale = scale;
    this.fitted = false;
    this.hold();
  }

  /** @param {1 | -1} way */
  step(way) {
    this.zoom(way > 0 ? STEP : 1 / STEP);
  }

  /** One pixel of the sheet as eight of the screen: single pixels can be told apart. */
  pixels() {
    this.zoom(8 / this.share);
  }

  /** The whole page in sight does not move. @param {number} dx @param {number} dy */
  move(dx, dy) {
    if (this.fitted) return;
    this.x += dx;
    this.y += dy;
    this.hold();
  }

  /** Keep a part of the page in sight. */
  hold() {
    const wide = this.page.width_mm * this.scale;
    const high = this.page.height_mm * this.scale;
    const keep = 60;
    this.x = Math.min(this.width - keep, Math.max(this.edge + keep - wide, this.x));
    this.y = Math.min(this.height - keep, Math.max(this.edge + keep - high, this.y));
  }

  /** The part of the page in sight, mm from its upper left corner: left, top, right, bottom. */
  sight() {
    const { width_mm: wide, height_mm: high } = this.page;
    return {
      left: Math.max(0, (this.edge - this.x) / this.scale), top: Math.max(0, (this.edge - this.y) / this.scale),
      right: Math.min(wide, (this.width - this.x) / this.scale), bottom: Math.min(high, (this.height - this.y) / this.scale),
    };
  }
}
