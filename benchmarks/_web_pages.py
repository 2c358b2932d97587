"""What the web benchmark does on the pages: scripts that run inside them, and the ways in."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

IDLE = """async (count) => {
  const next = () => new Promise((done) => requestAnimationFrame(done));
  const frames = [];
  let last = await next();
  for (let k = 0; k < count; k += 1) { const now = await next(); frames.push(now - last); last = now; }
  return frames;
}"""

# A copy that can be moved, and pointer events at a place of the wrap; events are made inside the page, since a driver's
# own mouse would be what is measured. Alt is held, so that no snap returns a copy to where it was taken: a drop without
# a change sends nothing.
HAND = """
  const canvas = document.querySelector("wrap-canvas"), view = document.querySelector("turning-view");
  const next = () => new Promise((done) => requestAnimationFrame(done));
  const px = (at, up) => {
    const { frame, camera } = canvas.scene;
    const mm = frame.place(at, up), { x, y } = camera.px(mm.x, mm.y);
    const { left, top } = canvas.scene.parts.view.getBoundingClientRect();
    return { clientX: x + left, clientY: y + top };
  };
  const fire = (target, type, place) => target.dispatchEvent(new PointerEvent(type, {
    ...place, pointerId: 1, pointerType: "mouse", isPrimary: true, bubbles: true, composed: true, cancelable: true,
    altKey: true, button: type === "pointermove" ? -1 : 0, buttons: type === "pointerup" ? 0 : 1,
  }));
  const loose = () => [...canvas.drawn.copies].reverse().find((one) => !one.fixed && one.kind !== "code");
  const take = (copy) => {
    const place = px(copy.at_deg, copy.up_mm);
    const target = document.elementFromPoint(place.clientX, place.clientY);
    fire(target, "pointerdown", place);
    return { target, place };
  };
"""

DRAG = (
    "async (count) => {"
    + HAND
    + """
  const copy = loose(), { target, place } = take(copy), frames = [];
  let last = await next();
  for (let k = 1; k <= count; k += 1) {
    const x = place.clientX + 60 * Math.sin(k / 20), y = place.clientY + 20 * Math.sin(k / 13);
    fire(target, "pointermove", { clientX: x, clientY: y });
    const now = await next();
    frames.push(now - last);
    last = now;
  }
  if (!canvas.changing) throw new Error("nothing was dragged");
  fire(target, "pointerup", { clientX: place.clientX + 3, clientY: place.clientY + 2 });
  return frames;
}"""
)

DROPS = (
    "async (count) => {"
    + HAND
    + """
  const times = [];
  for (let k = 0; k < count; k += 1) {
    const copy = loose(), { target, place } = take(copy), to = k % 2 ? -14 : 14;
    for (let m = 1; m <= 8; m += 1) {
      fire(target, "pointermove", { clientX: place.clientX + (to * m) / 8, clientY: place.clientY });
      await next();
    }
    const before = canvas.drawn.proof.url, start = performance.now();
    fire(target, "pointerup", { clientX: place.clientX + to, clientY: place.clientY });
    const there = () => canvas.drawn.proof.url !== before
      && view.sheets.shown === canvas.drawn.proof.url && view.sheets.slot === "proof";
    while (!there()) {
      await next();
      if (performance.now() - start > 15000) throw new Error("no new proof in 15 s");
    }
    await next();
    times.push(performance.now() - start);
    await new Promise((done) => setTimeout(done, 400));
  }
  return times;
}"""
)

# An arrow key on the grid of a list, until the server's proof of that row is what turns, and drawn.
ROWS = """async (count) => {
  const view = document.querySelector("turning-view"), page = document.getElementById("names"), times = [];
  const next = () => new Promise((done) => requestAnimationFrame(done));
  const row = () => document.querySelector("#grid tr[aria-selected]")?.dataset.number;
  for (let k = 0; k < count; k += 1) {
    const before = row(), start = performance.now();
    document.querySelector("#grid [tabindex='0']").dispatchEvent(
      new KeyboardEvent("keydown", { key: "ArrowDown", bubbles: true, cancelable: true }));
    const there = () => row() && row() !== before && page.dataset.shown === row() && view.sheets.slot === "proof"
      && view.sheets.shown === view.drawn.proof.url && view.sheets.shown.includes(`/rows/${row()}/`);
    while (!there()) {
      await next();
      if (performance.now() - start > 15000) throw new Error("no picture of the row in 15 s");
    }
    await next();
    times.push(performance.now() - start);
    await new Promise((done) => setTimeout(done, 150));
  }
  return times;
}"""

KEYS = """async (count) => {
  const fields = document.querySelectorAll("[data-field^='blank.girth'], [data-field^='blank.diameter']");
  const field = [...fields].find((one) => one.offsetParent);
  const drawing = document.getElementById("flat-drawing"), times = [];
  for (let k = 0; k < count; k += 1) {
    const seen = new Promise((done) => {
      const watch = new MutationObserver(() => {
        watch.disconnect();
        requestAnimationFrame(() => done(performance.now()));
      });
      watch.observe(drawing, { childList: true, subtree: true, attributes: true, characterData: true });
    });
    const start = performance.now();
    field.value = `${220 + (k % 20)} mm`;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    times.push((await seen) - start);
    await new Promise((done) => setTimeout(done, 120));
  }
  return times;
}"""


def first_load(browser: Any, address: str) -> tuple[int, int, float]:
    """Return bytes on the wire without pictures, requests, and ms to the first contentful paint; nothing is cached."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    talk = context.new_cdp_session(page)
    talk.send("Network.enable")
    kinds: dict[str, str] = {}
    sizes: dict[str, float] = {}
    talk.on("Network.responseReceived", lambda event: kinds.update({event["requestId"]: event["response"]["mimeType"]}))
    talk.on("Network.loadingFinished", lambda event: sizes.update({event["requestId"]: event["encodedDataLength"]}))
    page.goto(address)
    page.wait_for_load_state("networkidle")
    paint = page.evaluate("() => performance.getEntriesByName('first-contentful-paint')[0].startTime")
    wire = {key: size for key, size in sizes.items() if not kinds.get(key, "").startswith("image/")}
    context.close()
    return int(sum(wire.values())), len(sizes), float(paint)


