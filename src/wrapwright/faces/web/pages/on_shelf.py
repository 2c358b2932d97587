"""A blank in a few figures for lists, and how large its drawing stands beside the others."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.units import length_mm
from wrapwright.outside.documents.screen.blank_drawing import SMALL
from wrapwright.outside.documents.screen.side_view import OPEN, handle_reach


@dataclass(frozen=True)
class BlankFigures:
    """The figures by which one knows a blank.

    Attributes:
        shape: straight, tapered, bulging or shaped, with "with handle" where there is one.
        top_mm, bottom_mm: girths; the same on a straight one; 0 when they cannot be read.
        wall_mm: height along the wall.
        widest_mm, narrowest_mm: the largest and the smallest girth that was read.
        size_mm: width and height of a flat blank, which has no girths; None for any other.
    """

    shape: str
    top_mm: float = 0.0
    bottom_mm: float = 0.0
    wall_mm: float = 0.0
    widest_mm: float = 0.0
    narrowest_mm: float = 0.0
    size_mm: tuple[float, float] | None = None


@dataclass(frozen=True)
class Stand:
    """How a drawing of `small_blank` stands on the shelf's line, in px.

    Attributes:
        side: of the square drawing.
        sink: how far the square goes below the line, so that the blank's foot stands on it.
    """

    side: float
    sink: float


WITH_HANDLE = " with handle"
ROOM = SMALL[0] - 8.0  # the drawing's room inside its edges, px
SHAPES = {"straight": "straight", "tapered": "tapered", "profile": "bulging", "flat": "flat"}


def figures_of(table: Mapping[str, Any]) -> BlankFigures:
    """Return the figures of a blank's readings; what cannot be read is left at 0."""
    kind = str(table.get("kind", "")).casefold()
    shape = SHAPES.get(kind, "unknown shape") + (WITH_HANDLE if table.get("handle") else "")
    if kind == "flat":
        return BlankFigures(shape, size_mm=_size(table))
    if kind == "profile":
        return _of_profile(shape, table.get("readings"))
    bottom, top = _round(table, ""), _round(table, "")
    if kind == "tapered":
        bottom, top = _round(table, "_bottom"), _round(table, "_top")
    return BlankFigures(shape, top, bottom, _wall(table, bottom, top), max(bottom, top), min(bottom, top))


def standing(blanks: Sequence[BlankFigures]) -> tuple[tuple[Stand, ...], float]:
    """Return how the blanks' drawings stand side by side to one scale, and that scale in px per mm.

    The one that needs most room fills the whole square; one whose figures cannot be read does too.
    """
    extents = [_extent(one) for one in blanks]
    scales = [min(ROOM / wide, ROOM / tall) if wide and tall else 0.0 for wide, tall in extents]
    common = min((scale for scale in scales if scale), default=0.0)
    stands = []
    for scale, (_, tall) in zip(scales, extents, strict=True):
        share = common / scale if scale else 1.0
        below = (SMALL[1] - scale * tall) / 2.0 if scale else 0.0
        stands.append(Stand(round(SMALL[0] * share, 2), round(below * share, 2)))
    return tuple(stands), common


def _extent(one: BlankFigures) -> tuple[float, float]:
    """Return how wide and how high a blank is in its drawing, mm; (0, 0) when its figures are not known."""
    if one.size_mm is not None:
        return one.size_mm
    if not one.wall_mm or not one.widest_mm:
        return 0.0, 0.0
    low, high, widest = (girth / math.tau for girth in (one.bottom_mm, one.top_mm, one.widest_mm))
    rise = math.sqrt(max(0.0, one.wall_mm**2 - (high - low) ** 2))
    reach = handle_reach((widest,), rise) if one.shape.endswith(WITH_HANDLE) else widest
    return widest + reach, rise + OPEN * (low + high)


def _size(table: Mapping[str, Any]) -> tuple[float, float]:
    """Return width and height of a flat blank; (0, 0) when they cannot be read."""
    if "circle" in table:
        return _mm(table["circle"]), _mm(table["circle"])
    width, height = _mm(table.get("width", 0)), _mm(table.get("height", 0))
    if not (width and height):
        aspect = _aspect(table.get("outline"))
        width, height = width or height / aspect, height or width * aspect
    return width, height


def _aspect(points: object) -> float:
    """Return height over width of an outline's points, 1 when they are none."""
    try:
        across, up = zip(*points, strict=True)  # type: ignore[misc]
        return float((max(up) - min(up)) / (max(across) - min(across)))
    except (TypeError, ValueError, ZeroDivisionError):
        return 1.0


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
    girths = [girth for _, girth in pairs]
    return BlankFigures(shape, girths[-1], girths[0], pairs[-1][0] - pairs[0][0], max(girths), min(girths))


def _mm(value: object) -> float:
    try:
        return length_mm(value) if isinstance(value, str | int | float) and not isinstance(value, bool) else 0.0
    except WrapwrightError:
        return 0.0
