"""What is pinned stays: a sheet divided round the pinned copies by cuts from edge to edge, where that can be done."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.lay.filling import Spot
from wrapwright.core.sheet.lay.grid import Bin, Grid, room_of, turned_box
from wrapwright.core.sheet.lay.values import Laid, Pin

Rect = tuple[int, int, int, int]  # left, bottom, right, top in steps from the bin's corner
_HAIR = 1e-6


@dataclass(frozen=True)
class Pinned:
    """A sheet that holds pinned copies.

    Attributes:
        stock: its paper.
        laid: the pinned copies, where they were put.
        spot: the sheet divided round them; None when no cuts from edge to edge part them.
    """

    stock: int
    laid: tuple[Laid, ...]
    spot: Spot | None


def pinned_sheets(grid: Grid, names: int) -> list[Pinned]:
    """Return the sheets up to the last pinned one; those between are empty.

    Args:
        grid: the request.
        names: leaves that hold a pin have this number plus the pin's place on its sheet as their item.

    Raises:
        WrapwrightError: unusable, when two pinned copies overlap, one lies beyond the paper, or there is no such copy.
    """
    request = grid.request
    last = max((pin.sheet for pin in request.pins), default=-1)
    found = list[Pinned]()
    for number in range(last + 1):
        pins = [pin for pin in request.pins if pin.sheet == number]
        for pin in pins:
            _check(grid, pin)
        if not pins and not _to_spare(grid, found):
            found.append(Pinned(0, (), None))
            continue
        stock, rects = _stock_for(grid, pins, number, found)
        one = grid.bins[stock]
        for at, rect in enumerate(rects):
            for other in range(at):
                if _overlap(rect, rects[other]):
                    raise unusable(
                        f"two pinned pieces overlap on sheet {number + 1}: {_called(grid, pins[other])} and "
                        f"{_called(grid, pins[at])}.",
                        remedy="Move one of them.",
                        where=f"sheet {number + 1}",
                    )
        spot = _divided(Spot(0, 0, one.width, one.height), [(rect, names + at) for at, rect in enumerate(rects)])
        found.append(Pinned(stock, tuple(_laid(pin) for pin in pins), spot))
    return found


def _check(grid: Grid, pin: Pin) -> None:
    parts = grid.request.parts
    if not (0 <= pin.part < len(parts) and 0 <= pin.copy < parts[pin.part].copies):
        raise unusable("a pin is for a piece that is not there.", remedy="Take the pin out.", where="pins")
    pieces = sum(part.copies for part in parts)
    if pin.sheet >= pieces:
        message = f"{_called(grid, pin)} is pinned on sheet {pin.sheet + 1}, and there are {pieces} pieces in all."
        raise unusable(message, remedy="Move it to an earlier sheet.", where="pins")
    if pin.turn_deg not in parts[pin.part].turns:
        turns = ", ".join(str(turn) for turn in parts[pin.part].turns)
        message = f"{_called(grid, pin)} is pinned at a turn of {pin.turn_deg} degrees; allowed are {turns}."
        raise unusable(message, remedy="Turn it.", where="pins")


def _laid(pin: Pin) -> Laid:
    return Laid(pin.part, pin.copy, pin.x_mm, pin.y_mm, pin.turn_deg)


def _called(grid: Grid, pin: Pin) -> str:
    name = grid.request.parts[pin.part].name or f"part {pin.part + 1}"
    return f"{name}, copy {pin.copy + 1}"


def _in_stock(grid: Grid, stock: int, before: Sequence[Pinned]) -> bool:
    """Return whether there is one more sheet of a stock after those with pins before it."""
    at_hand = grid.request.stocks[stock].at_hand
    return at_hand is None or sum(one.stock == stock and bool(one.laid) for one in before) < at_hand


def _to_spare(grid: Grid, before: Sequence[Pinned]) -> bool:
    """Return whether there is a sheet of the first stock that no pin may need."""
    at_hand = grid.request.stocks[0].at_hand
    empty = sum(one.spot is not None and not one.laid for one in before)
    return at_hand is None or empty + len({pin.sheet for pin in grid.request.pins}) < at_hand


def _stock_for(grid: Grid, pins: Sequence[Pin], number: int, before: Sequence[Pinned]) -> tuple[int, list[Rect]]:
    """Return the first stock on which all pins of a sheet lie and of which there is one, and their rectangles there."""
    over = False
    for stock, one in enumerate(grid.bins):
        if grid.request.stocks[stock].height_mm is None and pins and len(grid.bins) > 1:
            continue
        rects = [_rect(grid, pin, one) for pin in pins]
        if all(left >= 0 and low >= 0 and right <= one.width and top <= one.height for left, low, right, top in rects):
            if _in_stock(grid, stock, before):
                return stock, rects
            over = True
    if over:
        raise unusable(
            f"the sheets at hand are too few for what is pinned on sheet {number + 1}.",
            remedy="Take pins out, or give more sheets.",
            where=f"sheet {number + 1}",
        )
    names = ", ".join(_called(grid, pin) for pin in pins)
    raise unusable(
        f"what is pinned on sheet {number + 1} reaches beyond what can be printed: {names}.",
        remedy="Move it inwards.",
        where=f"sheet {number + 1}",
    )


def _rect(grid: Grid, pin: Pin, one: Bin) -> Rect:
    """Return a pin's trim with its clear room, in whole steps round it."""
    part, (across, along) = grid.request.parts[pin.part], grid.request.step_mm
    left, bottom, _, _ = turned_box(part.clear_mm, pin.turn_deg)
    wide, high = room_of(part, pin.turn_deg)
    x, y = (pin.x_mm - left) / across - one.x, (pin.y_mm - bottom) / along - one.y
    return (
        math.floor(x + _HAIR),
        math.floor(y + _HAIR),
        math.ceil(x + wide / across - _HAIR),
        math.ceil(y + high / along - _HAIR),
    )


