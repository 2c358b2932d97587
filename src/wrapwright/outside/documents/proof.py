"""The proof: the finished piece from four sides, a flat one from above, beside its flat wrap, and the checks."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.base.findings import Finding
from wrapwright.outside.documents.facts import BlankFacts, ElementRow, FlatPicture, WrapFacts
from wrapwright.outside.documents.flat_drawing import flat_drawing
from wrapwright.outside.documents.typeset import pdf_of, png_of
from wrapwright.outside.documents.words import (
    accepted_words,
    blank_rows,
    budget_rows,
    budget_words,
    element_rows,
    finding_rows,
    proof_notes,
    tally_words,
    within_words,
    wrap_rows,
)

_TEMPLATE = "proof.typ"
# Size at which to draw the views, pixels; cut to what is in them by `snug`.
VIEW_PX = (380, 540)
# Pages lying down, mm: width, height. The template's margins and side column leave the left field for drawings.
PAPERS = {"Letter": (279.4, 215.9), "A4": (297.0, 210.0)}
_MARGIN, _SIDE, _GUTTER, _HEAD, _FOOT = 11.0, 78.0, 7.0, 18.0, 5.0
_WIDE = 1.45  # a flat wrap wider than this stands below the views, else beside them


@dataclass(frozen=True)
class View:
    """One side of the finished piece: its angle and a PNG."""

    at_deg: float
    png: bytes


@dataclass(frozen=True, eq=False)
class ProofData:
    """What a proof shows.

    Attributes:
        title: the job's title.
        blank, wrap: the facts.
        art: the flat wrap as seen.
        views: the finished piece, front, right, back and left; a flat one once.
        elements: one row for each copy.
        findings: the checks' results.
        quantity: how many pieces.
        date: "2026-05-02", or "" for none.
        paper: "Letter" or "A4".
        notes: further sentences for the foot.
    """

    title: str
    blank: BlankFacts
    wrap: WrapFacts
    art: FlatPicture
    views: tuple[View, ...]
    elements: tuple[ElementRow, ...] = ()
    findings: tuple[Finding, ...] = ()
    quantity: int = 1
    date: str = ""
    paper: str = "Letter"
    notes: tuple[str, ...] = ()


def proof_pdf(data: ProofData, *, cache: Path) -> bytes:
    """Return the proof as PDF: one page lying down, more when lists are long.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    return pdf_of(_TEMPLATE, _words(data), _pictures(data), cache=cache, on=data.date)


def proof_png(data: ProofData, *, cache: Path, ppi: float = 150) -> bytes:
    """Return the proof as one PNG, its pages one below the other."""
    pages = png_of(_TEMPLATE, _words(data), _pictures(data), cache=cache, ppi=ppi)
    return pages[0] if len(pages) == 1 else _stacked(pages)


def _stacked(pages: list[bytes]) -> bytes:
    import cv2
    import numpy as np

    rasters = [cv2.imdecode(np.frombuffer(page, np.uint8), cv2.IMREAD_COLOR) for page in pages]
    done, packed = cv2.imencode(".png", np.vstack([raster for raster in rasters if raster is not None]))
    if not done:
        raise RuntimeError("the PNG writer refused an ordinary picture")
    return bytes(packed)


def _pictures(data: ProofData) -> dict[str, bytes]:
    return {"art.png": data.art.png, **{f"view{i}.png": view.png for i, view in enumerate(data.views)}}


def _views_height(data: ProofData, width_mm: float) -> float:
    """Return how tall the row of views stands, mm: as wide as its quarter allows, but no taller than 60."""
    tallest = 40.0
    for view in data.views:
        wide, tall = struct.unpack(">II", view.png[16:24])  # the PNG header's width and height
        tallest = max(tallest, (width_mm / 4 - 3) * tall / wide)
    return min(tallest, 60.0)


def _words(data: ProofData) -> dict[str, object]:
    page = PAPERS[data.paper]
    field = (page[0] - 2 * _MARGIN - _SIDE - _GUTTER, page[1] - 2 * _MARGIN - _HEAD - _FOOT)
    flat = data.wrap.flat
    wide = flat.trim_width_mm / flat.height_mm > _WIDE
    room = (field[0], field[1] - 33 - _views_height(data, field[0])) if wide else (0.56 * field[0], field[1] - 20)
    drawn = flat_drawing(data.wrap, data.art, file="art.png", room=room, keepouts=data.blank.keepouts)
    return {
        "kind": "Proof",
        "title": data.title,
        "date": data.date,
        "quantity": data.quantity,
        "page": list(page),
        "margin": _MARGIN,
        "side": _SIDE,
        "gutter": _GUTTER,
        "field": list(field),
        "wide": wide,
        "turns": flat.plate is None,
        "flat": drawn,
        "views": [
            {
                "file": f"view{i}.png",
                "at": view.at_deg,
                "name": _side(view.at_deg) if flat.plate is None else "As pressed",
            }
            for i, view in enumerate(data.views)
        ],
        "blank": blank_rows(data.blank),
        "coating": hex_of(rgb_of(data.blank.coating)),
        "wrap": wrap_rows(data.wrap, data.blank),
        "budget": budget_rows(data.wrap),
        "doubt": budget_words(data.wrap),
        "within": within_words(data.wrap),
        "elements": element_rows(data.elements),
        "findings": finding_rows(data.findings),
        "tally": tally_words(data.findings),
        "accepted": accepted_words(data.findings),
        "notes": [*proof_notes(data.elements, flat=flat.plate is not None), *data.notes],
    }


def _side(at_deg: float) -> str:
    from wrapwright.core.base.places import place_words

    return place_words(at_deg).capitalize()
