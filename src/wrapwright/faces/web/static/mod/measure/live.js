// The form sent as it is typed: one request in flight, the newest wins.

/**
 * @template Asked, Answer
 * @param {(asked: Asked) => Promise<Answer>} send
 * @param {(answer: Answer) => void} show
 * @param {(error: unknown) => void} fail
 * @returns {{ask: (asked: Asked) => void, settled: () => Promise<void>}}
 */
export function newestWins(send, show, fail) {
  /** @type {{asked: Asked} | null} */
  let waiting = null;
  /** @type {Promise<void> | null} */
  let running = null;

  async function run() {
    while (waiting) {
      const { asked } = waiting;
      waiting = null;
      try {
        const answer = await send(asked);
        if (!waiting) show(answer);
      } catch (error) {
        if (!waiting) fail(error);
      }
    }
    running = null;
  }

  return {
    ask(asked) {
      waiting = { asked };
      running ??= run();
    },
    settled: () => running ?? Promise.resolve(),
  };
}
