"""The ticket: one page that travels with the work, to stand on the bench."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.findings import Finding
from wrapwright.data.press import Recipe
from wrapwright.outside.documents.bench_drawings import piece_drawing, plate_drawing, seam_drawing, sheet_drawing
from wrapwright.outside.documents.facts import BlankFacts, FlatPicture, HeatFacts, WrapFacts
from wrapwright.outside.documents.steps import SheetFacts, Work, closing_cautions, steps_of
from wrapwright.outside.documents.typeset import pdf_of
from wrapwright.outside.documents.words import accepted_words, finding_rows, tally_words

_TEMPLATE = "ticket.typ"
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
_MARGIN, _SIDE, _GUTTER = 11.0, 68.0, 6.0


@dataclass(frozen=True, eq=False)
class TicketData:
    """What a ticket says.

    Attributes:
        title: the job's title.
        blank, wrap, sheet: the facts.
        on_page: what lies on the first page: the wrap, or its first panel.
        art: the flat wrap (or that panel) as seen; the ticket's drawing mirrors it as the sheet does.
        ware: "steel", "double-walled", "ceramic", "aluminium", "glass" or "unknown".
        heater: "oven", "press" or "unknown".
        recipe: the starting point for the heat, or None.
        heat: what is reckoned of it; None without a recipe.
        double: whether the blank is double-walled.
        findings: the checks' results; accepted errors stand in the first line.
        quantity: how many pieces.
        date: "2026-05-02", or "" for none.
        paper: the ticket's own, "Letter" or "A4".
    """

    title: str
    blank: BlankFacts
    wrap: WrapFacts
    on_page: WrapFacts
    sheet: SheetFacts
    art: FlatPicture
    ware: str = "unknown"
    heater: str = "unknown"
    recipe: Recipe | None = None
    findings: tuple[Finding, ...] = ()
    quantity: int = 1
    date: str = ""
    paper: str = "Letter"
    heat: HeatFacts | None = None
    double: bool = False


def ticket_pdf(data: TicketData, *, cache: Path) -> bytes:
    """Return the ticket as PDF, always one page: long lists are shortened and say so.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    return pdf_of(_TEMPLATE, _words(data), {"art.png": data.art.png}, cache=cache, on=data.date)


def _words(data: TicketData) -> dict[str, object]:
    page, flat = PAPERS[data.paper], data.wrap.flat.plate is not None
    work = Work(
        data.blank, data.wrap, data.sheet, data.ware, data.heater, data.recipe, heat=data.heat, double=data.double
    )
    return {
        "kind": "Ticket",
        "title": data.title,
        "date": data.date,
        "quantity": data.quantity,
        "blank": data.blank.name,
        "page": list(page),
        "margin": _MARGIN,
        "side": _SIDE,
        "gutter": _GUTTER,
        "steps": [step.as_data() for step in steps_of(work)],
        "closing": closing_cautions(work),
        "sheet": sheet_drawing(data.sheet.page, data.on_page, data.art, file="art.png", room=(_SIDE, 72.0)),
        "flat": flat,
        "panels": len(data.wrap.panels),
        "seam": None if flat else seam_drawing(data.wrap, width_mm=_SIDE),
        "piece": plate_drawing(data.wrap, room=(_SIDE, 46.0))
        if flat
        else piece_drawing(data.blank, data.wrap, room=(_SIDE, 46.0)),
        "findings": finding_rows(data.findings),
        "tally": tally_words(data.findings),
        "accepted": accepted_words(data.findings),
        "handle": data.wrap.flat.gap_mm > 0,
    }
