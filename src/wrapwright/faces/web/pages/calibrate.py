"""The screen on which a set-up's printer is calibrated: the target, its two lengths, and what was measured before."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.sheet.scale.drift import same_paper, trends
from wrapwright.core.sheet.scale.entries import ScaleEntry, scale_words
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch
from wrapwright.outside.documents.screen.scale_plot import scale_plot

router = APIRouter()

DIVISIONS = (("0.5", "0.5 mm"), ("0.25", "0.25 mm, by eye between marks"), ("1", "1 mm"), ("0.79375", "1/32 in"))


@dataclass(frozen=True)
class EntryShown:
    """A measurement in the list: the record, what its scales do to a length, and whether it is the one in use."""

    kept: ScaleEntry
    across: str
    along: str
    current: bool


@router.get("/setups/{setup:int}/calibrate", response_class=HTMLResponse)
def calibrate(request: Request, setup: Id) -> HTMLResponse:
    """Return the screen of one set-up."""
    from wrapwright.jobs.calibrate.scales import ShowScales, show_scales

    bench = request.app.state.bench
    scales = show_scales(ShowScales(setup), bench, Watch())
    rising = same_paper(scales.entries)
    return page(
        request,
        "calibrate.html",
        step="setups",
        setup=scales.setup,
        asked=scales.asked_mm,
        entries=[_shown(one, current=bool(rising) and one.id == rising[-1].id) for one in scales.entries],
        words=scales.words,
        drifts=any(one.drifts for one in trends(scales.entries)),
        plot=scale_plot(rising) if len(rising) > 1 else "",
        divisions=DIVISIONS,
        today=bench.clock().astimezone().date(),
        cautions=[one.text for one in cautions() if one.name == "ink-gloves"],
    )


def _shown(entry: ScaleEntry, *, current: bool) -> EntryShown:
    across, along = (scale_words(one) for one in entry.lengths.scale)
    return EntryShown(entry, across, along, current)
