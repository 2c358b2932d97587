"""The contact sheet's pages without the art: its head with the lines to sign on, the exceptions, and the captions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from wrapwright.outside.documents.lettering import spelt
from wrapwright.outside.documents.typeset import pdf_of

_TEMPLATE = "contact.typ"
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
MARGIN_MM = 11.0
FOOT_MM = 4.0
HEAD_MM = 8.0  # of a page with pieces, its line included
MOST_LISTED = 120  # exceptions with a line of their own
_TWO_COLUMNS = 14  # lines of exceptions beyond which they stand in two columns


@dataclass(frozen=True)
class Caption:
    """What stands below one piece.

    Attributes:
        name: what it is called.
        told: its numbers.
        note: what to look at; "" for nothing.
        tone: of the note, "error", "warning" or "note".
        absent: whether there is no piece.
        at_mm: left and top of the words, from the upper left corner of the page's content.
        width_mm: of the cell.
        top_mm, height_mm: where the piece itself stands, likewise.
        other: what else the row writes, beside its name.
    """

    name: str
    told: str
    note: str
    tone: str
    absent: bool
    at_mm: tuple[float, float]
    width_mm: float
    top_mm: float
    height_mm: float
    other: str = ""


@dataclass(frozen=True, eq=False)
class Grid:
    """One page with pieces: what stands over them, and their captions; `size_pt` of the names."""

    head: str
    side: str
    captions: tuple[Caption, ...]
    size_pt: float


@dataclass(frozen=True)
class Exceptional:
    """One row to look at: its number, its pieces' numbers in words, its name, why, and how grave that is."""

    row: int
    pieces: str
    name: str
    why: str
    tone: str


@dataclass(frozen=True, eq=False)
class ContactData:
    """What the contact sheet says.

    Attributes:
        title: of the job.
        summary: one sentence on the whole.
        facts: (what, figure) about the list.
        said: (mark, sentence): who signed it before, what changed since, which rows are left out.
        sha256: hash of the list.
        exceptions: rows to look at; of many the first.
        exceptions_more: which further ones there are; "" for none.
        grids: the pages with pieces.
        date: "2026-05-02", or "" for none.
        paper: "Letter" or "A4".
    """

    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    said: tuple[tuple[str, str], ...]
    sha256: str
    exceptions: Sequence[Exceptional]
    exceptions_more: str
    grids: Sequence[Grid]
    date: str = ""
    paper: str = "Letter"


def contact_frames(data: ContactData, *, cache: Path) -> bytes:
    """Return the PDF of the contact sheet's pages, all but the art; the last `len(data.grids)` pages wait for it.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    return pdf_of(_TEMPLATE, _words(data), {}, cache=cache, on=data.date)


def _words(data: ContactData) -> dict[str, object]:
    listed = data.exceptions[:MOST_LISTED]
    return {
        "kind": "Contact sheet",
        "title": data.title,
        "date": data.date,
        "page": list(PAPERS[data.paper]),
        "margin": MARGIN_MM,
        "summary": data.summary,
        "facts": [list(one) for one in data.facts],
        "said": [list(one) for one in data.said],
        "ask": "Every piece is made as it stands here. Please read every name letter by letter: spelling, accents, "
        "capitals, and that none is missing.",
        "hash": " ".join(data.sha256[at : at + 8] for at in range(0, 64, 8)),
        "foot": f"{data.title}, list {data.sha256[:12]}",
        "exceptions-head": "Rows to look at twice",
        "exceptions": [[str(one.row), one.pieces, spelt(one.name), one.why, one.tone] for one in listed],
        "exception-columns": 2 if len(listed) > _TWO_COLUMNS else 1,
        "exceptions-more": data.exceptions_more,
        "grids": [_grid(one) for one in data.grids],
    }


def _grid(one: Grid) -> dict[str, object]:
    return {
        "head": one.head,
        "side": one.side,
        "size": one.size_pt,
        "small": max(5.6, one.size_pt - 1.4),
        "cells": [_cell(each) for each in one.captions],
    }


def _cell(one: Caption) -> dict[str, object]:
    return {
        "name": spelt(one.name),
        "other": spelt(one.other),
        "told": one.told,
        "note": one.note,
        "tone": one.tone,
        "absent": one.absent,
        "x": round(one.at_mm[0], 3),
        "y": round(one.at_mm[1], 3),
        "w": round(one.width_mm, 3),
        "top": round(one.top_mm, 3),
        "h": round(one.height_mm, 3),
    }
