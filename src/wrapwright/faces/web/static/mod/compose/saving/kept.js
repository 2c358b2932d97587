// What has not reached the server yet, kept in the browser so that a reload, a crash or a flat battery loses nothing.

/**
 * @typedef {{base: number, job: Record<string, any>}} Unsent A whole document, and the revision that it goes on from.
 * @typedef {Unsent & {touched: number}} Entry
 */

const PREFIX = "wrapwright-unsent";
const LEFT_ALONE_MS = 15_000;
const TOUCH_MS = 4_000;

/** A place for one design's unsent document, of this tab; other tabs have theirs. */
export class Kept {
  /**
   * @param {number} design
   * @param {Storage} [storage] outlives the tab
   * @param {Storage} [tab] is the tab's own
   */
  constructor(design, storage = placeOf("localStorage"), tab = placeOf("sessionStorage")) {
    this.stem = `${PREFIX}-${design}-`;
    this.storage = storage;
    this.key = this.stem + tabName(tab);
    this.timer = 0;
    /** Whether the last document could be kept. */
    this.safe = true;
    /** @type {Unsent|null} */
    this.held = null;
  }

  /**
   * Keep a document until `clear`.
   * @param {Unsent} unsent
   */
  put(unsent) {
    this.held = unsent;
    this.write();
    if (!this.timer) this.timer = window.setInterval(() => this.write(), TOUCH_MS);
  }

  /** Write what is held, with the time, so that another tab can tell whether this one still lives. */
  write() {
    try {
      this.storage.setItem(this.key, JSON.stringify({ ...this.held, touched: Date.now() }));
      this.safe = true;
    } catch {
      this.safe = false;
    }
  }

  /** Nothing is unsent any more. */
  clear() {
    window.clearInterval(this.timer);
    this.timer = 0;
    this.held = null;
    try {
      this.storage.removeItem(this.key);
    } catch {
      this.safe = false;
    }
  }

  /**
   * What this tab left behind before it was loaded again, else what a tab that lives no more left; or null.
   * @returns {Unsent|null}
   */
  left() {
    const own = this.read(this.key);
    if (own) return own;
    for (const key of keysOf(this.storage)) {
      const entry = key.startsWith(this.stem) ? this.read(key) : null;
      if (entry && Date.now() - entry.touched > LEFT_ALONE_MS) {
        this.storage.removeItem(key);
        this.put({ base: entry.base, job: entry.job });
        return entry;
      }
    }
    return null;
  }

  /**
   * @param {string} key
   * @returns {Entry|null}
   */
  read(key) {
    try {
      const entry = JSON.parse(this.storage.getItem(key) ?? "null");
      return entry && Number.isInteger(entry.base) && typeof entry.job === "object" ? entry : null;
    } catch {
      return null;
    }
  }
}

/**
 * A browser may refuse even to be asked for it; then nothing can be kept, and leaving the page asks first.
 * @param {"localStorage"|"sessionStorage"} name
 * @returns {any}
 */
function placeOf(name) {
  try {
    return window[name];
  } catch {
    return null;
  }
}

/** @param {Storage} storage @returns {string[]} */
function keysOf(storage) {
  try {
    return Object.keys(storage);
  } catch {
    return [];
  }
}

/** A name that stays with the tab through reloads. */
function tabName(tab) {
  try {
    const name = tab.getItem(PREFIX) ?? `${Date.now().toString(36)}${Math.random().toString(36).slice(2, 8)}`;
    tab.setItem(PREFIX, name);
    return name;
  } catch {
    return "one";
  }
}
