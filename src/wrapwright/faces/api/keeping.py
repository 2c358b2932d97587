"""Answers a browser may keep: for ever where their address names their content, else for as long as they hold."""

from __future__ import annotations

import hashlib
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

# An address that names its content has one answer for ever.
FOREVER = "private, max-age=31536000, immutable"
# Asked for again each time, and answered with "still the same" where it is.
WHILE_IT_HOLDS = "private, no-cache"


def kept_answer(request: Request, content: bytes | str, kind: str, *, forever: bool) -> Response:
    """Return content with its tag, or 304 without it where the browser has it already."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    headers = {
        "ETag": f'"{hashlib.sha256(data).hexdigest()[:24]}"',
        "Cache-Control": FOREVER if forever else WHILE_IT_HOLDS,
    }
    known = [one.strip().removeprefix("W/") for one in request.headers.get("if-none-match", "").split(",")]
    if headers["ETag"] in known:
        return Response(None, 304, headers)
    return Response(data, 200, headers, media_type=kind)


def one_kind(kind: str) -> dict[str, Any]:
    """Return the words of a route whose answer is a file of this kind."""
    schema = {"type": "string"} if kind.startswith("image/svg") else {"type": "string", "format": "binary"}
    return {
        "response_class": Response,
        "responses": {
            200: {"description": "The file.", "content": {kind: {"schema": schema}}},
            304: {"description": "It is still the same."},
        },
    }
