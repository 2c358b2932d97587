// Parts of the page fetched at the ppi that the zoom asks for, up to the sheet's own.

const TILE_PX = 512;
const KEPT = 120;
const AT_ONCE = 4;

/** @typedef {{left: number, top: number, right: number, bottom: number}} Part mm */
/** @typedef {{image: HTMLImageElement, left: number, top: number, wide: number, high: number, ppi: number, ready: boolean}} Tile mm, ppi */

export class Tiles {
  /**
   * @param {(what: {ppi: number, x: number, y: number, width: number, height: number}) => string} address
   * @param {() => void} arrived
   */
  constructor(address, arrived) {
    this.address = address;
    this.arrived = arrived;
    /** @type {Map<string, Tile>} */
    this.kept = new Map();
    /** @type {Tile[]} */
    this.waiting = [];
    this.running = 0;
  }

  /** How many are still to come. */
  get missing() {
    return this.running + this.waiting.length;
  }

  /** The ppi to fetch for so many device pixels a mm. @param {number} perMm @param {number} own */
  static level(perMm, own) {
    const wanted = perMm * 25.4;
    return [36, 72, 150, 300, 600].find((one) => one >= wanted && one < own) ?? own;
  }

  /**
   * The tiles of a part of the page at a ppi, those that are there ready; the others are asked for.
   * @param {Part} part @param {number} ppi @param {{width_mm: number, height_mm: number}} page
   */
  of(part, ppi, page) {
    const side = (TILE_PX * 25.4) / ppi;
    const found = [];
    for (let row = Math.floor(part.top / side); row * side < part.bottom; row += 1) {
      for (let column = Math.floor(part.left / side); column * side < part.right; column += 1) {
        found.push(this.tile(column, row, side, ppi, page));
      }
    }
    this.fetch();
    return found;
  }

  /** @param {number} column @param {number} row @param {number} side @param {number} ppi @param {{width_mm: number, height_mm: number}} page */
  tile(column, row, side, ppi, page) {
    const key = `${ppi} ${column} ${row}`;
    const known = this.kept.get(key);
    if (known) {
      this.kept.delete(key);
      this.kept.set(key, known);
      return known;
    }
    const left = column * side;
    const top = row * side;
    const made = {
      image: new Image(), left, top, ppi, ready: false,
      wide: Math.min(side, page.width_mm - left), high: Math.min(side, page.height_mm - top),
    };
    this.kept.set(key, made);
    this.waiting.push(made);
    while (this.kept.size > KEPT) this.kept.delete(/** @type {string} */ (this.kept.keys().next().value));
    return made;
  }

  /** Those asked for last come first: what is in sight now. */
  fetch() {
    while (this.running < AT_ONCE && this.waiting.length) {
      const one = /** @type {Tile} */ (this.waiting.pop());
      this.running += 1;
      one.image.src = this.address({ ppi: one.ppi, x: round(one.left), y: round(one.top), width: round(one.wide), height: round(one.high) });
      one.image.decode().then(() => { one.ready = true; }, () => {}).finally(() => {
        this.running -= 1;
        this.arrived();
        this.fetch();
      });
    }
    if (this.waiting.length > KEPT) this.waiting.splice(0, this.waiting.length - KEPT);
  }

  /** Nothing of it is asked for any more. */
  clear() {
    this.waiting.length = 0;
    this.kept.clear();
  }
}

/** @param {number} mm a ten-thousandth is finer than any pixel */
function round(mm) {
  return Math.round(mm * 1e4) / 1e4;
}
