"""A cut list carried out on rectangles, stroke by stroke: what lies on the table before and after each one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.cut.values import CutList, Layer, Stroke
from wrapwright.core.sheet.lay.values import Box

_FINE_MM = 0.05  # like blocks may differ by a pixel's rounding


@dataclass(frozen=True)
class Rectangle:
    """A rectangle of paper: the sheet it comes from and where it lay on it (page mm)."""

    sheet: int
    box: Box


@dataclass(frozen=True)
class State:
    """What there is after a stroke: every rectangle, those just cut and those just made."""

    stroke: Stroke
    cut: tuple[Rectangle, ...]
    made: tuple[Rectangle, ...]
    table: frozenset[Rectangle]


def replay(cuts: CutList) -> frozenset[Rectangle]:
    """Return the rectangles that are left when every stroke is done: pieces and waste.

    Raises:
        WrapwrightError: fault, when a stroke cuts what is not there, or its layers are not alike.
    """
    table = whole_sheets(cuts)
    for state in states(cuts):
        table = state.table
    return table


def whole_sheets(cuts: CutList) -> frozenset[Rectangle]:
    """Return the sheets before the first stroke."""
    return frozenset(Rectangle(i, (0.0, 0.0, width, height)) for i, (width, height) in enumerate(cuts.sheets))


def states(cuts: CutList) -> Iterator[State]:
    """Return what there is after each stroke, in turn; errors as for `replay`."""
    table = set(whole_sheets(cuts))
    for stroke in cuts.strokes:
        cut, made = [], list[Rectangle]()
        for layer in stroke.layers:
            whole = _taken(table, layer, stroke)
            table.remove(whole)
            cut.append(whole)
            made += _halves(whole, layer, stroke)
        seen = [_seen(layer, stroke) for layer in stroke.layers]
        if any(abs(a - b) > _FINE_MM for one in seen for a, b in zip(one, seen[0], strict=True)):
            raise _wrong(stroke, "has layers that are not cut alike")
        table.update(made)
        yield State(stroke, tuple(cut), tuple(made), frozenset(table))


def _taken(table: set[Rectangle], layer: Layer, stroke: Stroke) -> Rectangle:
    asked = Rectangle(layer.sheet, layer.box)
    if asked in table:
        return asked
    near = [one for one in table if one.sheet == layer.sheet and _same(one.box, layer.box)]
    if not near:
        raise _wrong(stroke, "cuts a rectangle that is not there")
    return near[0]


def _same(one: Box, other: Box) -> bool:
    return all(abs(a - b) < 1e-3 for a, b in zip(one, other, strict=True))


def _halves(whole: Rectangle, layer: Layer, stroke: Stroke) -> list[Rectangle]:
    left, bottom, right, top = whole.box
    at = layer.at_mm
    upright = layer.edge in ("left", "right")
    if not (left if upright else bottom) < at < (right if upright else top):
        raise _wrong(stroke, "does not meet its rectangle")
    if upright:
        boxes = [(left, bottom, at, top), (at, bottom, right, top)]
    else:
        boxes = [(left, bottom, right, at), (left, at, right, top)]
    return [Rectangle(whole.sheet, box) for box in boxes]


def _seen(layer: Layer, stroke: Stroke) -> tuple[float, float, float]:
    """Return what the trimmer sees of a layer: its width from the fence, its length, and where the blade comes down.

    Raises:
        WrapwrightError: when the fence is not where the stroke says.
    """
    left, bottom, right, top = layer.box
    edge = {"left": left, "bottom": bottom, "right": right, "top": top}[layer.edge]
    across, along = right - left, top - bottom
    if layer.edge in ("bottom", "top"):
        across, along = along, across
    from_fence = abs(layer.at_mm - edge)
    if stroke.fence_mm is not None and abs(from_fence - stroke.fence_mm) > _FINE_MM:
        raise _wrong(stroke, "has its fence elsewhere than its line")
    return across, along, from_fence


def _wrong(stroke: Stroke, what: str) -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, f"Stroke {stroke.number} of the cut list {what}.")
