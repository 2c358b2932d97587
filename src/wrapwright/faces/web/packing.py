"""Answers packed on their way out, where the browser takes that: texts only, pictures are packed already."""

from __future__ import annotations

from isal import igzip
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_LEAST = 1000  # bytes; below this packing gains nothing
_LEVEL = 2  # a megabyte of outlines in some milliseconds
KINDS = ("application/json", "text/html", "text/plain", "image/svg+xml")


class Packing:
    """One plain ASGI layer; it packs answers that come in one piece."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, and pack its answer."""
        if scope["type"] != "http" or "gzip" not in Headers(scope=scope).get("accept-encoding", ""):
            await self.app(scope, receive, send)
            return
        held: list[Message] = []

        async def send_on(message: Message) -> None:
            if message["type"] == "http.response.start":
                held.append(message)
                return
            start = held.pop() if held else None
            if start is not None:
                if message["type"] == "http.response.body" and not message.get("more_body", False):
                    message = _packed(start, message)
                await send(start)
            await send(message)

        await self.app(scope, receive, send_on)


def _packed(start: Message, message: Message) -> Message:
    """Return the body packed, its headers set, where it is a text of some length."""
    headers = MutableHeaders(scope=start)
    body = message.get("body", b"")
    if not headers.get("content-type", "").startswith(KINDS) or "content-encoding" in headers:
        return message
    headers.add_vary_header("Accept-Encoding")
    if len(body) < _LEAST:
        return message
    packed = igzip.compress(body, _LEVEL)
    headers["Content-Encoding"] = "gzip"
    headers["Content-Length"] = str(len(packed))
    return {**message, "body": packed}
