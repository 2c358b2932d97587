"""The shelf: the blanks, shapes to start from, and the designs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.data.starters import Starter
from wrapwright.faces.web.pages.on_shelf import BlankFigures, Stand, figures_of, standing
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch
from wrapwright.outside.store.records import BlankKept

router = APIRouter()

Kept = TypeVar("Kept", BlankKept, Starter)

FEW = 8  # designs shown before one asks for all of them


@dataclass(frozen=True)
class Standing(Generic[Kept]):
    """A blank or a shape on the shelf's line: itself, its figures, and how its drawing stands."""

    one: Kept
    figures: BlankFigures
    stand: Stand


@dataclass(frozen=True)
class Line(Generic[Kept]):
    """What stands on one line, all to `scale` px per mm."""

    row: tuple[Standing[Kept], ...]
    scale: float


@router.get("/")
def shelf(request: Request, search: str = "") -> HTMLResponse:
    """Return the shelf, with only what a search finds when one is asked for."""
    from wrapwright.jobs.kept.blanks import ListBlanks, list_blanks, list_starters
    from wrapwright.jobs.kept.designs import ListDesigns, list_designs

    bench = request.app.state.bench
    blanks = on_a_line(list_blanks(ListBlanks(search), bench, Watch()))
    starters = on_a_line(list_starters())
    return page(
        request,
        "shelf.html",
        step="shelf",
        search=search,
        few=FEW,
        blanks=blanks,
        starters=starters,
        designs=list_designs(ListDesigns(search), bench, Watch()),
    )


def on_a_line(kept: Sequence[Kept]) -> Line[Kept]:
    """Return blanks side by side, drawn to one scale."""
    figures = [figures_of(one.table) for one in kept]
    stands, scale = standing(figures)
    return Line(tuple(Standing(*each) for each in zip(kept, figures, stands, strict=True)), scale)
