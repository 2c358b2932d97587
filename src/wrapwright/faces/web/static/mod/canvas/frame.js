/**
 * Where a place on the wall lies on the canvas, and back.
 *
 * Canvas mm: x to the viewer's right, y DOWN, the origin on the band's lower edge halfway round from the seam (or the
 * handle's middle). The formulas are those of the flat wrap, the development of a cone frustum (any handbook of
 * descriptive geometry), written so that the straight wall is their limit without loss of digits.
 *
 * `at` is the angle round the blank, front 0; `turn` the angle from the seam, 0 at its left end, any number of whole
 * turns allowed; `up` mm along the wall from the band's lower edge. Angles are degrees; `lean` is clockwise as seen, so
 * that it can go into an SVG `rotate()`.
 */

import { SAME, joined, shift, turned } from "./matrix.js";

/**
 * @typedef {import("./matrix.js").Matrix} Matrix
 * @typedef {{kind: string, sector: boolean, lower_mm: number, upper_mm: number, height_mm: number, seam_deg: number,
 *   overlap_mm: number, gap_mm: number, box: [number, number, number, number], plate?: string}} FrameView
 * @typedef {{at: number, up: number}} Place
 */

const RAD = Math.PI / 180;

/** @param {number} degrees @returns {number} the same angle in [0, 360) */
export function wholeTurn(degrees) {
  const angle = degrees - 360 * Math.floor(degrees / 360);
  return angle >= 360 ? 0 : angle;
}

/** @param {number} degrees @returns {number} the same angle in [-180, 180) */
export function shortTurn(degrees) {
  return wholeTurn(degrees + 180) - 180;
}

/** @param {number} angle rad @returns {number} sin(angle) / angle */
function sinc(angle) {
  return Math.abs(angle) < 1e-8 ? 1 : Math.sin(angle) / angle;
}

/** The geometry of one frame; all methods are exact and cheap. */
export class Frame {
  /** @param {FrameView} view */
  constructor(view) {
    this.view = view;
    this.lower = view.lower_mm;
    this.height = view.height_mm;
    this.seam = view.seam_deg;
    this.sector = view.sector && view.lower_mm !== view.upper_mm;
    /** Sector angle in rad of one whole turn, below 0 when the foot is wider than the rim. */
    this.theta = this.sector ? (view.upper_mm - view.lower_mm) / view.height_mm : 0;
  }

  /** @param {number} at @returns {number} turn in [0, 360) */
  turnOf(at) {
    return wholeTurn(at - this.seam);
  }

  /** @param {number} turn @returns {number} angle round the blank in [0, 360) */
  atOf(turn) {
    return wholeTurn(turn + this.seam);
  }

  /** @param {number} up @returns {number} mm of one whole turn there */
  turnLength(up) {
    return this.lower + this.theta * up;
  }

  /**
   * @param {number} turn
   * @param {number} up
   * @returns {number} mm along the level at `up` from the paper's left end
   */
  fromLeft(turn, up) {
    return (turn / 360) * this.turnLength(up) - this.view.gap_mm / 2;
  }

  /** @param {number} turn @returns {number} degrees, clockwise */
  lean(turn) {
    return (this.theta * (turn / 360 - 0.5)) / RAD;
  }

  /**
   * @param {number} turn any number of whole turns
   * @param {number} up
   * @returns {{x: number, y: number, lean: number}}
   */
  placeTurn(turn, up) {
    const share = turn / 360 - 0.5;
    const phi = this.theta * share;
    const way = this.lower * share;
    return {
      x: way * sinc(phi) + up * Math.sin(phi),
      y: way * sinc(phi / 2) * Math.sin(phi / 2) - up * Math.cos(phi),
      lean: phi / RAD,
    };
  }

  /**
   * @param {number} at
   * @param {number} up
   * @returns {{x: number, y: number, lean: number}} within the first turn
   */
  place(at, up) {
    return this.placeTurn(this.turnOf(at), up);
  }

  /**
   * @param {number} x canvas mm
   * @param {number} y
   * @returns {{at: number, up: number, turn: number}} `turn` runs on beyond both ends, `at` is in [0, 360)
   */
  read(x, y) {
    const { theta, lower } = this;
    let turn;
    let up;
    if (theta === 0) {
      turn = 360 * (x / lower + 0.5);
      up = -y;
    } else {
      const sign = theta > 0 ? 1 : -1;
      const base = lower / theta;
      const flat = -y;
      const radius = Math.hypot(x, base + flat);
      turn = 360 * (Math.atan2(sign * x, sign * (base + flat)) / theta + 0.5);
      up = (sign * (x * x + flat * flat + 2 * base * flat)) / (radius + Math.abs(base));
    }
    return { at: this.atOf(turn), up, turn };
  }

  /**
   * @param {number} fromTurn
   * @param {number} fromUp
   * @param {number} toTurn
   * @param {number} toUp
   * @returns {Matrix} the rigid motion that carries what stands upright at one place upright to the other: about the
   *   apex of a sector and along its radius
   */
  carry(fromTurn, fromUp, toTurn, toUp) {
    const from = this.placeTurn(fromTurn, fromUp);
    const to = this.placeTurn(toTurn, toUp);
    return joined(shift(to.x, to.y), turned(to.lean - from.lean), shift(-from.x, -from.y));
  }

  /**
   * @param {Place} from
   * @param {Place} to
   * @returns {Matrix} as `carry`, the shorter way round
   */
  move(from, to) {
    const turn = this.turnOf(from.at);
    return this.carry(turn, from.up, turn + shortTurn(to.at - from.at), to.up);
  }

  /** @param {number} turns whole turns to the right @returns {Matrix} */
  lap(turns) {
    return turns === 0 ? SAME : this.carry(180, 0, 180 + 360 * turns, 0);
  }

  /**
   * @param {number} turn of the centre
   * @param {number} up of the centre
   * @param {number} a own mm to the right of the centre
   * @param {number} b own mm up from it
   * @returns {{x: number, y: number}} where a bent copy has that point: widths are arcs at the centre's height
   */
  bent(turn, up, a, b) {
    return this.placeTurn(turn + (360 * a) / this.turnLength(up), up + b);
  }
}

/** @param {FrameView} view @returns {Frame} */
export function frameOf(view) {
  return new Frame(view);
}
