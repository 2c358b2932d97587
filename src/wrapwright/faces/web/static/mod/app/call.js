// One request to the server, and what can come of it.

/** What the server says when it cannot do something, or that it cannot be reached (kind "offline"). */
export class ApiError extends Error {
  /**
   * @param {number} status 0 when no answer came
   * @param {{kind?: string, message?: string, remedy?: string, where?: string}} told
   * @param {object[]} [problems] all of them, when there are several
   * @param {number} [current] the newest revision, when another station saved first
   */
  constructor(status, told, problems = [], current = undefined) {
    super(told.message ?? "The server answered with something that is no answer.");
    this.name = "ApiError";
    this.status = status;
    this.kind = told.kind ?? "fault";
    this.remedy = told.remedy ?? "";
    this.where = told.where ?? "";
    this.problems = problems;
    this.current = current;
  }
}

/**
 * Send a request; give back the JSON of the answer, or null when it has none.
 * @param {string} method
 * @param {string} path
 * @param {{json?: unknown, raw?: Blob, headers?: Record<string, string>, signal?: AbortSignal}} [how]
 * @returns {Promise<any>}
 */
export async function call(method, path, { json, raw, headers = {}, signal } = {}) {
  const sent = { ...headers };
  if (json !== undefined) sent["Content-Type"] = "application/json";
  else if (raw !== undefined) sent["Content-Type"] = "application/octet-stream";
  let answer;
  try {
    answer = await fetch(path, { method, headers: sent, body: json !== undefined ? JSON.stringify(json) : raw, signal });
  } catch (error) {
    if (signal?.aborted) throw error;
    throw offline();
  }
  online();
  // An answer that broke off is none: what was sent may have arrived or not.
  const text = await answer.text().catch((error) => { throw signal?.aborted ? error : offline(); });
  return understood(answer.status, text);
}

/**
 * Give back a page's HTML.
 * @param {string} path
 * @returns {Promise<string>}
 */
export async function readPage(path) {
  let answer;
  try { answer = await fetch(path, { headers: { Accept: "text/html" } }); } catch { throw offline(); }
  online();
  if (!answer.ok) throw new ApiError(answer.status, { message: `The server answered ${answer.status}.` });
  return answer.text();
}

/**
 * Give back a file.
 * @param {string} path
 * @returns {Promise<Blob>}
 */
export async function readFile(path) {
  let answer;
  try { answer = await fetch(path); } catch { throw offline(); }
  online();
  if (!answer.ok) return understood(answer.status, await answer.text());
  return answer.blob();
}

/**
 * Send a file with its progress.
 * @param {string} path
 * @param {Blob} file
 * @param {(share: number) => void} [progress] 0..1
 * @param {string} [method]
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
export function upload(path, file, progress = () => {}, method = "PUT", signal = undefined) {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open(method, path);
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.upload.addEventListener("progress", (event) => {
      if (event.lengthComputable) progress(event.loaded / event.total);
    });
    request.addEventListener("load", () => {
      online();
      try { resolve(understood(request.status, request.responseText)); } catch (error) { reject(error); }
    });
    request.addEventListener("error", () => reject(offline()));
    request.addEventListener("abort", () => reject(new DOMException("Stopped.", "AbortError")));
    signal?.addEventListener("abort", () => request.abort());
    request.send(file);
  });
}

/** @param {number} status @param {string} text */
function understood(status, text) {
  let body = null;
  try { body = text ? JSON.parse(text) : null; } catch { body = null; }
  if (status >= 200 && status < 300) return body;
  if (status === 401 && location.pathname !== "/login") {
    location.assign(`/login?next=${encodeURIComponent(location.pathname + location.search)}`);
  }
  throw new ApiError(status, body?.error ?? { message: `The server answered ${status}.` }, body?.problems, body?.current);
}

function offline() {
  document.dispatchEvent(new CustomEvent("wrapoffline"));
  return new ApiError(0, {
    kind: "offline", message: "The server cannot be reached.", remedy: "What is kept is safe; try again when it answers.",
  });
}

function online() {
  document.dispatchEvent(new CustomEvent("wraponline"));
}
