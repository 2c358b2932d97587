// The way of a design to the server: one request at a time, in order, the newest document of a burst, nothing lost.

import { alike } from "../document/wording.js";

/**
 * @typedef {Record<string, any>} Job
 * @typedef {{step: number, shape: number}} Tag Which state of the page a document belongs to.
 * @typedef {{design: any, drawn: any}} Reply
 * @typedef {"saved"|"saving"|"away"|"failed"} State
 * @typedef {"undo"|"redo"|"back"|{setup: number}} Order "back" is the step back over mine when theirs is kept.
 * @typedef {{
 *   save: (revision: number, job: Job) => Promise<Reply>,
 *   order: (revision: number, order: Order) => Promise<Reply>,
 *   newest: () => Promise<Reply>,
 * }} Server
 * @typedef {{
 *   state: (state: State, error?: any) => void,
 *   reply: (reply: Reply, tag: Tag|null, more: boolean) => void,
 *   conflict: (theirs: any, mine: Job) => Promise<"mine"|"theirs">,
 *   refused: (error: any) => void,
 * }} Told
 */

export class Saving {
  /**
   * @param {number} revision the newest that is known
   * @param {Server} server
   * @param {import("./kept.js").Kept} kept
   * @param {Told} told
   */
  constructor(revision, server, kept, told) {
    this.revision = revision;
    this.server = server;
    this.kept = kept;
    this.told = told;
    /** @type {{job: Job, tag: Tag}|null} */
    this.waiting = null;
    /** @type {Order[]} */
    this.orders = [];
    this.sending = false;
    this.stuck = false;
    this.timer = 0;
  }

  /** Whether everything has reached the server. */
  get settled() {
    return !this.sending && !this.waiting && !this.orders.length;
  }

  /** Whether the server has been asked for a document that is not known here yet, so that edits must wait for it. */
  get ordered() {
    return this.orders.length > 0;
  }

  /**
   * Send a document, now or when nothing else has come for a while; it takes the place of one that still waits.
   * @param {Job} job
   * @param {Tag} tag
   * @param {number} [pause_ms]
   */
  save(job, tag, pause_ms = 0) {
    this.waiting = { job, tag };
    this.kept.put({ base: this.revision, job });
    this.told.state("saving");
    window.clearTimeout(this.timer);
    this.timer = pause_ms ? window.setTimeout(() => this.hurry(), pause_ms) : 0;
    if (!pause_ms) this.go();
  }

  /** Send at once what waits for a pause. */
  hurry() {
    window.clearTimeout(this.timer);
    this.timer = 0;
    this.go();
  }

  /**
   * Ask for a step back, a step on or a set-up, after all that was done before it.
   * @param {Order} order
   */
  order(order) {
    this.orders.push(order);
    this.hurry();
  }

  /** Send the next thing, if nothing is on its way. */
  async go() {
    if (this.sending || this.timer) return;
    if (this.waiting) await this.send();
    else if (this.orders.length) await this.ask();
    else return;
    if (!this.sending && (this.waiting || this.orders.length) && !this.stuck) this.go();
  }

  async send() {
    const { job, tag } = /** @type {{job: Job, tag: Tag}} */ (this.waiting);
    this.waiting = null;
    this.begin();
    try {
      this.done(await this.server.save(this.revision, job), tag);
    } catch (error) {
      this.waiting ??= { job, tag };
      await this.failed(error, job, tag);
    }
  }

  async ask() {
    const order = this.orders[0];
    this.begin();
    try {
      const reply = await this.server.order(this.revision, order);
      this.orders.shift();
      this.done(reply, null);
    } catch (error) {
      this.orders = [];
      if (error.status === 409 && error.current) await this.adopt();
      else this.stop(error);
      this.told.refused(error);
    }
  }

  begin() {
    this.sending = true;
    this.stuck = false;
    this.told.state("saving");
  }

  /** @param {Reply} reply @param {Tag|null} tag */
  done(reply, tag) {
    this.sending = false;
    this.revision = reply.design.newest;
    const more = Boolean(this.waiting || this.orders.length);
    if (this.waiting) this.kept.put({ base: this.revision, job: this.waiting.job });
    else this.kept.clear();
    this.told.reply(reply, tag, more);
    if (!more) this.told.state("saved");
  }

  /** @param {any} error @param {Job} job @param {Tag} tag */
  async failed(error, job, tag) {
    if (error.status === 409 && error.current) {
      await this.settle(job, tag).catch((again) => this.stop(again));
    } else {
      this.stop(error);
    }
  }

  /** @param {any} error */
  stop(error) {
    this.sending = false;
    this.stuck = true;
    // What the user asked for beside saving is not done later by surprise.
    const dropped = this.orders.some((order) => order !== "back");
    this.orders = this.orders.filter((order) => order === "back");
    if (dropped) this.told.refused(error);
    this.told.state(error.kind === "offline" ? "away" : "failed", error);
  }

  /** Another station saved first: nothing is lost whichever is kept. */
  async settle(job, tag) {
    const theirs = await this.server.newest();
    const mine = this.waiting ?? { job, tag };
    if (alike(theirs.design.document, job)) {
      // Our own document had arrived; only its answer was lost on the way.
      if (mine.job === job) this.waiting = null;
      return this.done(theirs, tag);
    }
    const choice = await this.told.conflict(theirs.design, mine.job);
    this.revision = theirs.design.newest;
    this.sending = false;
    // Theirs goes back in front by a step back over mine, which therefore stays one step on.
    if (choice === "theirs") this.orders = ["back"];
  }

  /** Take over what another station saved. */
  async adopt() {
    try {
      this.done(await this.server.newest(), null);
    } catch (error) {
      this.stop(error);
    }
  }

  /** Wait until everything has reached the server; false when it cannot. @returns {Promise<boolean>} */
  async through() {
    this.hurry();
    while (!this.settled && !this.stuck) await new Promise((resolve) => { window.setTimeout(resolve, 20); });
    return this.settled;
  }

  /** Look whether another station saved meanwhile; only while nothing of ours is on its way. */
  async refresh() {
    if (!this.settled) return;
    const known = this.revision;
    const reply = await this.server.newest().catch(() => null);
    // What was saved here meanwhile is newer than this answer.
    if (reply && this.settled && this.revision === known && reply.design.newest !== known) this.done(reply, null);
  }
}
