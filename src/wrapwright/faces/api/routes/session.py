"""Who is here: signing in and out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter
from pydantic import Field
from starlette.requests import Request
from starlette.responses import Response

from wrapwright.core.base.errors import Kind
from wrapwright.faces.api.asking import QUIET, BenchAsked, Body
from wrapwright.faces.api.failing import answer
from wrapwright.faces.api.tries import MOST, WITHIN_S, Tries
from wrapwright.jobs.kept.people import HOURS, SignIn, SignOut, WhoIs, sign_in, sign_out, who_is

router = APIRouter(tags=["session"])

COOKIE = "sid"


class SessionBody(Body):
    """A name and its password."""

    name: Annotated[str, Field(max_length=200)]
    password: Annotated[str, Field(max_length=1000)]


@dataclass(frozen=True)
class Person:
    """Who is signed in; "" where nobody is, or need be."""

    name: str


def refuse_after(wait_s: int) -> None:
    """Raise 429 when an address must wait before its next try."""
    if wait_s:
        message = f"There were {MOST} wrong tries from this address within {WITHIN_S / 60:.0f} minutes."
        remedy = f"Wait {wait_s} seconds and try again."
        raise answer(429, Kind.REFUSED, message, remedy=remedy, headers={"Retry-After": str(wait_s)})


@router.get("/session")
def session(request: Request) -> Person:
    """Return who is signed in."""
    return Person(getattr(request.state, "person", "") or "")


@router.post("/session")
def begin_session(body: SessionBody, request: Request, response: Response, bench: BenchAsked) -> Person:
    """Return who is signed in now; 401 for a wrong name or password, 429 after five of them in five minutes."""
    tries: Tries = request.app.state.tries
    address = request.client.host if request.client else ""
    refuse_after(tries.begin(address))
    token = sign_in(SignIn(body.name, body.password), bench, QUIET)
    if not token:
        raise answer(401, Kind.REFUSED, "The name or the password is wrong.", remedy="Type both again.")
    tries.forgive(address)
    secure = request.url.scheme == "https"
    response.set_cookie(COOKIE, token, max_age=HOURS * 3600, httponly=True, samesite="strict", secure=secure)
    return Person(who_is(WhoIs(token), bench, QUIET))  # as the account is written, whatever was typed


@router.delete("/session", status_code=204)
def end_session(request: Request, response: Response, bench: BenchAsked) -> None:
    """Sign out; the session ends on the server too."""
    sign_out(SignOut(request.cookies.get(COOKIE, "")), bench, QUIET)
    response.delete_cookie(COOKIE, httponly=True, samesite="strict", secure=request.url.scheme == "https")
