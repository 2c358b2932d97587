// Putting a piece somewhere by hand: dragged, or moved by keys.

import { say } from "../app/say.js";
import { byId } from "../sheet/dom.js";

const SHORT_PX = 4; // a shorter way is a click
const SNAP_MM = 0.5;

export class Hand {
  /** @param {any} state */
  constructor(state) {
    this.state = state;
    /** @type {any} */
    this.held = null;
    const board = byId("board");
    board.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => this.take(event));
    board.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => this.move(event));
    board.addEventListener("pointerup", (/** @type {PointerEvent} */ event) => this.drop(event));
    board.addEventListener("pointercancel", () => this.back());
    board.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => this.key(event));
  }

  /** The copy an event is about. @param {Event} event */
  copyOf(event) {
    const group = /** @type {Element} */ (event.target).closest(".t-copy");
    if (!(group instanceof SVGGElement)) return null;
    const sheet = Number(group.dataset.sheet);
    const [piece, copy] = (group.dataset.key ?? "").split("-").map(Number);
    const found = this.state.view?.sheets[sheet]?.copies.find((/** @type {any} */ one) => one.piece === piece && one.copy === copy);
    return found ? { group, sheet, found } : null;
  }

  /** @param {PointerEvent} event */
  take(event) {
    const copy = this.copyOf(event);
    if (!copy || event.button !== 0) return;
    const svg = /** @type {SVGSVGElement} */ (copy.group.ownerSVGElement);
    copy.group.setPointerCapture(event.pointerId);
    copy.group.focus({ preventScroll: true });
    this.held = { ...copy, svg, from: [event.clientX, event.clientY], moved: false };
  }

  /** @param {PointerEvent} event */
  move(event) {
    const { held } = this;
    if (!held) return;
    const way = [event.clientX - held.from[0], event.clientY - held.from[1]];
    if (!held.moved && Math.hypot(...way) < SHORT_PX) return;
    held.moved = true;
    held.group.classList.add("t-moving");
    const mm = held.svg.viewBox.baseVal.width / held.svg.getBoundingClientRect().width;
    held.group.setAttribute("transform", `translate(${way[0] * mm} ${way[1] * mm})`);
  }

  /** @param {PointerEvent} event */
  drop(event) {
    const { held } = this;
    this.held = null;
    if (!held?.moved) return;
    held.group.releasePointerCapture?.(event.pointerId);
    held.group.style.pointerEvents = "none";
    const under = document.elementFromPoint(event.clientX, event.clientY)?.closest(".t-paper");
    held.group.style.pointerEvents = "";
    const target = under instanceof SVGSVGElement ? under : held.svg;
    // Where the corner is now, in the millimetres of the sheet it was let go on.
    const rect = held.svg.getBoundingClientRect();
    const scale = held.svg.viewBox.baseVal.width / rect.width;
    const [x, y] = held.found.box;
    const corner = [
      rect.left + x / scale + event.clientX - held.from[0],
      rect.top + y / scale + event.clientY - held.from[1],
    ];
    const there = target.getBoundingClientRect();
    const mm = target.viewBox.baseVal.width / there.width;
    const place = [(corner[0] - there.left) * mm, (corner[1] - there.top) * mm];
    this.put(held.found, Number(target.dataset.sheet), place[0], place[1], held.found.turn_deg);
  }

  back() {
    this.held?.group.removeAttribute("transform");
    this.held = null;
  }

  /**
   * @param {any} copy @param {number} sheet @param {number} x of its box's upper left corner @param {number} y
   * @param {number} turn
   */
  put(copy, sheet, x, y, turn) {
    const paper = this.state.view.sheets[sheet];
    const quarter = (turn - copy.turn_deg) % 180 !== 0;
    const [wide, high] = quarter ? [copy.box[3], copy.box[2]] : [copy.box[2], copy.box[3]];
    // Its clear room stays on what can be printed.
    const grown = [copy.box[0] - copy.clear[0], copy.box[1] - copy.clear[1], copy.clear[2] - copy.box[2], copy.clear[3] - copy.box[3]];
    const [left, top, width, height] = paper.printable;
    const side = quarter ? Math.max(...grown) : 0;
    const low = [left + Math.max(grown[0], side), top + Math.max(grown[1], side)];
    const most = [left + width - wide - Math.max(grown[2] - grown[0], side), top + height - high - Math.max(grown[3] - grown[1], side)];
    const at = [clamp(x, low[0], most[0]), clamp(y, low[1], most[1])].map((one) => Math.round(one / SNAP_MM) * SNAP_MM);
    const place = [clamp(at[0], low[0], most[0]), clamp(at[1], low[1], most[1])];
    this.state.pin({
      piece: copy.piece, copy: copy.copy, sheet, x_mm: place[0], y_mm: paper.height_mm - place[1] - high, turn_deg: turn,
    });
    say("Put there; the others are laid round it.");
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const copy = this.copyOf(event);
    if (!copy || event.ctrlKey || event.metaKey || event.altKey) return;
    const { found, sheet } = copy;
    const step = event.shiftKey ? 10 : 1;
    const ways = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] };
    const way = ways[/** @type {keyof typeof ways} */ (event.key)];
    const [x, y] = found.box;
    if (way) this.put(found, sheet, x + way[0], y + way[1], found.turn_deg);
    else if (event.key === "r" || event.key === "R") this.turn(found, sheet);
    else if (event.key === "p" || event.key === "P") this.put(found, sheet, x, y, found.turn_deg);
    else if (event.key === "u" || event.key === "U") {
      this.state.unpin(found.piece, found.copy);
      say("Let go.");
    } else return;
    event.preventDefault();
  }

  /** @param {any} copy @param {number} sheet */
  turn(copy, sheet) {
    const { turns } = this.state.view.pieces[copy.piece];
    const next = turns[(turns.indexOf(copy.turn_deg) + 1) % turns.length];
    if (next === copy.turn_deg) say("This piece may lie in one way only.");
    else this.put(copy, sheet, copy.box[0], copy.box[1], next);
  }
}

/** @param {number} value @param {number} low @param {number} high */
function clamp(value, low, high) {
  return Math.min(Math.max(value, low), Math.max(low, high));
}
