"""The most copies of one part on one area: columns or rows, upright or turned, and a second block in what is left."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wrapwright.core.base.rings import ring_area
from wrapwright.core.sheet.lay.values import Part, Shape
from wrapwright.core.sheet.nest.alike.columns import Columns, fronts
from wrapwright.core.sheet.nest.outlines import RING_OFF_MM, Lying, boxed, lyings, trim_points
from wrapwright.core.sheet.nest.values import Spot

_LAST = 3  # how many of the widest blocks get a second block beside them
Area = tuple[float, float]


@dataclass(frozen=True)
class Block:
    """Copies on an area.

    Attributes:
        spots: where they lie.
        used_mm: width and height that they use, from the area's lower left corner.
    """

    spots: tuple[Spot, ...]
    used_mm: tuple[float, float]

    @property
    def count(self) -> int:
        """Return how many copies there are."""
        return len(self.spots)


def best_sector_layout(
    shape: Shape, area: Area, gutter_mm: float, copies: int, *, turns: tuple[int, ...] = (0, 90, 180, 270)
) -> tuple[Spot, ...]:
    """Return places for as many of the copies as are found to go on an area, no two trims nearer than the gutter.

    Args:
        shape: a sector; circles and outlines are laid by the same rules.
        area: width and height in mm of what may be printed.
        gutter_mm: least distance between two trims.
        copies: how many are wanted; fewer than fit lie together at the left or at the bottom.
        turns: the quarter turns allowed.
    """
    return best_block(Part(shape, max(copies, 1), turns), area, gutter_mm, copies).spots


def best_block(part: Part, area: Area, gutter_mm: float, copies: int) -> Block:
    """Return the block with the most copies, up to those wanted; among equals the one that uses least of the area."""
    drawn, boxes = lyings(part, gutter_mm), boxed(part, gutter_mm)
    most = min(copies, room_for(part, area))
    best = Block((), (0.0, 0.0))
    for set_of in (boxes,) if part.shape.kind == "rectangle" else (drawn, boxes):
        families = _families(set_of)
        for block in _blocks(families, area, most):
            best = _better(best, block, most)
    return Block(best.spots[:most], best.used_mm)


def room_for(part: Part, area: Area) -> int:
    """Return a number of copies that cannot be passed on an area, by their areas alone."""
    shape = part.shape
    trim = tuple((float(x), float(y)) for x, y in trim_points(shape, 0))
    inside = ring_area(trim) - RING_OFF_MM * 2.0 * (shape.width_mm + shape.height_mm)
    return int(area[0] * area[1] / max(inside, 1e-9)) + 1


def _families(set_of: Sequence[Lying]) -> list[tuple[Sequence[Lying], bool]]:
    """Return the pairs of turns that columns are made of, each for columns and for rows (swapped)."""
    pairs = [pair for first in (0, 90) if (pair := [one for one in set_of if one.turn % 180 == first])]
    return [(pair, swapped) for pair in pairs for swapped in (False, True)]


def _blocks(families: Sequence[tuple[Sequence[Lying], bool]], area: Area, most: int) -> Iterable[Block]:
    for pair, swapped in families:
        rows = _front(pair, area, most, swapped=swapped)
        for one in rows:
            yield _block(one, area, swapped=swapped)
        for one in rows[-_LAST:]:
            if one.count < most:
                yield from _with_second(one, families, area, most, swapped=swapped)


def _front(pair: Sequence[Lying], area: Area, most: int, *, swapped: bool) -> list[Columns]:
    if swapped:
        return fronts([one.swapped() for one in pair], (area[1], area[0]), most=most)
    return fronts(pair, area, most=most)


def _with_second(
    one: Columns, families: Sequence[tuple[Sequence[Lying], bool]], area: Area, most: int, *, swapped: bool
) -> Iterable[Block]:
    """Return a block with the best of each family in the strip that is left beside it."""
    first = _block(one, area, swapped=swapped)
    for pair, other in families:
        over = max(lying.ink[int(swapped)] - lying.bounds[int(swapped)] for lying in pair)
        start = one.reach_mm + over
        left = (area[0], area[1] - start) if swapped else (area[0] - start, area[1])
        if min(left) <= 0.0:
            continue
        more = _front(pair, left, most - one.count, swapped=other)
        if more:
            shift = (0.0, start) if swapped else (start, 0.0)
            yield _both(first, _block(more[-1], left, swapped=other), shift, area)


def _block(columns: Columns, area: Area, *, swapped: bool) -> Block:
    if not swapped:
        return Block(columns.spots, (columns.width_mm, area[1]))
    spots = tuple(Spot(one.y_mm, one.x_mm, one.turn_deg) for one in columns.spots)
    return Block(spots, (area[0], columns.width_mm))


def _both(first: Block, second: Block, shift: tuple[float, float], area: Area) -> Block:
    moved = tuple(Spot(one.x_mm + shift[0], one.y_mm + shift[1], one.turn_deg) for one in second.spots)
    return Block((*first.spots, *moved), area)


def _better(best: Block, block: Block, most: int) -> Block:
    def worth(one: Block) -> tuple[int, float]:
        return min(one.count, most), -one.used_mm[0] * one.used_mm[1]

    return block if worth(block) > worth(best) else best
