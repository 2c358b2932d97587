/** Zooming and panning by wheel, pinch and drag. */

/**
 * @typedef {import("../scene.js").Scene} Scene
 * @typedef {import("../matrix.js").Point} Point
 */

const LINE_PX = 16; // a wheel's step where it counts lines
const PER_PX = 0.0022; // of zoom, as an exponent

export class Viewing {
  /** @param {Scene} scene */
  constructor(scene) {
    this.scene = scene;
    /** @type {Map<number, Point>} */
    this.fingers = new Map();
    /** @type {{far: number, middle: Point} | null} where two fingers were last */
    this.pinch = null;
  }

  /** @param {number} id @param {Point} at @returns {boolean} whether two fingers are now on the view */
  touch(id, at) {
    this.fingers.set(id, at);
    if (this.fingers.size !== 2) return this.fingers.size > 2;
    this.pinch = this.spread();
    return true;
  }

  /** @param {number} id @param {Point} at */
  finger(id, at) {
    if (this.fingers.has(id)) this.fingers.set(id, at);
  }

  /** @param {number} id */
  lift(id) {
    this.fingers.delete(id);
    if (this.fingers.size < 2) this.pinch = null;
  }

  /** @returns {{far: number, middle: Point}} */
  spread() {
    const [one, other] = [...this.fingers.values()];
    const middle = { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 };
    return { far: Math.max(1, Math.hypot(one.x - other.x, one.y - other.y)), middle };
  }

  /** Follow two fingers. @returns {boolean} whether there are two */
  pinched() {
    const { pinch, scene } = this;
    if (!pinch) return false;
    const now = this.spread();
    scene.camera.pan(now.middle.x - pinch.middle.x, now.middle.y - pinch.middle.y);
    scene.camera.zoom((scene.camera.scale * now.far) / pinch.far, now.middle.x, now.middle.y);
    this.pinch = now;
    scene.look();
    return true;
  }

  /** @param {{at: Point, now: Point}} grasp follow it, from where it was last */
  pan(grasp) {
    this.scene.camera.pan(grasp.now.x - grasp.at.x, grasp.now.y - grasp.at.y);
    grasp.at = grasp.now;
    this.scene.look();
  }

  /** @param {WheelEvent} event @param {Point} at @returns {boolean} whether it was used: else the page may scroll */
  wheel(event, at) {
    const { camera } = this.scene;
    const unit = event.deltaMode === 1 ? LINE_PX : event.deltaMode === 2 ? camera.height : 1;
    if (event.ctrlKey || event.metaKey) {
      camera.zoom(camera.scale * Math.exp(-event.deltaY * unit * PER_PX), at.x, at.y);
    } else {
      if (camera.fitted) return false;
      const [x, y] = event.shiftKey && event.deltaX === 0 ? [event.deltaY, 0] : [event.deltaX, event.deltaY];
      camera.pan(-x * unit, -y * unit);
    }
    this.scene.look();
    return true;
  }
}
