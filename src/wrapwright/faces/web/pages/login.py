"""Signing in."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.faces.web.rendering import page

router = APIRouter()


@router.get("/login")
def login(request: Request, next: str = "/") -> HTMLResponse:  # noqa: A002 - the name in the address
    """Return the page that asks who is there; `next` is where it goes on, always a page of ours."""
    return page(request, "login.html", step="login", next=own_page(next))


def own_page(path: str) -> str:
    """Return a path of this server, "/" for anything that could lead elsewhere."""
    plain = path.startswith("/") and not path.startswith(("//", "/\\")) and path.isprintable()
    return path if plain and not path.startswith("/login") else "/"
