"""What of a design is each piece's own: the elements that a row of the list changes, and how they stand to the rest."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedOutline
from wrapwright.core.design.layers import Box, item_box, overlap, split, stays_outline
from wrapwright.core.design.path import windings
from wrapwright.core.sheet.room import sampled

_STEP_MM = 1.0


@dataclass(frozen=True, eq=False)
class Stand:
    """How the shared items stand: which become pixels, and in which runs the outlines above are drawn.

    Attributes:
        draw_list: the shared items alone.
        raster: indices of those that become pixels.
        runs: the outlines in runs, bottom to top: between two runs stand items of the pieces' own.
        slots: by own element, after which run its outlines stand, from 0.
        boxes: (element, box) of the shared raster items.
        vectors: (element, box) of the shared outlines.
    """

    draw_list: DrawList
    raster: tuple[int, ...]
    runs: tuple[tuple[PlacedOutline, ...], ...]
    slots: dict[int, int]
    boxes: tuple[tuple[int, Box], ...]
    vectors: tuple[tuple[int, Box], ...]


def stand_of(draw_list: DrawList, own: Collection[int]) -> Stand:
    """Return how the shared items of a draw list stand; `own` are the elements whose items are left out."""
    shared = replace(draw_list, items=tuple(item for item in draw_list.items if item.element not in own))
    raster, vector = split(shared)
    outlines = [item for item in (shared.items[index] for index in vector) if isinstance(item, PlacedOutline)]
    under = {element: sum(item.element < element for item in outlines) for element in own}
    cuts = sorted(set(under.values()))
    edges = [0, *cuts, len(outlines)]
    runs = tuple(tuple(outlines[first:last]) for first, last in pairwise(edges))
    return Stand(
        shared,
        raster,
        runs,
        {element: cuts.index(count) for element, count in under.items()},
        tuple((shared.items[index].element, item_box(shared, shared.items[index])) for index in raster),
        tuple((item.element, item_box(shared, item)) for item in outlines),
    )


@dataclass(frozen=True, eq=False)
class Split:
    """How a piece's own items are drawn.

    Attributes:
        runs: its outlines, one tuple a slot of the stand.
        patches: boxes in flat mm within which all that is raster is drawn anew over the shared pixels.
        alone: whether nothing shared can be used: the piece is drawn by itself.
    """

    runs: tuple[tuple[PlacedOutline, ...], ...]
    patches: tuple[Box, ...] = ()
    alone: bool = False


def split_own(stand: Stand, items: Sequence[AnyItem]) -> Split:
    """Return how the own items of a piece are drawn, so that it looks as if all had been drawn together.

    Outlines stay outlines unless something that is pixels lies above them. What becomes pixels is drawn in patches;
    when such a patch would hide a shared outline that lies below it, the piece is drawn alone.
    """
    runs: list[list[PlacedOutline]] = [[] for _ in range(max(1, len(stand.runs) - 1))]
    covered = list(stand.boxes)
    patches: list[tuple[int, Box]] = []
    for item in reversed(items):
        box = item_box(stand.draw_list, item)
        above = any(element > item.element and overlap(box, other) for element, other in covered)
        among = any(overlap(box, other) for _element, other in patches)
        if stays_outline(item) and not above and not among and isinstance(item, PlacedOutline):
            runs[stand.slots[item.element]].append(item)
        else:
            patches.append((item.element, box))
            covered.append((item.element, box))
    hit = any(element < own and overlap(box, other) for own, box in patches for element, other in stand.vectors)
    own_runs = tuple(tuple(reversed(run)) for run in runs)
    return Split(own_runs, tuple(box for _, box in patches), alone=hit)


@dataclass(frozen=True, eq=False)
class Inside:
    """Tells quickly whether items surely lie within the bleed, so that they need not be clipped."""

    ring: np.ndarray[tuple[int, ...], np.dtype[np.float64]]

    @classmethod
    def of(cls, draw_list: DrawList) -> Inside:
        """Return it for a wrap with its bleed."""
        outline = bleed_outline(draw_list.wrap, draw_list.bleed_mm)
        return cls(np.concatenate(sampled(outline, _STEP_MM)))

    def holds(self, items: Sequence[PlacedOutline]) -> bool:
        """Return whether all items lie inside by at least a sampling step's sagitta; when in doubt, False."""
        return all(self.holds_box(item.path.box(), item.stroke_mm / 2.0) for item in items)

    def holds_box(self, inner: Box, grow: float = 0.0) -> bool:
        """Return whether a box grown so far lies inside, likewise."""
        left, bottom, right, top = inner
        more = grow + 0.05
        box = (left - more, bottom - more, right + more, top + more)
        x, y = self.ring[:, 0], self.ring[:, 1]
        near = (x > box[0] - _STEP_MM) & (x < box[2] + _STEP_MM) & (y > box[1] - _STEP_MM) & (y < box[3] + _STEP_MM)
        # With no border near, one corner inside is all of it inside.
        corner = np.array([(box[0], box[1])])
        return not bool(near.any()) and bool((windings(corner, self.ring) != 0).all())
