// The server's time, told by this machine between two answers.

const SLEPT_MS = 1500; // the counter of the page may rest while the machine sleeps; its wall clock does not
const STALE_MS = 20000; // then any newer answer is better than the quickest of the old ones
const APART_MS = 250;

/** The server's clock: its own word, half the way there and back added, and what has passed here since. */
export class Clock {
  #server = 0;
  #here = 0;
  #wall = 0;
  #way = Infinity;

  /** Whether the server has told the time yet. */
  get known() {
    return this.#server > 0;
  }

  /**
   * Take the server's word. The quickest answer counts: the longer one is on its way, the less is known of its half.
   * @param {string} now ISO 8601
   * @param {number} sent of the request, by `performance.now()`
   * @param {number} got of its answer
   */
  hear(now, sent, got) {
    const way = Math.max(0, got - sent);
    const server = Date.parse(now) + way / 2;
    if (Number.isNaN(server)) return;
    const since = got - this.#here;
    const apart = Math.abs(server - this.#at(since, Date.now() - this.#wall));
    if (this.known && way > this.#way && since < STALE_MS && apart < way / 2 + APART_MS) return;
    this.#server = server;
    this.#here = got;
    this.#wall = Date.now() - (performance.now() - got);
    this.#way = way;
  }

  /** The server's time now, in ms since 1970. */
  now() {
    return this.#at(performance.now() - this.#here, Date.now() - this.#wall);
  }

  /** Whether the machine has slept since the last answer. */
  get slept() {
    return this.known && Date.now() - this.#wall - (performance.now() - this.#here) > SLEPT_MS;
  }

  /** @param {number} counted @param {number} walled */
  #at(counted, walled) {
    return this.#server + (walled - counted > SLEPT_MS ? walled : counted);
  }
}
