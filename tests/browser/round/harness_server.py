"""Single elements served by themselves: the package's static files, the pages in `harness`, what a test hands out."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

PAGES = Path(__file__).parents[1] / "harness"
_TYPES = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".json": "application/json"}


@dataclass
class Served:
    """A running server.

    Attributes:
        url: its address, without a slash at the end.
        given: path -> content type and bytes; a test may add to it at any time.
        asked: the paths that were asked for, in order.
    """

    url: str = ""
    given: dict[str, tuple[str, bytes]] = field(default_factory=dict)
    asked: list[str] = field(default_factory=list)

    def give_json(self, path: str, value: Any) -> str:
        """Serve a value as JSON from now on and return its path."""
        self.given[path] = (_TYPES[".json"], json.dumps(value).encode())
        return path


class _Answer(SimpleHTTPRequestHandler):
    def __init__(self, *args: Any, served: Served, roots: Mapping[str, Path], **words: Any) -> None:
        self.served, self.roots = served, roots
        super().__init__(*args, **words)

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the library's own name
        return

    def do_GET(self) -> None:
        path = urlsplit(self.path).path
        self.served.asked.append(path)
        kind, body = self.served.given.get(path) or self._file(path)
        self.send_response(200 if body is not None else 404)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body or b"")))
        self.end_headers()
        self.wfile.write(body or b"")

    def _file(self, path: str) -> tuple[str, bytes | None]:
        for prefix, root in self.roots.items():
            file = (root / path.removeprefix(prefix)).resolve()
            if path.startswith(prefix) and file.is_relative_to(root.resolve()) and file.is_file():
                return _TYPES.get(file.suffix, "application/octet-stream"), file.read_bytes()
        return "text/plain", None


@contextmanager
def serving() -> Iterator[Served]:
    """Give a server on a free port of the loopback; it is stopped at the end."""
    static = Path(str(files("wrapwright.faces.web").joinpath("static")))
    served = Served(given={"/favicon.ico": ("image/x-icon", b"")})
    answer = partial(_Answer, served=served, roots={"/static/": static, "/harness/": PAGES})
    with ThreadingHTTPServer(("127.0.0.1", 0), answer) as server:
        served.url = f"http://127.0.0.1:{server.server_address[1]}"
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        yield served
        server.shutdown()
        thread.join(5)