def starter(page: Any) -> str:
    """Return the key of the first shape to start from."""
    found: str = page.request.get("/api/starters").json()[0]["key"]
    return found


def opened(page: Any, path: str) -> None:
    """Open a design and wait until wrap and piece show it."""
    page.goto(path)
    page.wait_for_function(
        "() => { const c = document.querySelector('wrap-canvas'), v = document.querySelector('turning-view');"
        " return c?.drawn?.proof && v?.sheets?.shown === c.drawn.proof.url; }",
        timeout=60_000,
    )
    page.wait_for_timeout(1500)


def twenty(page: Any) -> int:
    """Return the number of a new design with twenty elements: pictures, texts, a code and a fill."""
    bench = page.request.get("/api/designs/1").json()["design"]["document"]
    files = [one["file"] for one in bench["element"] if one["kind"] == "picture"]
    elements: list[dict[str, Any]] = [{"kind": "fill", "colour": "#f4ead8"}]
    elements += [
        {"kind": "picture", "name": f"art {k}", "file": files[k % len(files)], "width": "22 mm", "at": f"{k * 36} deg",
         "up": f"{25 + 55 * (k % 2)} mm"}
        for k in range(9)
    ]  # fmt: skip
    elements += [
        {"kind": "text", "name": f"word {k}", "text": f"Number {k}", "size": "4 mm", "at": f"{k * 36 + 18} deg",
         "up": f"{50 + 20 * (k % 2)} mm"}
        for k in range(10)
    ]  # fmt: skip
    copy = page.request.post("/api/designs/1/copy").json()
    made = copy.get("design", copy)
    revision = made["revision"]
    document = {**bench, "title": "Twenty", "element": elements}
    answer = page.request.put(
        f"/api/designs/{made['id']}", data={"document": document}, headers={"If-Match": f'"{revision}"'}
    )
    if answer.status != 200:
        raise SystemExit(f"the design of twenty was refused: {answer.text()}")
    drawn = answer.json()["drawn"]
    if drawn["problems"]:
        raise SystemExit(f"the design of twenty cannot be drawn: {drawn['problems']}")
    return int(made["id"])


