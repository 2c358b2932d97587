"""The sentences of a layout: how many sheets, whether fewer could ever do, and under which conditions that holds."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from wrapwright.core.sheet.lay.plan import area, priced
from wrapwright.core.sheet.lay.values import Box, LaidSheet, LayRequest, Stock

_HALF = (0.42, 0.58)  # of a sheet's area is called half of it
_LITTLE = 0.1  # and this little is told in mm alone
_WAYS = {"trimmer": "every cut from edge to edge", "free": "cut with scissors or a plotter"}


def layout_words(request: LayRequest, sheets: Sequence[LaidSheet], bound: float, *, proven: bool) -> str:
    """Return the sentences that say what is used, and whether it is proven the least."""
    if not sheets:
        return "Nothing is laid."
    pieces = sum(len(sheet.pieces) for sheet in sheets)
    used = f"{_count(pieces, 'piece')} on {_used(request, sheets)}"
    unit = _unit(request)
    if proven:
        least = f"{used}: proven the {_least(request)}."
    elif bound > 0:
        least = f"{used}; it takes at least {unit(bound)}, and whether {unit(bound)} would do is not known."
    else:
        least = f"{used}; how little could do is not known."
    return f"{least} {conditions(request)}"


def conditions(request: LayRequest) -> str:
    """Return the sentence that says what the figures hold for."""
    papers = "; ".join(f"{stock.paper} with margins of {_margins(stock)}" for stock in request.stocks)
    turning = [
        any(turn % 180 for turn in part.turns) and any(turn % 180 == 0 for turn in part.turns) for part in request.parts
    ]
    turns = (
        "turned by quarters"
        if all(turning)
        else "some turned by quarters"
        if any(turning)
        else "not turned by quarters"
    )
    grid = max(request.step_mm)
    return (
        f"This holds for {papers}; a gutter of {request.gutter_mm:g} mm; pieces with their bleed and labels, {turns}, "
        f"placed in steps of {grid:.3g} mm; {_WAYS[request.way]}."
    )


def _least(request: LayRequest) -> str:
    if priced(request.stocks):
        return "cheapest"
    if all(stock.height_mm is None for stock in request.stocks):
        return "shortest"
    return "fewest"


def _unit(request: LayRequest) -> Callable[[float], str]:
    def words(bound: float) -> str:
        if priced(request.stocks):
            return f"{math.floor(100.0 * bound + 1e-6) / 100.0:.2f}"
        if all(stock.height_mm is None for stock in request.stocks):
            return f"{math.ceil(bound - 1e-6)} mm"
        return _count(math.ceil(bound - 1e-6), "sheet")

    return words


def _used(request: LayRequest, sheets: Sequence[LaidSheet]) -> str:
    found = []
    for index, stock in enumerate(request.stocks):
        own = [sheet for sheet in sheets if sheet.stock == index]
        if own and stock.height_mm is None:
            found.append(f"{sum(sheet.height_mm for sheet in own):.0f} mm of {stock.paper}")
        elif own:
            found.append(f"{_count(len(own), 'sheet')} of {stock.paper}")
    words = " and ".join(found)
    if priced(request.stocks):
        words += f", which cost {cost_of(request, sheets):.2f}"
    return words


def cost_of(request: LayRequest, sheets: Sequence[LaidSheet]) -> float:
    """Return the price of the sheets; of a roll by the metre."""
    total = 0.0
    for sheet in sheets:
        stock = request.stocks[sheet.stock]
        total += (stock.price or 0.0) * (sheet.height_mm / 1000.0 if stock.height_mm is None else 1.0)
    return total


def rest_words(sheet: LaidSheet, stock: Stock) -> str:
    """Return what is left of a sheet that can be used again: "half a Letter sheet left: 216 x 130 mm"; else ""."""
    if sheet.rest is None:
        return ""
    wide, high = size_of(sheet.rest)
    share = area(sheet.rest) / (sheet.width_mm * sheet.height_mm)
    if stock.height_mm is None or share < _LITTLE:
        return f"{wide:.0f} x {high:.0f} mm of {stock.paper} left"
    much = "half" if _HALF[0] <= share <= _HALF[1] else f"{100 * share:.0f} % of"
    article = "an" if stock.paper[:1] in "AEIO" else "a"
    return f"{much} {article} {stock.paper} sheet left: {wide:.0f} x {high:.0f} mm"


def size_of(box: Box) -> tuple[float, float]:
    """Return width and height of a box, rounded down to what is certainly there."""
    return math.floor(box[2] - box[0] + 1e-6), math.floor(box[3] - box[1] + 1e-6)


def _margins(stock: Stock) -> str:
    sides = [round(side, 2) for side in stock.margins_mm]
    if len(set(sides)) == 1:
        return f"{sides[0]:g} mm"
    left, bottom, right, top = sides
    return f"{top:g}, {right:g}, {bottom:g}, {left:g} mm (top, right, bottom, left)"


def _count(number: int, what: str) -> str:
    return f"1 {what}" if number == 1 else f"{number} {what}s"
