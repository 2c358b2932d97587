"""A blank in a few figures, for lists."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.units import length_mm


@dataclass(frozen=True)
class BlankFigures:
    """The figures by which one knows a blank.

    Attributes:
        shape: straight, tapered, bulging or shaped, with "with handle" where there is one.
        top_mm, bottom_mm: girths; the same on a straight one; 0 when they cannot be read.
        wall_mm: height along the wall, 0 when it was not measured as such.
    """

    shape: str
    top_mm: float = 0.0
    bottom_mm: float = 0.0
    wall_mm: float = 0.0


SHAPES = {"straight": "straight", "tapered": "tapered", "profile": "bulging"}


def figures_of(table: Mapping[str, Any]) -> BlankFigures:
    """Return the figures of a blank's readings; what cannot be read is left at 0."""
    kind = str(table.get("kind", "")).casefold()
    shape = SHAPES.get(kind, "unknown shape") + (" with handle" if table.get("handle") else "")
    if kind == "profile":
        return _of_profile(shape, table.get("readings"))
    bottom, top = _round(table, ""), _round(table, "")
    if kind == "tapered":
        bottom, top = _round(table, "_bottom"), _round(table, "_top")
    return BlankFigures(shape, top, bottom, _wall(table, bottom, top))


def _round(table: Mapping[str, Any], end: str) -> float:
    """Return a girth, from whichever way it was measured."""
    for key, factor in (("girth", 1.0), ("flat", 1.0), ("diameter", math.pi)):
        if f"{key}{end}" in table:
            return _mm(table[f"{key}{end}"]) * factor
    return 0.0


def _wall(table: Mapping[str, Any], bottom: float, top: float) -> float:
    if "wall" in table or "height" not in table:
        return _mm(table.get("wall", 0))
    return math.hypot(_mm(table["height"]), (top - bottom) / math.tau)


def _of_profile(shape: str, readings: object) -> BlankFigures:
    try:
        pairs = sorted((_mm(at), _mm(girth)) for at, girth in readings)  # type: ignore[attr-defined]
    except (TypeError, ValueError):
        return BlankFigures(shape)
    if not pairs:
        return BlankFigures(shape)
    return BlankFigures(shape, pairs[-1][1], pairs[0][1], pairs[-1][0] - pairs[0][0])


def _mm(value: object) -> float:
    try:
        return length_mm(value) if isinstance(value, str | int | float) and not isinstance(value, bool) else 0.0
    except WrapwrightError:
        return 0.0
