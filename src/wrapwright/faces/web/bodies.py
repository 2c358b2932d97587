"""How large a request's body may be: a little for what is written, more for the files that are brought."""

from __future__ import annotations

import re

from fastapi import HTTPException
from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import Message, Receive, Scope

from wrapwright.core.base.errors import Kind
from wrapwright.faces.api.failing import AnswerError, answer, failure
from wrapwright.faces.api.incoming import MB
from wrapwright.faces.api.routes.names.lists import BIGGEST

WRITTEN = 4 * MB
# These take files, hold their own limits and say them in their own words.
FILES = re.compile(
    r"/api/((pictures|fonts|profiles|outlines)/|designs/import$|designs/\d+/names/table/"
    r"|press/heaters/\d+/evidence/(looks|logs)/)"
)


class Bodies:
    """The body of one request, held to its limit whether it says its length or not."""

    def __init__(self, scope: Scope, receive: Receive) -> None:
        self._receive = receive
        self._said = Headers(scope=scope).get("content-length", "")
        self._most = BIGGEST + MB if FILES.match(scope["path"]) else WRITTEN
        self._come = 0

    def refused(self) -> Response | None:
        """Return the refusal of a body that says it is too large, or None."""
        too_large = self._said.isdecimal() and int(self._said) > self._most
        return failure(self._too_large()) if too_large and self._most == WRITTEN else None

    async def receive(self) -> Message:
        """Return the next message.

        Raises:
            HTTPException: 413, once more has come than may; of this type, since the framework takes any other for a
                body that cannot be read.
        """
        message = await self._receive()
        if message["type"] == "http.request":
            self._come += len(message.get("body", b""))
            if self._come > self._most:
                error = self._too_large()
                raise HTTPException(error.status, error.message, dict(error.headers or {}))
        return message

    def _too_large(self) -> AnswerError:
        message = f"The request is larger than {self._most / MB:g} MB."
        return answer(413, Kind.UNUSABLE, message, remedy="Make it smaller.", headers={"Connection": "close"})
