"""The tray: designs that are printed together on the fewest sheets."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter
from pydantic import Field
from starlette.requests import Request

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.api.asking import LARGEST, QUIET, Base, BenchAsked, Body
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.tray.keeping import AskTray, KeepTray, ShowTray, TrayShown, ask_tray, keep_tray, show_tray
from wrapwright.jobs.tray.laying import LONGEST_S, LayTray, lay_tray
from wrapwright.jobs.tray.values import Tray, tray_of
from wrapwright.jobs.tray.view import TrayView
from wrapwright.outside.store.records import MadeKept

router = APIRouter(tags=["tray"])

MOST_PIECES = 200
Mm = Annotated[float, Field(ge=0, le=5000, allow_inf_nan=False)]
Place = Annotated[float, Field(ge=-10_000, le=10_000, allow_inf_nan=False)]
Count = Annotated[int, Field(ge=0, le=1_000_000)]


class PieceBody(Body):
    """A design and how many of it."""

    design: Annotated[int, Field(ge=1, le=LARGEST)]
    quantity: Annotated[int, Field(ge=1, le=10_000)] = 1
    order: Annotated[str, Field(max_length=12, pattern="^[0-9A-Za-z-]*$")] = ""


class PaperBody(Body):
    """A paper, its price, and how many there are."""

    paper: Annotated[str, Field(max_length=60)]
    price: Annotated[float, Field(gt=0, le=1_000_000, allow_inf_nan=False)] | None = None
    at_hand: Count | None = None


class PinBody(Body):
    """A copy put somewhere by hand: x and y are the lower left corner of its trim's box."""

    piece: Annotated[int, Field(ge=0, lt=MOST_PIECES)]
    copy_: Annotated[int, Field(ge=0, lt=10_000, alias="copy")]
    sheet: Annotated[int, Field(ge=0, lt=10_000)]
    x_mm: Place
    y_mm: Place
    turn_deg: Literal[0, 90, 180, 270]


class TrimmerBody(Body):
    """The trimmer's limits, in mm."""

    longest_mm: Annotated[Mm, Field(gt=0)] = 460.0
    stack_mm: Annotated[Mm, Field(gt=0, le=50)] = 1.0
    least_mm: Mm = 20.0
    slip_mm: Annotated[Mm, Field(le=20)] = 1.5


class TrayBody(Body):
    """Everything on the Sheets screen."""

    pieces: Annotated[tuple[PieceBody, ...], Field(max_length=MOST_PIECES)] = ()
    setup: Annotated[int, Field(ge=0, le=LARGEST)] = 0
    papers: Annotated[tuple[PaperBody, ...], Field(max_length=20)] = ()
    way: Literal["trimmer", "free"] = "trimmer"
    gutter_mm: Annotated[Mm, Field(le=100)] = 3.0
    trimmer: TrimmerBody = Field(default_factory=TrimmerBody)
    pins: Annotated[tuple[PinBody, ...], Field(max_length=500)] = ()
    title: Annotated[str, Field(min_length=1, max_length=200)] = "Sheets"
    seconds: Annotated[float, Field(ge=0, le=60, allow_inf_nan=False)] = 5.0

    def tray(self) -> Tray:
        """Return the tray itself."""
        return tray_of(self.model_dump(by_alias=True))


class LayBody(Body):
    """A tray to lay, and how long to search."""

    tray: TrayBody
    seconds: Annotated[float, Field(ge=0, le=LONGEST_S, allow_inf_nan=False)] = 0.5
    window: Annotated[str, Field(max_length=40, description="A later request of the same window ends this one.")] = ""


class MakeBody(Body):
    """A tray to make; `accept` names rules whose errors are accepted."""

    tray: TrayBody
    accept: Annotated[tuple[Annotated[str, Field(max_length=60)], ...], Field(max_length=64)] = ()


@router.get("/tray")
def tray(bench: BenchAsked) -> TrayShown:
    """Return the tray and its revision."""
    return show_tray(ShowTray(), bench, QUIET)


@router.put("/tray")
def other_tray(body: TrayBody, base: Base, bench: BenchAsked) -> TrayShown:
    """Return the tray as kept."""
    return keep_tray(KeepTray(body.tray(), base), bench, QUIET)


@router.post("/tray/lay")
def laid(body: LayBody, request: Request, bench: BenchAsked) -> TrayView:
    """Return the tray as it lies on its sheets."""
    late = request.app.state.newest.asked(body.window)
    try:
        return lay_tray(LayTray(body.tray.tray(), body.seconds), bench, Watch(cancelled=late))
    except WrapwrightError as error:
        if error.kind is not Kind.STOPPED:
            raise
        message = "A later request of the same window took this one's place."
        raise WrapwrightError(Kind.REFUSED, message) from error


@router.post("/tray/made", status_code=201)
def made(body: MakeBody, request: Request, bench: BenchAsked) -> MadeKept:
    """Return the making of the tray's sheets, which now waits for its turn."""
    waiting = ask_tray(AskTray(body.tray.tray(), body.accept), bench, QUIET)
    request.app.state.makings.wake()
    return waiting