def _overlap(one: Rect, other: Rect) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _divided(spot: Spot, held: list[tuple[Rect, int]]) -> Spot | None:
    """Return the rectangle divided so that each pinned one has a leaf of its own; None when no cuts do that."""
    if not held:
        return spot
    if len(held) == 1 and held[0][0] == (spot.x, spot.y, spot.x + spot.width, spot.y + spot.height):
        spot.item = held[0][1]
        return spot
    for along, at in _cuts(spot, held):
        axis = 0 if along == "x" else 1
        start = (spot.x, spot.y)[axis]
        low = [one for one in held if one[0][axis + 2] <= start + at]
        high = [one for one in held if one[0][axis] >= start + at]
        first, second = spot.divide(along, at)
        if _divided(first, low) is not None and _divided(second, high) is not None:
            return spot
        spot.along, spot.children = "", []
    return None


def _cuts(spot: Spot, held: list[tuple[Rect, int]]) -> list[tuple[Literal["x", "y"], int]]:
    """Return the cuts along edges of what is held that go through none of it, the one that frees most first."""
    found: list[tuple[int, Literal["x", "y"], int]] = []
    for axis, along in ((0, "x"), (1, "y")):
        start, size, across = (spot.x, spot.width, spot.height) if axis == 0 else (spot.y, spot.height, spot.width)
        for edge in sorted({rect[side] for rect, _ in held for side in (axis, axis + 2)}):
            at = edge - start
            if not 0 < at < size or any(rect[axis] < edge < rect[axis + 2] for rect, _ in held):
                continue
            low = sum(rect[axis + 2] <= edge for rect, _ in held)
            free = at * across if low == 0 else (size - at) * across if low == len(held) else 0
            found.append((-free, "x" if along == "x" else "y", at))
    return [(along, at) for _, along, at in sorted(found)]
