"""A code: its dark modules as one outline, rigid, with its quiet zone left free."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.design.drawlist import Extent, PlacedOutline
from wrapwright.core.design.elements import Code
from wrapwright.core.design.fields import field_names
from wrapwright.core.design.kinds.ground import Ground, Layer, box_of, over_laps, placed, stacked, supplied
from wrapwright.core.design.path import Path, joined, polygon
from wrapwright.core.design.supplies import CodeModules
from wrapwright.core.design.warp import bent

QUIET_MODULES = 4  # each side; ISO/IEC 18004


def lay_code(index: int, element: Code, ground: Ground) -> Layer:
    """Return a code's items and extents, copy by copy; it is never bent, so that its modules stay square."""
    code = supplied(ground, index, CodeModules, element)
    module = element.width_mm / (len(code.dark) + 2 * QUIET_MODULES)
    dark = dark_outline(code.dark, module)
    return stacked([_copy(index, copy, element, dark, ground) for copy in range(len(element.at_deg))])


def dark_outline(dark: NDArray[np.bool_], module_mm: float) -> Path:
    """Return the outline of the dark modules round the symbol's centre, dark on the left hand of its direction.

    Neighbouring modules share no edge of it, so that no renderer shows a hairline between them.
    """
    size = len(dark)
    half = size / 2.0
    loops = _loops(np.pad(dark, 1))
    return joined(
        polygon([((col - half) * module_mm, (half - row) * module_mm) for row, col in loop]) for loop in loops
    )


def _loops(padded: NDArray[np.bool_]) -> list[list[tuple[int, int]]]:
    """Return the borders between dark and light as closed loops of (row, column) corners, straight runs merged."""
    steps: dict[tuple[int, int], list[tuple[int, int]]] = {}
    # A corner (r, c) is the upper left one of module (r, c); each side of a dark module next to a light one is a step.
    sides = (((-1, 0), (0, 1), (0, 0)), ((0, -1), (0, 0), (1, 0)), ((1, 0), (1, 0), (1, 1)), ((0, 1), (1, 1), (0, 1)))
    for row, col in np.argwhere(padded).tolist():
        for (down, right), start, end in sides:
            if not padded[row + down, col + right]:
                first = (row - 1 + start[0], col - 1 + start[1])
                steps.setdefault(first, []).append((row - 1 + end[0], col - 1 + end[1]))
    loops = []
    while steps:
        start = min(steps)
        loop, here, came = [start], start, (0, 0)
        while True:
            ahead = steps[here]
            nxt = ahead[0] if len(ahead) == 1 else min(ahead, key=lambda to: _bend(came, here, to))
            ahead.remove(nxt)
            if not ahead:
                del steps[here]
            came, here = (nxt[0] - here[0], nxt[1] - here[1]), nxt
            if here == start:
                break
            loop.append(here)
        loops.append(_corners(loop))
    return loops


def _bend(came: tuple[int, int], here: tuple[int, int], to: tuple[int, int]) -> int:
    """Return the order of two ways on from a corner where four meet: keep to the module one came along."""
    go = (to[0] - here[0], to[1] - here[1])
    return came[0] * go[1] - came[1] * go[0]


def _corners(loop: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return a loop without the corners at which it goes straight on."""
    around = zip(loop[-1:] + loop[:-1], loop, loop[1:] + loop[:1], strict=True)
    return [
        here
        for before, here, after in around
        if (here[0] - before[0]) * (after[1] - here[1]) != (here[1] - before[1]) * (after[0] - here[0])
    ]


def _copy(index: int, copy: int, element: Code, dark: Path, ground: Ground) -> Layer:
    at = element.at_deg[copy]
    placement = placed(ground, element, at, "true", element.turn_deg)
    ink = bent(dark, placement)
    border = bent(box_of(element.width_mm, element.width_mm), placement)
    item = PlacedOutline(
        element=index,
        copy=copy,
        opacity=element.opacity,
        fields=field_names(element.text, where=element.name),
        path=ink,
        colour=rgb_of(element.colour, where=element.name),
    )
    extent = Extent(
        element=index,
        copy=copy,
        at_deg=at % 360.0,
        across_mm=element.across_mm,
        up_mm=placement.up_mm,
        width_mm=element.width_mm,
        height_mm=element.width_mm,
        lay="true",
        outline=border,
        ink=ink,
    )
    return Layer(over_laps(ground, [item], border), (extent,))
