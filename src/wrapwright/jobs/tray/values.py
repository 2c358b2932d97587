"""What lies in the tray, and how it is to be laid: frozen values that can be kept as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.lay.values import Way


@dataclass(frozen=True)
class TrayPiece:
    """A design and how many of it; pieces of one order are kept together where that costs no sheet."""

    design: int
    quantity: int = 1
    order: str = ""


@dataclass(frozen=True)
class TrayPaper:
    """A paper: its name or size as written, the price of a sheet (of a roll: of a metre), how many there are."""

    paper: str
    price: float | None = None
    at_hand: int | None = None


@dataclass(frozen=True)
class TrayPin:
    """A copy put somewhere by hand: `piece` is its place in the tray, x and y the lower left of its trim's box."""

    piece: int
    copy: int
    sheet: int
    x_mm: float
    y_mm: float
    turn_deg: int


@dataclass(frozen=True)
class TrayTrimmer:
    """The trimmer's limits: longest stroke, thickest stack, narrowest strip, and how far the image may sit off."""

    longest_mm: float = 460.0
    stack_mm: float = 1.0
    least_mm: float = 20.0
    slip_mm: float = 1.5


@dataclass(frozen=True)
class Tray:
    """Everything on the Sheets screen.

    Attributes:
        pieces: the designs, in order.
        setup: whose printer and colours are used; 0 for those of the first design.
        papers: the liked ones first; empty for the printer's own.
        way: "trimmer" or "free".
        gutter_mm: least distance between two trims.
        trimmer: its limits.
        pins: what was put in its place by hand.
        title: of the sheets.
        seconds: longest search for a better layout when the sheets are made.
    """

    pieces: tuple[TrayPiece, ...] = ()
    setup: int = 0
    papers: tuple[TrayPaper, ...] = ()
    way: Way = "trimmer"
    gutter_mm: float = 3.0
    trimmer: TrayTrimmer = field(default_factory=TrayTrimmer)
    pins: tuple[TrayPin, ...] = ()
    title: str = "Sheets"
    seconds: float = 5.0


def tray_document(tray: Tray) -> dict[str, Any]:
    """Return the tray as JSON values; `tray_of` reads them back."""
    return asdict(tray)


def tray_of(document: Mapping[str, Any]) -> Tray:
    """Return the tray of a document that `tray_document` made."""
    rows = dict(document)
    rows["pieces"] = tuple(TrayPiece(**one) for one in rows.get("pieces", ()))
    rows["papers"] = tuple(TrayPaper(**one) for one in rows.get("papers", ()))
    rows["pins"] = tuple(TrayPin(**one) for one in rows.get("pins", ()))
    rows["trimmer"] = TrayTrimmer(**rows.get("trimmer", {}))
    return Tray(**rows)


def refuse_more(tray: Tray, most: int, remedy: str) -> None:
    """Do nothing where the tray holds so many pieces at most.

    Raises:
        WrapwrightError: unusable, with both figures.
    """
    total = sum(one.quantity for one in tray.pieces)
    if total > most:
        raise unusable(f"The tray holds {total} pieces; the limit here is {most}.", remedy=remedy, where="tray")
