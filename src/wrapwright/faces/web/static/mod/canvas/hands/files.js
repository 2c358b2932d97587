/** Files dragged from outside: where they would lie is shown, where they were let go is told. */

/** @param {import("../scene.js").Scene} scene @param {import("./pointer.js").Pointer} pointer */
export function hearFiles(scene, pointer) {
  const { host } = scene.parts;
  const carries = (/** @type {DragEvent} */ event) => event.dataTransfer?.types.includes("Files") ?? false;
  const clear = () => scene.hints.drop(null);
  host.addEventListener("dragover", (event) => {
    if (!carries(event) || !scene.frame) return;
    event.preventDefault();
    if (event.dataTransfer) event.dataTransfer.dropEffect = "copy";
    pointer.measure();
    const at = pointer.px(event);
    scene.hints.drop(at);
    scene.pointed(scene.spot(at.x, at.y));
  });
  host.addEventListener("dragleave", (event) => {
    if (!host.contains(/** @type {Node | null} */ (event.relatedTarget))) clear();
  });
  host.addEventListener("drop", (event) => {
    if (!carries(event) || !scene.frame) return;
    event.preventDefault();
    clear();
    pointer.measure();
    const at = pointer.px(event);
    const spot = scene.spot(at.x, at.y);
    const up = Math.min(scene.frame.height, Math.max(0, spot.up));
    scene.send("wrapdrop", { files: [...(event.dataTransfer?.files ?? [])], at_deg: spot.at, up_mm: up });
  });
}
