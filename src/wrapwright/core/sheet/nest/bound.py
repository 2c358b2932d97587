"""How few sheets could ever do: by area, and by parts of which no two go on one sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from wrapwright.core.sheet.lay.values import LayRequest, Stock
from wrapwright.core.sheet.nest.kinds import Area, Kind, area_of, fits
from wrapwright.core.sheet.nest.nofit import convex_parts, no_fit
from wrapwright.core.sheet.nest.outlines import RING_OFF_MM, Array, Lying, trim_points

_SURE_MM = 0.25  # by which trims are taken smaller before it is said that two do not go on a sheet
_MANY_KINDS = 12


def least_sheets(request: LayRequest, kinds: Sequence[Kind]) -> int:
    """Return a number of sheets that no way of laying the parts that fit can undercut; on a roll whole millimetres.

    With several papers the one that holds most counts. Area: grown by half the gutter no two trims overlap, and none
    reaches farther than half the gutter beyond the printable area.
    """
    rolls = [stock for stock in request.stocks if stock.height_mm is None]
    if rolls:
        return (
            min(_least_length(request, kinds, stock) for stock in request.stocks)
            if len(rolls) == len(request.stocks)
            else 0
        )
    areas = [area_of(stock) for stock in request.stocks]
    here = [kind for kind in kinds if any(fits(kind, area) for area in areas)]
    if not here:
        return 0
    need = sum(_grown(kind, request) * _copies(kind, request) for kind in here)
    held = max((area[0] + request.gutter_mm) * (area[1] + request.gutter_mm) for area in areas)
    by_area = math.ceil(need / held - 1e-9)
    return max(by_area, _lonely(here, areas, request), 1)


def least_cost(request: LayRequest, kinds: Sequence[Kind]) -> float:
    """Return a price that no way of laying the parts that fit can undercut, when every price is known.

    Each part pays at least for its area, on the paper that sells area cheapest of those that take it; and each of the
    fewest sheets costs at least what the cheapest costs.
    """
    areas = [area_of(stock) for stock in request.stocks]
    here = [kind for kind in kinds if any(fits(kind, area) for area in areas)]
    shortest = min((min(one.ink[3] - one.ink[1] for one in kind.lyings) for kind in here), default=0.0)
    each = [_each_mm2(stock, request.gutter_mm, shortest) for stock in request.stocks]
    by_area = sum(
        _grown(kind, request)
        * _copies(kind, request)
        * min(rate for rate, area in zip(each, areas, strict=True) if fits(kind, area))
        for kind in here
    )
    if any(stock.height_mm is None for stock in request.stocks):
        return by_area
    return max(by_area, least_sheets(request, kinds) * min(stock.price or 0.0 for stock in request.stocks))


def _each_mm2(stock: Stock, gutter: float, shortest: float) -> float:
    """Return what a square mm of trims, grown by half the gutter, costs at the least on a paper."""
    width, height = area_of(stock)
    if stock.height_mm is not None:
        return (stock.price or 0.0) / ((width + gutter) * (height + gutter))
    over = max(0.0, gutter - stock.margins_mm[1] - stock.margins_mm[3])
    return (stock.price or 0.0) / 1000.0 / ((width + gutter) * (1.0 + over / max(shortest, 1e-6)))


def _copies(kind: Kind, request: LayRequest) -> int:
    return sum(request.parts[part].copies for part in kind.parts)


def _grown(kind: Kind, request: LayRequest) -> float:
    """Return the area of a trim grown by half the gutter, a little less rather than more."""
    import shapely

    shape, half = kind.part.shape, request.gutter_mm / 2.0
    if shape.kind == "circle":
        return math.pi * (shape.width_mm / 2.0 + half) ** 2
    trim = shapely.Polygon(trim_points(shape, 0))
    unsure = 0.0 if kind.is_box else RING_OFF_MM * float(trim.length)
    return max(float(trim.buffer(half, quad_segs=16).area) - unsure, kind.area)


def _least_length(request: LayRequest, kinds: Sequence[Kind], stock: Stock) -> int:
    width, _ = area_of(stock)
    if width <= 0.0:
        return 0
    here = [kind for kind in kinds if fits(kind, area_of(stock))]
    need = sum(_grown(kind, request) * _copies(kind, request) for kind in here)
    length = need / (width + request.gutter_mm) - request.gutter_mm
    tallest = max((min(one.ink[3] - one.ink[1] for one in kind.lyings) for kind in here), default=0.0)
    return math.ceil(max(length, tallest) + stock.margins_mm[1] + stock.margins_mm[3] - 1e-6)


def _lonely(kinds: Sequence[Kind], areas: Sequence[Area], request: LayRequest) -> int:
    """Return how many copies there are of which no two go on any sheet together, largest kinds first."""
    chosen: list[Kind] = []
    for kind in sorted(kinds, key=lambda one: -one.area)[:_MANY_KINDS]:
        if all(_never_two(kind, other, areas, request) for other in (kind, *chosen)):
            chosen.append(kind)
    return sum(_copies(kind, request) for kind in chosen)


def _never_two(one: Kind, other: Kind, areas: Sequence[Area], request: LayRequest) -> bool:
    """Return whether no sheet holds one copy of each, at any of their turns."""
    if one.area + other.area > max((a + request.gutter_mm) * (b + request.gutter_mm) for a, b in areas):
        return True
    return not any(
        _may_lie((one, mine), (other, yours), area, request.gutter_mm)
        for area in areas
        for mine in one.lyings
        for yours in other.lyings
    )


Choice = tuple[Kind, Lying]


def _may_lie(one: Choice, other: Choice, area: Area, gutter: float) -> bool:
    """Return whether two trims, taken a little smaller, can lie apart with their boxes in an area."""
    import shapely

    sizes = [lying.size for _, lying in (one, other)]
    if any(size[axis] > area[axis] + 1e-6 for size in sizes for axis in (0, 1)):
        return False
    spare = [[max(area[axis] - size[axis], 0.0) + _SURE_MM for axis in (0, 1)] for size in sizes]
    # Where the other may lie, seen from the one: both move in rectangles, so the difference moves in one too.
    moves = shapely.box(-spare[0][0], -spare[0][1], spare[1][0], spare[1][1])
    parts = [_kept_apart(kind, lying.turn, gutter) for kind, lying in (one, other)]
    return not (all(parts) and no_fit(*parts).covers(moves))


def _kept_apart(kind: Kind, turn: int, gutter: float) -> list[Array]:
    """Return a trim with half the gutter, a little smaller than it is, in convex parts."""
    import shapely

    wanted = gutter / 2.0 - _SURE_MM
    grown = shapely.Polygon(trim_points(kind.part.shape, turn)).buffer(wanted, quad_segs=4)
    inner = grown.simplify(_SURE_MM / 4.0).buffer(-_SURE_MM / 4.0, quad_segs=4)
    if inner.geom_type != "Polygon" or inner.is_empty:
        return []
    return convex_parts(np.asarray(inner.exterior.coords, dtype=np.float64)[:-1])
