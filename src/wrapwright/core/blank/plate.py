"""The outline of a flat blank: a rectangle, a circle, or a ring of points."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Ring = tuple[tuple[float, float], ...]  # a closed outline without its first point repeated, anticlockwise


@dataclass(frozen=True)
class Plate:
    """What a flat blank is cut like; its box is one whole turn wide and the band high.

    Attributes:
        kind: a rectangle, a circle or an outline.
        corner_mm: radius of a rectangle's corners, 0 for sharp ones.
        ring: an outline's points in flat mm: x from the middle of its box, y from its lower edge; else empty.
    """

    kind: Literal["rectangle", "circle", "outline"]
    corner_mm: float = 0.0
    ring: Ring = ()
