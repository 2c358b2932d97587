"""The wrap's element alone on a page, and how a test takes hold of it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from pathlib import Path
from typing import Any, ClassVar

HARNESS = Path(__file__).parents[1] / "harness"
STATIC = Path(str(files("wrapwright.faces.web"))) / "static"


class Files(SimpleHTTPRequestHandler):
    """The package's static files and the harness."""

    extensions_map: ClassVar[dict[str, str]] = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript"}

    def translate_path(self, path: str) -> str:
        """Return the file of a request, or one that is not there."""
        plain = path.partition("?")[0]
        for prefix, folder in (("/static/", STATIC), ("/harness/", HARNESS)):
            if plain.startswith(prefix) and ".." not in plain:
                return str(folder / plain.removeprefix(prefix))
        return str(HARNESS / "none")

    def log_message(self, *words: Any) -> None:
        """Say nothing."""


@contextmanager
def served() -> Iterator[str]:
    """Give the address at which the harness is served."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Files)) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}"
        finally:
            server.shutdown()
            thread.join(timeout=5)


class Stage:
    """A page with the element, and what it told."""

    def __init__(self, page: Any, address: str) -> None:
        self.page = page
        self.address = address
        self.wrong: list[str] = []
        page.on("pageerror", lambda error: self.wrong.append(str(error)))

    def open(self) -> None:
        """Load the page anew, with nothing on it."""
        self.page.goto(f"{self.address}/harness/canvas.html")
        self.page.wait_for_function("() => window.ready")

    def show(self, drawn: dict[str, Any]) -> None:
        """Give the element a drawing, and wait until it has found its size."""
        self.page.evaluate("drawn => { canvas.drawn = drawn; }", drawn)
        self.page.wait_for_function("() => canvas.zoom > 0 && canvas.clientWidth > 0")

    def heard(self, name: str = "") -> list[dict[str, Any]]:
        """Return the details of the events heard so far, all or of one name."""
        heard: list[dict[str, Any]] = self.page.evaluate("() => heard")
        return [one["detail"] for one in heard if one["name"] == name] if name else heard

    def forget(self) -> None:
        """Forget the events heard so far."""
        self.page.evaluate("() => { heard.length = 0; }")

    def px(self, at: float, up: float, turns: int = 0) -> tuple[float, float]:
        """Return where on the screen a place on the wrap is, `turns` whole turns on."""
        x, y = self.page.evaluate(
            """([at, up, turns]) => {
              const { frame, camera } = canvas.scene;
              const mm = frame.placeTurn(frame.turnOf(at) + 360 * turns, up);
              const { x, y } = camera.px(mm.x, mm.y);
              const { left, top } = canvas.getBoundingClientRect();
              return [x + left, y + top];
            }""",
            [at, up, turns],
        )
        return x, y

    def grip(self, name: str) -> tuple[float, float]:
        """Return where a grip of the selection is on the screen."""
        box = self.page.locator(f".wc-grip-{name} > :first-child").bounding_box()
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def drag(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        *,
        keys: tuple[str, ...] = (),
        before_drop: Callable[[], None] = lambda: None,
    ) -> None:
        """Drag with the mouse, with keys held down."""
        mouse, keyboard = self.page.mouse, self.page.keyboard
        mouse.move(*start)
        mouse.down()
        for key in keys:
            keyboard.down(key)
        mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        mouse.move(*end, steps=3)
        self.frames()
        before_drop()
        mouse.up()
        for key in keys:
            keyboard.up(key)

    def frames(self, count: int = 2) -> None:
        """Wait for some animation frames."""
        self.page.evaluate(
            """count => new Promise((done) => {
              const step = () => (count-- > 0 ? requestAnimationFrame(step) : done());
              step();
            })""",
            count,
        )

    def rested(self) -> None:
        """Wait until a burst of keys is over."""
        self.page.wait_for_function("() => canvas.changing === null")

    def one_change(self) -> dict[str, Any]:
        """Return the one change told."""
        changes = self.heard("wrapchange")
        assert len(changes) == 1, changes
        return changes[0]


@contextmanager
def staged(browser: Any, address: str, **words: Any) -> Iterator[Stage]:
    """Give a fresh page with the element; an error on it fails the test. Words are Playwright's for a context."""
    context = browser.new_context(**{"viewport": {"width": 1000, "height": 700}, **words})
    context.set_default_timeout(5000)
    stage = Stage(context.new_page(), address)
    stage.open()
    yield stage
    context.close()
    assert stage.wrong == []
