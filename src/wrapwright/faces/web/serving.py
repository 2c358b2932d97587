"""Starting and stopping the web face."""

from __future__ import annotations

import socket
from collections.abc import Callable
from dataclasses import dataclass

import uvicorn

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.web.app import create_app
from wrapwright.settings import Settings


@dataclass(frozen=True)
class Serving:
    """Where to serve: `port` 0 = a free one."""

    host: str = "127.0.0.1"
    port: int = 0


def serve(settings: Settings, serving: Serving, started: Callable[[str], None]) -> None:
    """Serve until the user stops it; `started` is told the address once it can be asked."""
    listening = _listening(serving)
    host, port = listening.getsockname()[:2]
    config = uvicorn.Config(
        create_app(settings), http="h11", ws="none", log_level="warning", access_log=False, server_header=False
    )
    server = _Server(config, lambda: started(f"http://{host}:{port}/"))
    server.run(sockets=[listening])


class _Server(uvicorn.Server):
    """A server that says when it can be asked."""

    def __init__(self, config: uvicorn.Config, started: Callable[[], None]) -> None:
        super().__init__(config)
        self._started = started

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._started()


def _listening(serving: Serving) -> socket.socket:
    family = socket.AF_INET6 if ":" in serving.host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    try:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((serving.host, serving.port))
    except OSError as error:
        made.close()
        raise WrapwrightError(
            Kind.REFUSED,
            f"Nothing can be served at {serving.host}, port {serving.port}: {error.strerror}.",
            remedy="Choose another port with --port, or --port 0 for a free one.",
        ) from error
    return made
