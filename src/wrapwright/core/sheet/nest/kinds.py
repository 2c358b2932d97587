"""Parts that cover the same points are one kind: which of them lies where is decided at the end."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from wrapwright.core.base.rings import ring_area
from wrapwright.core.sheet.lay.values import Box, LayRequest, Part, Stock
from wrapwright.core.sheet.nest.outlines import RING_OFF_MM, Lying, alike, boxed, lying_at, lyings, trim_points

LONGEST_MM = 3000.0  # of one page of a roll; longer layings are parted into several pages
_SLIP_STEPS = 1.6  # how much two neighbours may be set nearer by moving both to whole steps

Area = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Kind:
    """Alike parts.

    Attributes:
        parts: their indices in the request.
        part: the first of them, as it is laid: clear room, bleed and label allow for a move to whole steps.
        lyings: its turns that differ.
        boxes: the same, as boxes.
        area: of the trim, square mm, a little less rather than more.
        gutter_mm: the gutter with which it is laid.
        slip_mm: how much of that gutter is for the move to whole steps; the ink of `lyings` and `boxes` is without it.
        bare: the first of them as it was asked for.
    """

    parts: tuple[int, ...]
    part: Part
    lyings: tuple[Lying, ...]
    boxes: tuple[Lying, ...]
    area: float
    gutter_mm: float
    slip_mm: float
    bare: Part

    @property
    def is_box(self) -> bool:
        """Return whether it is a rectangle."""
        return self.part.shape.kind == "rectangle"

    def at(self, turn: int) -> Lying:
        """Return it at one of its turns that differ."""
        return next(one for one in self.lyings if one.turn == turn)

    def like(self, turn: int) -> int:
        """Return the one of its turns at which it covers the same points as at any turn; that turn where none does."""
        if all(one.turn != turn for one in self.lyings):
            there = lying_at(self.part, self.gutter_mm, turn)
            there = replace(there, ink=lying_at(self.bare, self.gutter_mm - self.slip_mm, turn).ink)
            return next((one.turn for one in self.lyings if alike(one, there)), turn)
        return turn


def kinds_of(request: LayRequest) -> tuple[Kind, ...]:
    """Return the request's parts by kind, in the order of their first parts."""
    found: dict[object, list[int]] = {}
    for index, part in enumerate(request.parts):
        key = (part.shape, tuple(sorted(part.turns)), part.clear_mm, part.bleed_mm, part.label_mm)
        found.setdefault(key, []).append(index)
    slip = _SLIP_STEPS * max(request.step_mm)
    gutter = request.gutter_mm + slip
    return tuple(_kind(tuple(parts), request.parts[parts[0]], gutter, slip) for parts in found.values())


def _kind(parts: tuple[int, ...], part: Part, gutter: float, slip: float) -> Kind:
    shape = part.shape
    trim = tuple((float(x), float(y)) for x, y in trim_points(shape, 0))
    area = ring_area(trim)
    if shape.kind == "circle":
        area = math.pi * shape.width_mm**2 / 4.0
    elif shape.kind != "rectangle":
        edge = np.asarray(trim) - np.roll(np.asarray(trim), 1, axis=0)
        area -= RING_OFF_MM * float(np.hypot(edge[:, 0], edge[:, 1]).sum())
    roomy = _with_slip(part, slip / 2.0)
    turned = tuple(replace(one, ink=lying_at(part, gutter - slip, one.turn).ink) for one in lyings(roomy, gutter))
    boxes = tuple(replace(one, ink=_box_ink(part, gutter - slip, one.turn)) for one in boxed(roomy, gutter))
    return Kind(parts, roomy, turned, boxes, max(area, 1e-6), gutter, slip, part)


def _box_ink(part: Part, gutter: float, turn: int) -> Box:
    return boxed(replace(part, turns=(turn,)), gutter)[0].ink


def _with_slip(part: Part, by: float) -> Part:
    """Return a part whose ink keeps that much farther from everything else's."""
    left, bottom, right, top = part.clear_mm
    clear = (left + by, bottom + by, right + by, top + by)
    left, bottom, right, top = part.bleed_mm
    bleed = (left + by, bottom + by, right + by, top + by)
    label = None if part.label_mm is None else _shrunk(part.label_mm, -by)
    return replace(part, clear_mm=clear, bleed_mm=bleed, label_mm=label)


def _shrunk(box: Box, by: float) -> Box:
    left, bottom, right, top = box
    return (left + by, bottom + by, right - by, top - by)


def area_of(stock: Stock) -> Area:
    """Return width and height in mm of what can be printed on a sheet, or on the longest page of a roll."""
    left, bottom, right, top = stock.margins_mm
    height = LONGEST_MM if stock.height_mm is None else stock.height_mm
    return (max(stock.width_mm - left - right, 0.0), max(height - bottom - top, 0.0))


def fits(kind: Kind, area: Area) -> bool:
    """Return whether one copy can be printed on an area at some turn."""
    return any(goes(one, area) for one in kind.lyings)


def goes(one: Lying, area: Area) -> bool:
    """Return whether a part at one turn can be printed on an area."""
    left, bottom, right, top = one.ink
    return right - left <= area[0] + 1e-6 and top - bottom <= area[1] + 1e-6
