"""Set-ups: printers with their paper, profile and scale; and the fonts there are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.papers import PAPERS
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import PrinterKept, SetupKept, Table

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.tables import ColourTable, SheetTable

router = APIRouter()

# A grey field whose two sides are long enough to find a printer's scale by, mm.
ACROSS_MM, ALONG_MM = 190, 250


@dataclass(frozen=True)
class SetupShown:
    """A set-up as the list and the form show it.

    Attributes:
        kept: the record.
        sheet, colour: its two tables, read.
        paper: how its paper is chosen: a name, "size" or "roll".
    """

    kept: SetupKept
    sheet: SheetTable
    colour: ColourTable
    paper: str


@router.get("/setups")
def setups(request: Request, change: Whole = 0) -> HTMLResponse:
    """Return the set-ups, with the form for a new one or for the one to change."""
    from wrapwright.jobs.kept.pictures import ListFonts, list_fonts
    from wrapwright.jobs.kept.setups import ListSetups, ShowSetup, list_setups, show_setup

    bench: Bench = request.app.state.bench
    kept = show_setup(ShowSetup(id=change), bench, Watch()) if change else None
    return page(
        request,
        "setups.html",
        step="setups",
        setups=[setup_shown(one) for one in list_setups(ListSetups(), bench, Watch())],
        form=setup_shown(kept or blank_setup(bench)),
        changing=kept,
        printers=_printers(bench),
        papers=PAPERS,
        fonts=list_fonts(ListFonts(), bench, Watch()),
        field=(ACROSS_MM, ALONG_MM),
        field_job=field_job(),
        cautions=[one.text for one in cautions() if one.name == "ink-gloves"],
    )


def setup_shown(kept: SetupKept) -> SetupShown:
    """Return a set-up as it is shown; a table that cannot be read any more is shown with what a job starts from."""
    from pydantic import ValidationError

    from wrapwright.outside.jobfile.tables import ColourTable, SheetTable

    try:
        sheet = SheetTable.model_validate(dict(kept.sheet))
    except (ValidationError, WrapwrightError):
        sheet = SheetTable()
    try:
        colour = ColourTable.model_validate(dict(kept.colour))
    except (ValidationError, WrapwrightError):
        colour = ColourTable()
    named = sheet.paper.name if sheet.paper.name in PAPERS else "size"
    return SetupShown(kept, sheet, colour, named if sheet.paper.height_mm else "roll")


def _printers(bench: Bench) -> dict[int, PrinterKept]:
    """Return where set-ups print, by their number; nobody is asked."""
    from wrapwright.jobs.print.printers import ListPrinters, list_printers

    return {one.setup: one for one in list_printers(ListPrinters(here=False), bench, Watch()).setups}


def blank_setup(bench: Bench) -> SetupKept:
    """Return the set-up that an empty form shows."""
    return SetupKept(0, "", {}, {}, "", bench.clock())


def field_job() -> Table:
    """Return the document of the field that a printer's scale is measured by."""
    document: dict[str, Any] = {
        "format": 1,
        "title": "Two lengths",
        "blank": {
            "kind": "straight",
            "flat": f"{ALONG_MM} mm",
            "wall": f"{ACROSS_MM} mm",
            "tape": {"kind": "paper strip"},
        },
        "wrap": {"overlap": "0 mm", "bleed": "0 mm"},
        "sheet": {"paper": "Letter"},
        "element": [{"kind": "fill", "colour": "#c9d4d8"}],
    }
    return document
