"""The bench served from a thread of the test's process, on a free port of the loopback."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True)
class Running:
    """A bench that answers.

    Attributes:
        url: its address, without a slash at the end.
        data: its data folder.
        app: the application.
    """

    url: str
    data: Path
    app: Any


@contextmanager
def running(data: Path, cache: Path) -> Iterator[Running]:
    """Give a running bench over a data folder; it is stopped at the end."""
    import uvicorn

    from wrapwright.faces.opening import open_settings
    from wrapwright.faces.web.app import create_app

    settings = open_settings({"data": str(data), "cache": str(cache), "fonts": str(data / "fonts"), "threads": 2})
    app = create_app(settings)
    config = uvicorn.Config(
        app, http="h11", ws="none", log_level="error", access_log=False, timeout_graceful_shutdown=2
    )
    server = uvicorn.Server(config)
    with socket.create_server(("127.0.0.1", 0)) as listening:
        # As `serve` has it by its socket's protocol: no answer waits for the word that its first part has come.
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        port = listening.getsockname()[1]
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        deadline = time.monotonic() + 20
        while not server.started and thread.is_alive() and time.monotonic() < deadline:
            time.sleep(0.01)
        assert server.started, "the bench did not start"
        try:
            yield Running(f"http://127.0.0.1:{port}", data, app)
        finally:
            server.should_exit = True
            thread.join(timeout=10)
