"""A job's transfer as a part to be laid: its trim, its clear room and the place of its label."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline, trim_outline
from wrapwright.core.sheet.lay.printed.labels import Need
from wrapwright.core.sheet.lay.printed.values import Array, Level
from wrapwright.core.sheet.lay.shapes import shape_of
from wrapwright.core.sheet.lay.values import SIDES, Box, Part, Shape
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.room import exact_box

CLEAR_MM = 3.0  # of marks and words from the trim
_PAST_BLEED_MM = 1.0
_STEP_MM = 0.5  # between points by which distances are measured
_LEFT, _BOTTOM, _RIGHT, _TOP = range(4)


@dataclass(frozen=True)
class Asked:
    """What is asked of a job's pieces on the sheets.

    Attributes:
        copies: how many.
        turns: the quarter turns allowed.
        gutter_mm: least distance of two trims.
        order: the order they belong to.
        name: what the cut list calls them.
        folded: whether paper stands over and is folded at the rim and at the base.
        first: the piece number of the first copy.
    """

    copies: int
    turns: tuple[int, ...] = (0, 90, 180, 270)
    gutter_mm: float = 3.0
    order: str = ""
    name: str = ""
    folded: tuple[bool, bool] = (False, False)
    first: int = 1


def clear_of_trim(bleed_mm: float) -> float:
    """Return how far marks and words keep from a trim with this bleed."""
    return max(CLEAR_MM, bleed_mm + _PAST_BLEED_MM)


def parts_of(wrap: FlatWrap, bleed_mm: float, asked: Asked, labels: Sequence[Need]) -> Iterator[tuple[Part, Level]]:
    """Yield the part with how much its label says, the best liked first: with less and less label, and last with none.

    The label stands in a corner of the trim's box where a curved trim leaves one free, else in a strip along a side:
    of a wrap the end that is laid first, of a flat blank a shorter side that is long enough.

    Args:
        wrap: the flat wrap, or a flat blank's.
        bleed_mm: art beyond the trim.
        asked: copies, turns, gutter and names.
        labels: what a label needs, the fullest first; empty for none.
    """
    shape, bleed = shape_of(wrap), bleed_sides(wrap, bleed_mm)
    clear = [max(side, asked.gutter_mm / 2.0) for side in bleed]
    part = Part(
        shape=shape,
        copies=asked.copies,
        turns=asked.turns,
        clear_mm=_sides(clear),
        bleed_mm=bleed,
        true=_true(shape, asked),
        order=asked.order,
        name=asked.name,
        first=asked.first,
    )
    apart = clear_of_trim(bleed_mm)
    for need in labels:
        spot = _corner(shape, need, apart)
        if spot is not None:
            yield replace(part, label_mm=spot), need.level
        for side in _order_of_sides(shape, need, wrapped=wrap.plate is None):
            room = list(clear)
            room[side] = max(room[side], apart + need.depth_mm + asked.gutter_mm / 2.0)
            strip = _strip(shape, side, min(need.most_mm, _length(shape, side)), need, apart)
            yield replace(part, clear_mm=_sides(room), label_mm=strip), need.level
    yield part, ""


def bleed_sides(wrap: FlatWrap, bleed_mm: float) -> Box:
    """Return how far the bleed reaches beyond the box of the trim as printed: left, bottom, right, top."""
    to_print = mirrored(0)
    trim = exact_box(trim_outline(wrap).times(to_print))
    bleed = exact_box(bleed_outline(wrap, bleed_mm).times(to_print))
    return (
        max(0.0, trim[0] - bleed[0]),
        max(0.0, trim[1] - bleed[1]),
        max(0.0, bleed[2] - trim[2]),
        max(0.0, bleed[3] - trim[3]),
    )


def _true(shape: Shape, asked: Asked) -> frozenset[str]:
    """Return the sides that are cut to the finished trim: a rectangle's, but for edges that are folded."""
    if shape.kind != "rectangle":
        return frozenset()
    rim, base = asked.folded
    return frozenset(side for side in SIDES if not ((side == "top" and rim) or (side == "bottom" and base)))


def _length(shape: Shape, side: int) -> float:
    return shape.height_mm if side in (_LEFT, _RIGHT) else shape.width_mm


def _order_of_sides(shape: Shape, need: Need, *, wrapped: bool) -> list[int]:
    """Return the sides long enough for the label, best liked first.

    Mirrored, the end that is laid first lies to the right.
    """
    shorter = [_RIGHT, _TOP] if shape.height_mm <= shape.width_mm else [_TOP, _RIGHT]
    order = [_RIGHT, _TOP] if wrapped else shorter
    return [side for side in order if _length(shape, side) >= need.least_mm]


def _strip(shape: Shape, side: int, length: float, need: Need, apart: float) -> Box:
    if side == _RIGHT:
        left = shape.width_mm + apart
        return (left, 0.0, left + need.depth_mm, length)
    bottom = shape.height_mm + apart
    return (0.0, bottom, length, bottom + need.depth_mm)


def _corner(shape: Shape, need: Need, apart: float) -> Box | None:
    """Return a free corner of the box of a curved trim that holds a label, as long a one as goes in; or None."""
    if shape.kind == "rectangle":
        return None
    ring = _points(np.array(shape.ring))
    best: tuple[float, Box] | None = None
    for upright in (False, True):
        for right in (True, False):
            for top in (False, True):
                for length in np.arange(need.most_mm, need.least_mm - 1e-9, -_STEP_MM):
                    box = _in_corner(shape, (length, need.depth_mm)[:: -1 if upright else 1], right=right, top=top)
                    if box is not None and _apart(box, ring) >= apart:
                        best = max(best or (0.0, box), (float(length), box), key=lambda one: one[0])
                        break
    return None if best is None else best[1]


def _in_corner(shape: Shape, size: tuple[float, ...], *, right: bool, top: bool) -> Box | None:
    x, y = (shape.width_mm - size[0] if right else 0.0), (shape.height_mm - size[1] if top else 0.0)
    if min(size[0], size[1]) <= 0.0 or size[0] > shape.width_mm or size[1] > shape.height_mm:
        return None
    return (x, y, x + size[0], y + size[1])


def _apart(box: Box, ring: Array) -> float:
    """Return the least distance of the outline's points from a box that does not cross it; 0 where one lies in it."""
    beside = np.maximum(0.0, np.maximum(box[0] - ring[:, 0], ring[:, 0] - box[2]))
    above = np.maximum(0.0, np.maximum(box[1] - ring[:, 1], ring[:, 1] - box[3]))
    return float(np.hypot(beside, above).min())


def _points(ring: Array) -> Array:
    """Return points along a closed outline, at most a step apart."""
    found = []
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        count = max(1, int(np.ceil(np.linalg.norm(end - start) / _STEP_MM)))
        found.append(start + (end - start) * (np.arange(count) / count)[:, None])
    return np.concatenate(found)


def _sides(values: list[float]) -> Box:
    return (values[0], values[1], values[2], values[3])
