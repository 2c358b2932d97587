"""Answers packed on their way out: texts of some length, for those who take it."""

from __future__ import annotations

import asyncio
import gzip
from typing import Any

import pytest
from starlette.responses import Response, StreamingResponse
from tests.faces.loops import run_through

from wrapwright.faces.web.packing import Packing

TEXT = b'{"words": "' + b"round and round " * 200 + b'"}'


def sent(app: Any, accepted: str) -> tuple[dict[str, str], bytes]:
    """Return headers and body of what leaves the layer for one request."""
    messages: list[Any] = []

    async def send(message: Any) -> None:
        messages.append(message)

    async def receive() -> Any:
        await asyncio.Event().wait()  # nobody leaves

    scope = {"type": "http", "method": "GET", "path": "/", "headers": [(b"accept-encoding", accepted.encode())]}
    run_through(Packing(app)(scope, receive, send))
    headers = {name.decode(): value.decode() for name, value in messages[0]["headers"]}
    return headers, b"".join(one.get("body", b"") for one in messages[1:])


def test_a_text_is_packed() -> None:
    headers, body = sent(Response(TEXT, media_type="application/json"), "br, gzip")
    assert gzip.decompress(body) == TEXT
    assert headers["content-encoding"] == "gzip"
    assert headers["vary"] == "Accept-Encoding"
    assert int(headers["content-length"]) == len(body) < len(TEXT) / 10


@pytest.mark.parametrize(
    ("answer", "accepted"),
    [
        (Response(TEXT, media_type="application/json"), "br"),
        (Response(TEXT, media_type="image/jpeg"), "gzip"),
        (Response(TEXT[:500], media_type="application/json"), "gzip"),
        (Response(TEXT, media_type="text/html", headers={"Content-Encoding": "gzip"}), "gzip"),
        (Response(None, 304, {"Content-Type": "application/json"}), "gzip"),
        (StreamingResponse(iter([TEXT, TEXT]), media_type="application/json"), "gzip"),
    ],
)
def test_what_is_left_as_it_is(answer: Any, accepted: str) -> None:
    headers, body = sent(answer, accepted)
    expected = {"StreamingResponse": TEXT * 2}.get(type(answer).__name__, getattr(answer, "body", b""))
    assert body == expected
    assert headers.get("content-encoding", "") == ("gzip" if "content-encoding" in answer.headers else "")
