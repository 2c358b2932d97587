"""From places of kinds to copies on a page: whole steps, orders together, what stays whole, and whether it is sound."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from wrapwright.core.sheet.lay.grid import turned_box
from wrapwright.core.sheet.lay.plan import LEAST_REST_MM
from wrapwright.core.sheet.lay.values import Box, Laid, LaidSheet, LayRequest, Pin, Stock
from wrapwright.core.sheet.nest.ground import Down
from wrapwright.core.sheet.nest.kinds import Kind
from wrapwright.core.sheet.nest.outlines import lying_at, trim_points

_NEAR_MM = 1e-6
_OFF_MM = 2e-5
_TOUCH_MM2 = 1e-3
_HAIR_MM = 0.03  # rooms are drawn that much too large


@dataclass(frozen=True)
class Filled:
    """A sheet: its stock, what lies on it, what was pinned to it, and whether nothing of it may be moved any more."""

    stock: int
    down: tuple[Down, ...]
    pins: tuple[Pin, ...] = ()
    exact: bool = False


def finished(request: LayRequest, kinds: Sequence[Kind], plan: Sequence[Filled]) -> tuple[LaidSheet, ...]:
    """Return the sheets of a plan with every copy named."""
    names = _Names(request, kinds)
    return tuple(_sheet(request, kinds, one, names) for one in plan)


def sound(request: LayRequest, sheets: Sequence[LaidSheet]) -> bool:
    """Return whether no two trims are nearer than the gutter, no labels or bleeds overlap, and all can be printed.

    Pinned copies are not held against each other, nor against the printable area.
    """
    pinned = {(pin.part, pin.copy) for pin in request.pins}
    return all(_sheet_is_sound(request, sheet, pinned) for sheet in sheets)


def _sheet_is_sound(request: LayRequest, sheet: LaidSheet, pinned: set[tuple[int, int]]) -> bool:
    free = [(one.part, one.copy) not in pinned for one in sheet.pieces]
    if any(
        off_area_mm(request, sheet.stock, one) > _OFF_MM
        for one, is_free in zip(sheet.pieces, free, strict=True)
        if is_free
    ):
        return False
    return too_near(request, sheet.pieces, request.gutter_mm - _NEAR_MM, free) is None


def too_near(
    request: LayRequest, pieces: Sequence[Laid], least_mm: float, free: Sequence[bool] = ()
) -> tuple[int, int, float] | None:
    """Return the first two of a sheet's pieces that are too near to each other, and how far apart they are, or None.

    Args:
        request: whose parts they are.
        pieces: what lies on the sheet.
        least_mm: between two trims; bleed and labels must not lie on each other.
        free: which pieces are held against the others; all by default.
    """
    import shapely

    trims = [_trim(request, one) for one in pieces]
    rooms = [_ground(request, one) for one in pieces]
    tree = shapely.STRtree([room.buffer(request.gutter_mm + 1.0, quad_segs=1) for room in rooms])
    for index, room in enumerate(rooms):
        for other in sorted(int(near) for near in tree.query(room)):
            if other <= index or (free and not (free[index] or free[other])):
                continue
            (one, round_one), (two, round_two) = trims[index], trims[other]
            apart = one.distance(two) - round_one - round_two
            if apart < least_mm or room.intersection(rooms[other]).area > _TOUCH_MM2:
                return index, other, max(float(apart), 0.0)
    return None


def _trim(request: LayRequest, one: Laid) -> tuple[Any, float]:
    """Return a trim where it lies, of a circle its middle, and the circle's radius, else 0."""
    import shapely

    shape = request.parts[one.part].shape
    if shape.kind == "circle":
        radius = shape.width_mm / 2.0
        return shapely.Point(one.x_mm + radius, one.y_mm + radius), radius
    return shapely.Polygon(trim_points(shape, one.turn_deg) + np.array([one.x_mm, one.y_mm])), 0.0


def _ground(request: LayRequest, one: Laid) -> Any:
    """Return bleed and label of a copy where they lie: its room without gutter, a hair less."""
    import shapely

    part, half = request.parts[one.part], request.gutter_mm / 2.0
    sides = [max(bleed, clear - half) for bleed, clear in zip(part.bleed_mm, part.clear_mm, strict=True)]
    lying = lying_at(replace(part, clear_mm=(sides[0], sides[1], sides[2], sides[3])), 0.0, one.turn_deg)
    if lying.radius:
        middle = shapely.Point(one.x_mm + lying.size[0] / 2.0, one.y_mm + lying.size[1] / 2.0)
        return middle.buffer(lying.radius - _HAIR_MM)
    room = shapely.Polygon(lying.room + np.array([one.x_mm, one.y_mm]))
    return room.buffer(-_HAIR_MM, join_style="mitre")


