// What hands have done goes to the server, once, however often the way there breaks.

const AGAIN_MS = 1000;

/** A key that no other press of a button has. */
export function freshKey() {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((one) => one.toString(16).padStart(2, "0")).join("");
}

/**
 * Send until an answer comes; the same key stands once, so a second try does no harm.
 * @template T
 * @param {(ago: number) => Promise<T>} send told how many seconds ago it was asked for
 * @param {() => void} waiting called when the server cannot be reached
 * @returns {Promise<T>}
 */
export async function surely(send, waiting) {
  const asked = performance.now();
  for (;;) {
    try {
      return await send((performance.now() - asked) / 1000);
    } catch (error) {
      if (/** @type {{kind?: string}} */ (error).kind !== "offline") throw error;
      waiting();
      await new Promise((resolve) => { window.setTimeout(resolve, AGAIN_MS); });
    }
  }
}
