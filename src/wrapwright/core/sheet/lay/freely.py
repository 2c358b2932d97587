"""The free way: what is laid for scissors or a plotter, set on the grid of pixels that copies share their image by."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from wrapwright.core.sheet.lay.values import Box, LaidSheet, Layout, LayRequest, Part, Stock
from wrapwright.core.sheet.lay.words import layout_words
from wrapwright.core.sheet.nest.free import FreeLaying
from wrapwright.core.sheet.nest.values import Nested

_STEPS = 40  # steps of ruin and recreate that the filling of one sheet counts for
_HAIR = 1e-6


class Freely:
    """A search for a free layout."""

    def __init__(self, request: LayRequest, nested: Nested | None = None) -> None:
        """Make ready."""
        self.request = request
        self._laying = FreeLaying(with_slack(request), nested, asked=request)
        self._done = False

    def advance(self, steps: int) -> bool:
        """Search on for about so many steps; return whether nothing better is looked for."""
        if not self._done:
            self._done = self._laying.advance(max(1, steps // _STEPS))
        return self._done

    @property
    def layout(self) -> Layout:
        """The best answer so far."""
        while not self._laying.sheets and not self.advance(_STEPS):
            pass
        pinned = {(pin.part, pin.copy) for pin in self.request.pins}
        sheets = tuple(_on_grid(sheet, self.request, pinned) for sheet in self._laying.sheets)
        proven, bound, cost = self._laying.proven, self._laying.bound, self._laying.least_cost
        words = layout_words(self.request, sheets, bound if cost is None else cost, proven=proven)
        over = self._laying.over
        notes = tuple(_missing(self.request, sheets, over))
        return Layout(self.request, sheets, bound, proven, words, over, notes, least_cost=cost)


def with_slack(request: LayRequest) -> LayRequest:
    """Return the request with so much more room that every piece may be moved down and to the left by up to a pixel."""
    across, along = request.step_mm
    slack = math.hypot(across, along)
    parts = tuple(replace(part, clear_mm=_grown(part, slack / 2.0)) for part in request.parts)
    stocks = tuple(_narrowed(stock, across, along) for stock in request.stocks)
    return replace(request, parts=parts, stocks=stocks, gutter_mm=request.gutter_mm + slack)


def _grown(part: Part, by: float) -> Box:
    left, bottom, right, top = part.clear_mm
    return (left + by, bottom + by, right + by, top + by)


def _narrowed(stock: Stock, across: float, along: float) -> Stock:
    left, bottom, right, top = stock.margins_mm
    return replace(stock, margins_mm=(left + across, bottom + along, right, top))


def _on_grid(sheet: LaidSheet, request: LayRequest, pinned: set[tuple[int, int]]) -> LaidSheet:
    across, along = request.step_mm
    pieces = tuple(
        one
        if (one.part, one.copy) in pinned
        else replace(one, x_mm=_floored(one.x_mm, across), y_mm=_floored(one.y_mm, along))
        for one in sheet.pieces
    )
    return replace(sheet, pieces=pieces)


def _floored(value: float, step: float) -> float:
    return math.floor(value / step + _HAIR) * step


def _missing(request: LayRequest, sheets: Sequence[LaidSheet], over: Sequence[int]) -> list[str]:
    wanted = sum(part.copies for index, part in enumerate(request.parts) if index not in over)
    missing = wanted - sum(len(sheet.pieces) for sheet in sheets)
    return [f"The sheets at hand are too few: {missing} pieces are not laid."] if missing > 0 else []