def off_area_mm(request: LayRequest, stock: int, one: Laid) -> float:
    """Return how far a piece's ink reaches beyond what can be printed on a paper; negative when all lies within."""
    paper = request.stocks[stock]
    left, bottom, right, top = paper.margins_mm
    ink = lying_at(request.parts[one.part], request.gutter_mm, one.turn_deg).ink
    height = math.inf if paper.height_mm is None else paper.height_mm
    low = max(left - one.x_mm - ink[0], bottom - one.y_mm - ink[1])
    return max(low, one.x_mm + ink[2] + right - paper.width_mm, one.y_mm + ink[3] + top - height)


class _Names:
    """Which copy of which part comes next: an order that has begun goes on, and stays on its sheet."""

    def __init__(self, request: LayRequest, kinds: Sequence[Kind]) -> None:
        self._request, self._kinds = request, kinds
        pinned = {(pin.part, pin.copy) for pin in request.pins}
        self._left = {
            index: [copy for copy in range(part.copies) if (index, copy) not in pinned]
            for index, part in enumerate(request.parts)
        }
        self._begun: set[str] = {request.parts[pin.part].order for pin in request.pins}
        self.here: Counter[str] = Counter()

    def next(self, kind: int) -> tuple[int, int]:
        """Return part and copy."""
        orders = {index: self._request.parts[index].order for index in self._kinds[kind].parts if self._left[index]}
        part = min(orders, key=lambda at: (not self.here[orders[at]], orders[at] not in self._begun, at))
        self.here[orders[part]] += 1
        self._begun.add(orders[part])
        return part, self._left[part].pop(0)


def _sheet(request: LayRequest, kinds: Sequence[Kind], one: Filled, names: _Names) -> LaidSheet:
    stock = request.stocks[one.stock]
    names.here = Counter(request.parts[pin.part].order for pin in one.pins)
    pieces = [Laid(pin.part, pin.copy, pin.x_mm, pin.y_mm, pin.turn_deg) for pin in one.pins]
    for down in one.down:
        part, copy = names.next(down.kind)
        x, y = _on_page(request, stock, part, down, exact=one.exact)
        pieces.append(Laid(part, copy, x, y, down.turn))
    height = stock.height_mm or _length(request, stock, pieces)
    return LaidSheet(one.stock, stock.width_mm, height, tuple(pieces), None, _rest(request, stock, pieces))


def _on_page(request: LayRequest, stock: Stock, part: int, down: Down, *, exact: bool) -> tuple[float, float]:
    """Return the corner of a trim's box on the page, its clear room's corner in whole steps where it can be."""
    if exact:
        return down.x + stock.margins_mm[0], down.y + stock.margins_mm[1]
    clear = turned_box(request.parts[part].clear_mm, down.turn)
    ink = lying_at(request.parts[part], request.gutter_mm, down.turn).ink
    found = []
    for axis, at in enumerate((down.x, down.y)):
        low, size = stock.margins_mm[axis], (stock.width_mm, stock.height_mm)[axis]
        high = math.inf if size is None else size - stock.margins_mm[axis + 2]
        found.append(_whole(low + at, clear[axis], request.step_mm[axis], (low - ink[axis], high - ink[axis + 2])))
    return found[0], found[1]


def _whole(at: float, clear: float, step: float, between: tuple[float, float]) -> float:
    """Return the nearest place within limits at which a clear room begins on a whole step, or the place itself."""
    steps = round((at - clear) / step)
    for one in (steps, steps + 1, steps - 1):
        place = one * step + clear
        if between[0] - _NEAR_MM <= place <= between[1] + _NEAR_MM:
            return place
    return at


def _length(request: LayRequest, stock: Stock, pieces: Sequence[Laid]) -> float:
    """Return the length of a roll that is used, in whole mm."""
    tops = [one.y_mm + lying_at(request.parts[one.part], request.gutter_mm, one.turn_deg).ink[3] for one in pieces]
    return float(max(1, math.ceil(max(tops, default=0.0) + stock.margins_mm[3] - _NEAR_MM)))


def _rest(request: LayRequest, stock: Stock, pieces: Sequence[Laid]) -> Box | None:
    """Return the largest strip along a whole side of a sheet that nothing reaches into, or None."""
    if stock.height_mm is None or not pieces:
        return None
    boxes = []
    for one in pieces:
        left, bottom, right, top = lying_at(request.parts[one.part], request.gutter_mm, one.turn_deg).bounds
        boxes.append((one.x_mm + left, one.y_mm + bottom, one.x_mm + right, one.y_mm + top))
    left, bottom, right, top = (
        pick(side) for pick, side in zip((min, min, max, max), zip(*boxes, strict=True), strict=True)
    )
    width, height = stock.width_mm, stock.height_mm
    strips = [
        (right, 0.0, width, height),
        (0.0, top, width, height),
        (0.0, 0.0, left, height),
        (0.0, 0.0, width, bottom),
    ]
    kept = [one for one in strips if min(one[2] - one[0], one[3] - one[1]) >= LEAST_REST_MM]
    return max(kept, key=lambda one: (one[2] - one[0]) * (one[3] - one[1]), default=None)
