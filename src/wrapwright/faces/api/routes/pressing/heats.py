"""Heats over the REST face: everything on the press's screen, a start, what happens, what became of the pieces."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import Field

from wrapwright.core.press.run.values import EventKind
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Whole
from wrapwright.jobs.press.run.happening import MOST_AGO_S, tell_event
from wrapwright.jobs.press.run.looking import tell_look
from wrapwright.jobs.press.run.showing import list_heats, show_heat, show_press
from wrapwright.jobs.press.run.starting import start_heat
from wrapwright.jobs.press.run.values import (
    HeatTold,
    ListHeats,
    PressTold,
    ShowHeat,
    ShowPress,
    StartHeat,
    TellEvent,
    TellLook,
)

router = APIRouter(tags=["pressing"])

Name = Annotated[str, Field(max_length=200)]
Key = Annotated[str, Field(max_length=100)]
Figure = Annotated[float, Field(allow_inf_nan=False, ge=-(10**6), le=10**6)]
Pieces = Annotated[tuple[Annotated[str, Field(max_length=100)], ...], Field(max_length=200)]


class StartBody(Body):
    """A heat to start: `heater` by name or number, `recipe` by name; `log` is a file in the data folder's `logs`."""

    heater: Name | Annotated[int, Field(ge=1, le=LARGEST)]
    recipe: Name
    pieces: Pieces = ()
    count: Annotated[int, Field(ge=0, le=10_000)] = 0
    set_c: Figure | None = None
    dwell_s: Figure | None = None
    ticked: Annotated[tuple[Annotated[str, Field(max_length=60)], ...], Field(max_length=20)] = ()
    preheat: bool = False
    key: Key = ""
    log: Annotated[str, Field(max_length=200, pattern=r"^[^/\\:]*$")] = ""
    thickness_mm: Figure | None = None

    def asked(self) -> StartHeat:
        """Return the request."""
        told = self.model_dump()
        number = told["heater"] if isinstance(told["heater"], int) else 0
        return StartHeat(**{**told, "heater": "" if number else told["heater"], "heater_id": number})


class EventBody(Body):
    """Something that happened; `ago_s` says how long ago, where it could not be told at once."""

    kind: EventKind
    seconds: Figure | None = None
    celsius: Figure | None = None
    key: Key = ""
    revision: Annotated[int, Field(ge=0, le=LARGEST)] | None = None
    ago_s: Annotated[float, Field(ge=0, le=MOST_AGO_S, allow_inf_nan=False)] = 0.0


class LookBody(Body):
    """What became of the piece in a place: "good", or a fault by its name."""

    place: Annotated[int, Field(ge=1, le=10_000)]
    result: Annotated[str, Field(max_length=60)]
    note: Annotated[str, Field(max_length=2000)] = ""
    piece: Annotated[str, Field(max_length=100)] | None = None


@router.get("/press")
def press(bench: BenchAsked) -> PressTold:
    """Return heaters with what they heat, recipes with what is ticked, circuits with their load."""
    return show_press(ShowPress(), bench, QUIET)


@router.post("/press/heats", status_code=201)
def new_heat(body: StartBody, bench: BenchAsked) -> HeatTold:
    """Return the heat that has begun; the same key again gives the same heat."""
    return start_heat(body.asked(), bench, QUIET)


@router.get("/press/heats")
def heats(
    bench: BenchAsked,
    heater: Whole = 0,
    piece: Annotated[str, Query(max_length=100)] = "",
    open_only: bool = False,  # noqa: FBT001, FBT002 (a part of the address)
    most: Annotated[int, Query(ge=1, le=200)] = 50,
) -> tuple[HeatTold, ...]:
    """Return heats, the newest first: of one heater, with one piece, or those that have not ended."""
    return list_heats(ListHeats(heater, piece, open_only, most), bench, QUIET)


@router.get("/press/heats/{number}")
def heat(number: Id, bench: BenchAsked) -> HeatTold:
    """Return one heat as it is now."""
    return show_heat(ShowHeat(number), bench, QUIET)


@router.post("/press/heats/{number}/events")
def new_event(number: Id, body: EventBody, bench: BenchAsked) -> HeatTold:
    """Return the heat after something happened to it; the same key twice stands once."""
    return tell_event(TellEvent(number, **body.model_dump()), bench, QUIET)


@router.post("/press/heats/{number}/looks")
def new_look(number: Id, body: LookBody, bench: BenchAsked) -> HeatTold:
    """Return the heat with what became of a piece and, for a fault, its likely causes."""
    return tell_look(TellLook(number, **body.model_dump()), bench, QUIET)
