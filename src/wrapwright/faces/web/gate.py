"""The gate: what every request passes before anything else, and the headers that every answer leaves with."""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable
from urllib.parse import quote, urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from wrapwright.core.base.errors import Kind
from wrapwright.faces.api.failing import AnswerError, answer, failure
from wrapwright.faces.api.routes.session import COOKIE
from wrapwright.faces.web.admission import Admission, host_of, is_loopback
from wrapwright.faces.web.bodies import Bodies

POLICY = (
    "default-src 'self'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; connect-src 'self'; object-src 'none'; base-uri 'none'; "
    "frame-ancestors 'none'; form-action 'self'"
)
# Parts of pages; alone they may do nothing, and the pages' long policy would be a tenth of the first screen's bytes.
PARTS = ("text/css", "text/javascript")
ALONE = "default-src 'none'"
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
# What one must reach in order to sign in.
OPEN = ("/login", "/api/session", "/s/")

WhoIs = Callable[[str], Awaitable[str]]


class Gate:
    """One plain ASGI layer round the whole application.

    It refuses hosts that are not ours (421), changes asked for by other sites (403), strangers where an account is
    needed (401, pages are sent to /login), bodies beyond their limit (413), and every websocket.

    Args:
        app: what lies behind it.
        admission: under which names the bench is reached, and who needs an account.
        who_is: gives the name of the one whose token it is, or "".
    """

    def __init__(self, app: ASGIApp, admission: Admission, who_is: WhoIs) -> None:
        self.app = app
        self.admission = admission
        self.who_is = who_is

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, its nonce and person in `request.state`, or answer it here."""
        if scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
            return
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        nonce = secrets.token_urlsafe(16)
        state = scope.setdefault("state", {})
        state["nonce"], state["person"] = nonce, ""
        leave = _leaving(scope, send, nonce)
        refused = self._refused(scope) or await self._stranger(scope)
        if refused is None:
            bodies = Bodies(scope, receive)
            refused = bodies.refused()
            if refused is None:
                await self.app(scope, bodies.receive, leave)
                return
        await refused(scope, receive, leave)

    def _refused(self, scope: Scope) -> Response | None:
        """Return the refusal of a request by where it comes from, or None."""
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if not self.admission.knows(host):
            return failure(
                answer(
                    421,
                    Kind.REFUSED,
                    f"The bench is not served under the name {host_of(host)[:100] or 'that was asked for'}.",
                    remedy="Use the address that wrapwright serve printed, or start it with --name.",
                )
            )
        if scope["method"] not in SAFE and not _from_ourselves(headers, host):
            message = "Another site asked for this change; it was not made."
            return failure(answer(403, Kind.REFUSED, message, remedy="Do it on the bench's own pages."))
        return None

    async def _stranger(self, scope: Scope) -> Response | None:
        """Return where to sign in for one who must and has not, or None."""
        headers = Headers(scope=scope)
        token = _cookie(headers.get("cookie", ""))
        if token and self.admission.accounts:
            scope["state"]["person"] = await self.who_is(token)
        if scope["state"]["person"] or not self.admission.demands(scope, headers):
            return None
        path = scope["path"]
        if path.startswith(OPEN):
            return None
        if path.startswith("/api/"):
            return failure(_sign_in())
        query = scope["query_string"].decode("latin-1")
        return RedirectResponse(f"/login?next={quote(path + ('?' + query if query else ''))}", 303)


def _sign_in() -> AnswerError:
    return answer(401, Kind.REFUSED, "Nobody is signed in.", remedy="Sign in and do it again.")


def _from_ourselves(headers: Headers, host: str) -> bool:
    """Return whether a change is asked for by our own pages, or by a program that is no browser."""
    if headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        return False
    origin = headers.get("origin")
    return origin is None or urlsplit(origin).netloc.lower() == host.lower()


def _cookie(text: str) -> str:
    found = (part.strip().partition("=") for part in text.split(";"))
    return next((value for name, _, value in found if name == COOKIE), "")


def _leaving(scope: Scope, send: Send, nonce: str) -> Send:
    """Return a sender that gives every answer its headers; what an answer says itself stands."""
    host = Headers(scope=scope).get("host", "")
    kept_apart = scope["scheme"] == "https" or is_loopback(host_of(host))

    async def send_on(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            headers.setdefault("Cache-Control", "no-store")
            headers["X-Content-Type-Options"] = "nosniff"
            headers["Cross-Origin-Resource-Policy"] = "same-origin"
            if headers.get("content-type", "").startswith(PARTS):
                headers.setdefault("Content-Security-Policy", ALONE)
                await send(message)
                return
            headers.setdefault("Content-Security-Policy", POLICY.format(nonce=nonce))
            headers["Referrer-Policy"] = "same-origin"
            if kept_apart:  # elsewhere browsers drop it, and say so as an error
                headers["Cross-Origin-Opener-Policy"] = "same-origin"
        await send(message)

    return send_on
