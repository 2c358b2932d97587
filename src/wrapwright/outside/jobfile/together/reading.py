"""A sheets file read: every problem in it found together, or what it asks as core values."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from pydantic import ValidationError

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.checks.names import folded, unknown_rules
from wrapwright.core.colour.request import ColourRequest
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Stock, Way
from wrapwright.core.sheet.papers import Paper
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.outside.jobfile.job import colour_request, sheet_request
from wrapwright.outside.jobfile.problems import problems_of
from wrapwright.outside.jobfile.reading import right_format, toml_document
from wrapwright.outside.jobfile.together.tables import PieceTable, SheetsFile


@dataclass(frozen=True)
class PieceAsked:
    """A job and how many of it (None: its own quantity); the path as written."""

    job: str
    quantity: int | None = None
    name: str = ""
    order: str = ""
    turns: tuple[int, ...] = (0, 90, 180, 270)


@dataclass(frozen=True)
class SheetsAsked:
    """What a sheets file asks; lengths in mm.

    Attributes:
        title: as written, else the file's stem.
        pieces: the jobs, in order.
        sheet: the printer's figures; its paper is that of the first stock.
        stocks: the papers, true mm: file mm times the printer's scale.
        way, gutter_mm: how they are laid.
        trimmer: its limits.
        colour: for all jobs; None when nothing is asked, and the first job's stands.
        date: printed, or None.
        accept: rules whose errors are accepted.
    """

    title: str
    pieces: tuple[PieceAsked, ...]
    sheet: SheetRequest
    stocks: tuple[Stock, ...]
    way: Way = "trimmer"
    gutter_mm: float = 3.0
    trimmer: Trimmer = field(default_factory=Trimmer)
    colour: ColourRequest | None = None
    date: date | None = None
    accept: frozenset[str] = frozenset()


def read_sheets(text: str, *, stem: str, where: str = "") -> SheetsAsked:
    """Return what the text of a sheets file (TOML, format 1) asks.

    Args:
        text: of the file.
        stem: its name without its ending; the title when none is written.
        where: what errors about the whole file call it.

    Raises:
        WrapwrightError: unusable; one sentence, or SeveralProblemsError with all that was found.
    """
    return _asked(toml_document(text, where, called="sheets file"), stem)


def _asked(document: dict[str, Any], stem: str) -> SheetsAsked:
    right_format(document)
    problems: list[WrapwrightError] = []
    model = None
    try:
        model = SheetsFile.model_validate(document)
    except ValidationError as error:
        problems += problems_of(error, document, SheetsFile)
    problems += _in_doubt(document)
    if model is not None:
        problems += unknown_rules(model.accept, where="accept")
    raise_all(problems)
    if model is None:  # pragma: no cover - raise_all left with the model's own problems
        raise AssertionError("a document the model refused has no problem to show")
    sheet = sheet_request(model.sheet)
    papers = [(one.paper, one.price, one.at_hand) for one in model.sheet.papers] or [(model.sheet.paper, None, None)]
    first = papers[0][0]
    trimmer = model.trimmer
    return SheetsAsked(
        title=model.title or stem,
        pieces=tuple(_piece(one) for one in model.piece),
        sheet=on_paper(sheet, first),
        stocks=tuple(stock_of(paper, sheet, price, at_hand) for paper, price, at_hand in papers),
        way=model.lay.way,
        gutter_mm=model.lay.gutter,
        trimmer=Trimmer(trimmer.longest, trimmer.stack, sheet.thickness_mm, trimmer.least, trimmer.slip),
        colour=colour_request(model.colour) if "colour" in document else None,
        date=model.date,
        accept=folded(model.accept),
    )


def _piece(table: PieceTable) -> PieceAsked:
    return PieceAsked(table.job, table.quantity, table.name, table.order, tuple(dict.fromkeys(table.turns)))


def on_paper(sheet: SheetRequest, paper: Paper) -> SheetRequest:
    """Return the same printer with another paper."""
    return replace(sheet, paper=paper.name, width_mm=paper.width_mm, height_mm=paper.height_mm)


def paper_of(sheet: SheetRequest) -> Paper:
    """Return the paper of a request."""
    return Paper(sheet.paper, sheet.width_mm, sheet.height_mm)


def stock_of(paper: Paper, sheet: SheetRequest, price: float | None = None, at_hand: int | None = None) -> Stock:
    """Return a paper as it is laid on: in true mm, which are file mm times the printer's scale."""
    across, along = sheet.scale_across, sheet.scale_along
    top, right, bottom, left = sheet.margins_mm
    height = None if paper.height_mm is None else paper.height_mm * along
    margins = (left * across, bottom * along, right * across, top * along)
    return Stock(paper.name, paper.width_mm * across, height, margins, price, at_hand)


def _in_doubt(document: dict[str, Any]) -> Iterator[WrapwrightError]:
    sheet = document.get("sheet")
    if isinstance(sheet, dict) and "paper" in sheet and "papers" in sheet:
        yield unusable("paper and papers are both given.", remedy="Keep one of the two.", where="sheet")
    colour = document.get("colour")
    if isinstance(colour, dict):
        from wrapwright.outside.jobfile.presence import colour_in_doubt

        yield from colour_in_doubt(colour)
