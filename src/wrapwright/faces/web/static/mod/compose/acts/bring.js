// Pictures that come in: chosen from a dialog, dropped or pasted; sent with a bar that shows how far they are.

import { api } from "../../app/api.js";
import { say } from "../../app/say.js";
import { button, freshId, make } from "../dom.js";

/**
 * @typedef {{sha256: string, name: string, width_px: number, height_px: number}} PictureKept
 * @typedef {{file: string, name: string, aspect: number}} Brought A picture that the design can name.
 */

const ACCEPT = "image/*,.svg,.pdf,.heic,.heif,.tif,.tiff";
const RIGHTS = "Use only pictures you may use. Customers' names and photographs are personal data: keep them no longer than you need them.";

/** A place where files on their way are shown. */
export class Bringing {
  /** @param {HTMLElement} list @param {number} design */
  constructor(list, design) {
    this.list = list;
    this.design = design;
  }

  /**
   * Send a file and put it beside the design; null when it was refused or stopped, which is said.
   * @param {File} file
   * @returns {Promise<Brought|null>}
   */
  async file(file) {
    const stop = new AbortController();
    const bar = make("progress", { class: "progress", max: 1, value: 0, "aria-label": `Sending ${file.name}` });
    const words = make("span", { class: "bring-words" }, `${file.name}, ${megabytes(file.size)}`);
    const row = make("li", { class: "bring-row" }, words, bar, button("Stop", () => stop.abort(), { class: "button button-quiet" }));
    this.list.append(row);
    try {
      const kept = await api.putPicture(named(file), (share) => {
        bar.value = share;
        if (share === 1) words.textContent = `${file.name}: read and checked`;
      }, stop.signal);
      const brought = await this.kept(kept);
      row.remove();
      return brought;
    } catch (error) {
      if (error.name === "AbortError") row.remove();
      else this.refused(row, file.name, error);
      return null;
    }
  }

  /**
   * Put a picture that is kept already beside the design.
   * @param {PictureKept} kept
   * @returns {Promise<Brought>}
   */
  async kept(kept) {
    const { name } = await api.putFile(this.design, kept.sha256, kept.name);
    return { file: name, name: kept.name, aspect: kept.height_px ? kept.width_px / kept.height_px : 1 };
  }

  refused(row, name, error) {
    const words = [`${name}:`, error.message, error.remedy].filter(Boolean).join(" ");
    row.replaceChildren(
      make("span", { class: "bring-words finding", "data-severity": "error" }, words),
      button("Close", () => row.remove(), { class: "button button-quiet" }),
    );
    say(words);
  }

  /** Say why nothing came of it. @param {any} error */
  trouble(error) {
    const row = make("li", { class: "bring-row" });
    this.list.append(row);
    this.refused(row, "The picture", error);
  }
}

/** A file with a name; what is pasted may have none. @param {File} file */
function named(file) {
  return file.name ? file : new File([file], `pasted.${file.type.split("/")[1] ?? "png"}`, { type: file.type });
}

/** @param {number} bytes */
function megabytes(bytes) {
  return bytes < 1e5 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

/**
 * Let a picture be chosen: a file, or one that was brought before.
 * @param {{title: string, words: string}} told
 * @returns {Promise<{files?: File[], kept?: PictureKept}|null>}
 */
export function choosePicture({ title, words }) {
  const heading = freshId("choose");
  const input = make("input", { type: "file", accept: ACCEPT, id: freshId("file"), class: "only-spoken", multiple: true });
  const grid = make("ul", { class: "bring-kept" });
  const dialog = make("dialog", { class: "dialog dialog-wide", "aria-labelledby": heading },
    make("div", { class: "dialog-body" },
      make("h2", { id: heading }, title),
      make("p", {}, words),
      make("div", {}, input, make("label", { class: "button button-main", for: input.id }, "Choose a file")),
      make("p", { class: "note" }, RIGHTS),
      make("h3", { id: `${heading}-kept`, hidden: true }, "Brought before"), grid,
      make("div", { class: "dialog-end" }, button("Close", () => dialog.close()))));
  document.body.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    let chosen = null;
    const choose = (one) => { chosen = one; dialog.close(); };
    input.addEventListener("change", () => { if (input.files?.length) choose({ files: [...input.files] }); });
    dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
    dialog.addEventListener("close", () => { dialog.remove(); resolve(chosen); });
    offerKept(grid, choose).then((some) => { dialog.querySelector("h3").hidden = !some; });
  });
}

/** Fill the grid with pictures that were brought before. */
async function offerKept(grid, choose) {
  const pictures = await api.pictures().catch(() => []);
  grid.replaceChildren(...pictures.map((one) => make("li", {},
    make("button", { type: "button", class: "bring-picture", onclick: () => choose({ kept: one }) },
      make("img", { src: api.smallPictureUrl(one.sha256), alt: "", loading: "lazy", width: 96, height: 72 }),
      make("span", {}, one.name)))));
  return pictures.length > 0;
}

/**
 * Take files that are pasted, or dropped beside the wrap.
 * @param {(files: File[]) => void} bring
 */
export function listenForFiles(bring) {
  document.addEventListener("paste", (event) => {
    const files = [...(event.clipboardData?.files ?? [])];
    if (!files.length) return;
    event.preventDefault();
    bring(files);
  });
  document.addEventListener("dragover", (event) => {
    if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
  });
  document.addEventListener("drop", (event) => {
    if (event.defaultPrevented || !event.dataTransfer?.files.length) return;
    event.preventDefault();
    bring([...event.dataTransfer.files]);
  });
}