def listed(page: Any, rows: int) -> Iterator[str]:
    """Yield twice, on the screen of a list of so many different names: while it is checked and when all is."""
    document = {
        "format": 1,
        "blank": {"kind": "tapered", "girth_top": "262 mm", "girth_bottom": "225 mm", "wall": "150 mm"},
        "element": [
            {"kind": "fill", "colour": "#0e3a5a"},
            {"kind": "text", "name": "who", "text": "{name}", "width": "60 mm", "height": "20 mm", "up": "90 mm",
             "colour": "#ffffff"},
            {"kind": "text", "name": "club", "text": "{club}", "size": "7 mm", "up": "60 mm", "colour": "#ffd27f"},
        ],
    }  # fmt: skip
    made = page.request.post("/api/designs", data={"title": "Listed", "document": document}).json()
    design = made.get("design", made)["id"]
    table = "name,club\n" + "".join(f"Ada Weir-{number},Club {number % 7}\n" for number in range(rows))
    answer = page.request.put(f"/api/designs/{design}/names/table/crew.csv", data=table.encode())
    if answer.status != 201:
        raise SystemExit(f"the table was refused: {answer.text()}")
    page.goto(f"/designs/{design}/names")
    page.locator("#names[data-shown]").wait_for(timeout=60_000)
    page.wait_for_timeout(500)
    state = page.locator("#check-words").inner_text()
    yield "while it is checked" if state.startswith("Checking") else "checked"
    page.locator("#check-words[data-checked]").wait_for(timeout=600_000)
    page.wait_for_timeout(1500)
    yield "checked"


def large_picture(folder: Path, megabytes: int) -> Path:
    """Return an uncompressed TIFF of about that size, full of noise."""
    import numpy as np
    from PIL import Image

    side = int((megabytes * 1e6 / 3) ** 0.5)
    pixels = np.random.default_rng(1).integers(0, 256, (side, side, 3), dtype=np.uint8)
    file = folder / "large.tif"
    Image.fromarray(pixels).save(file)
    return file


def bring(page: Any, file: Path) -> int:
    """Bring a picture in by the page's own dialog; return how often its progress bar was seen moving."""
    copies = page.evaluate("() => document.querySelector('wrap-canvas').drawn.copies.length")
    page.evaluate(
        """() => { window.shares = new Set();
          new MutationObserver(() => { const bar = document.querySelector('#bringing progress');
            if (bar) window.shares.add(bar.value); }).observe(document.getElementById('bringing'),
            {subtree: true, childList: true, attributes: true, characterData: true}); }"""
    )
    page.get_by_role("button", name="Picture", exact=True).click()
    with page.expect_file_chooser() as choosing:
        page.get_by_role("dialog").get_by_text("Choose a file").click()
    choosing.value.set_files(file)
    page.wait_for_function(
        f"() => document.querySelector('wrap-canvas').drawn.copies.length > {copies}", timeout=120_000
    )
    return int(page.evaluate("() => window.shares.size"))


def when_kept(page: Any, act: Callable[[], None]) -> Callable[[Any], None]:
    """Call `act` when a picture that was sent has been answered; return the listener."""

    def hear(request: Any) -> None:
        if request.method == "PUT" and "/api/pictures/" in request.url:
            act()

    page.on("requestfinished", hear)
    return hear


def begin_making(page: Any) -> None:
    """Ask for the example's sheets, every check accepted."""
    revision = page.request.get("/api/designs/1").json()["design"]["revision"]
    answer = page.request.post(
        "/api/made", data={"design": 1, "revision": revision, "output": "pdf", "accept": ["all"]}
    )
    if answer.status >= 300:
        raise SystemExit(f"making was refused: {answer.text()}")


def asked(page: Any, count: int, *, while_making: bool = False) -> list[float]:
    """Return ms of small requests, one after another; `while_making` only as long as something is being made."""
    paths = ("/api/designs", "/api/blanks", "/api/designs/1", "/", "/api/length?text=9+1/4+in&unit=mm")
    times: list[float] = []
    for k in range(count):
        if while_making and k % 10 == 0:
            states = {one["state"] for one in page.request.get("/api/made").json()}
            if not states & {"waiting", "making"}:
                begin_making(page)
        start = time.perf_counter()
        answer = page.request.get(paths[k % len(paths)])
        times.append(1000 * (time.perf_counter() - start))
        if answer.status != 200:
            raise SystemExit(f"{paths[k % len(paths)]} answered {answer.status}")
    return times
