"""The finding for a wrap that does not fit its paper: by how much, and what would fit."""

from __future__ import annotations

import math
from dataclasses import replace

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.sheet.fitting import Chance, chances
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.papers import PAPERS
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import exact_box

# A band lower by more than this is another design, not a small change.
BAND_STEP_MM = 6.0
_GRID_MM = 0.1

# Papers looked at beside the named ones; 13 x 19 in is the trade's largest common desktop size (common practice).
_MORE = {"13x19 in": (330.2, 482.6)}


def does_not_fit(wrap: FlatWrap, sheet: SheetRequest) -> Finding:
    """Return the error that says by how much the wrap is too large and which paper or band would fit."""
    options = chances(sheet)
    nearest = min(options, key=lambda one: max(_excess(wrap, one)))
    width, height = size_on(wrap, nearest.turn_deg)
    over = _excess(wrap, nearest)
    axis = 0 if over[0] >= over[1] else 1
    needed, room = (width, height)[axis], nearest.room_mm[axis]
    which = ("wide", "tall")[axis]
    limits = " x ".join("any length" if math.isinf(side) else f"{side:.1f} mm" for side in nearest.room_mm)
    what = "wrap" if wrap.plate is None else "blank"
    message = (
        f"The {what} is {width:.1f} x {height:.1f} mm and {sheet.paper} can print {limits}: "
        f"it is {over[axis]:.1f} mm too {which}, whichever way round it lies. {_remedy(wrap, sheet)}"
    )
    return Finding("does-not-fit", Severity.ERROR, message, figure=needed, limit=room, unit="mm")


def size_on(wrap: FlatWrap, turn_deg: int) -> tuple[float, float]:
    """Return width and height in true mm of the trimmed wrap's box, turned so."""
    left, bottom, right, top = exact_box(trim_outline(wrap).times(mirrored(turn_deg)))
    return right - left, top - bottom


def _excess(wrap: FlatWrap, chance: Chance) -> tuple[float, float]:
    size = size_on(wrap, chance.turn_deg)
    return size[0] - chance.room_mm[0], size[1] - chance.room_mm[1]


def _fits(wrap: FlatWrap, sheet: SheetRequest) -> bool:
    return any(max(_excess(wrap, one)) <= 1e-9 for one in chances(sheet))


def band_that_fits(wrap: FlatWrap, sheet: SheetRequest) -> float:
    """Return the height in mm of the tallest band from the same lower edge that fits; 0 when over 6 mm must go.

    A flat blank is covered whole: 0.
    """
    if wrap.plate is not None:
        return 0.0
    steps = math.floor(wrap.height_mm / _GRID_MM)
    for count in range(steps, 0, -1):
        height = round(count * _GRID_MM, 1)
        if wrap.height_mm - height > BAND_STEP_MM + _GRID_MM:
            break
        if _fits(replace(wrap, height_mm=height, upper_mm=wrap.turn_length(height)), sheet):
            return height
    return 0.0


def paper_that_fits(wrap: FlatWrap, sheet: SheetRequest) -> str:
    """Return the name of the smallest known paper that takes the wrap with the same margins; "" when none does."""
    known = sorted((PAPERS | _MORE).items(), key=lambda one: one[1][0] * one[1][1])
    for name, (width, height) in known:
        if _fits(wrap, replace(sheet, paper=name, width_mm=width, height_mm=height)):
            return name
    return ""


def _remedy(wrap: FlatWrap, sheet: SheetRequest) -> str:
    ways = []
    band = band_that_fits(wrap, sheet)
    if band > 0:
        ways.append(f"a band {band:g} mm high would fit (it is {wrap.height_mm:g} mm now)")
    paper = paper_that_fits(wrap, sheet)
    if paper:
        ways.append(f"{paper} would take it as it is")
    else:
        length = min(min(size_on(wrap, turn)) for turn in (0, 90)) / sheet.scale_across
        side = math.ceil(length + sheet.margins_mm[1] + sheet.margins_mm[3])
        ways.append(f"a roll at least {side} mm wide would take it")
    if wrap.plate is None:
        ways.append('panels = "auto" under [wrap] prints it in pieces that are joined on the blank')
    words = "; ".join(ways)
    return f"{words[0].upper()}{words[1:]}."
