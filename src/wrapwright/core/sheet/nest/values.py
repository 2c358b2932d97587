"""What laying freely hands about: places on a sheet, and what is asked of somebody who nests outlines in a strip."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from wrapwright.core.sheet.lay.values import Ring


@dataclass(frozen=True)
class Spot:
    """Where a part lies in an area: the lower left corner of its trim's box, in mm from the area's, and its turn."""

    x_mm: float
    y_mm: float
    turn_deg: int


@dataclass(frozen=True)
class StripItem:
    """An outline to be nested: its ring at turn 0, how many, and the turns allowed (degrees, anticlockwise)."""

    ring: Ring
    copies: int
    turns: tuple[int, ...]


@dataclass(frozen=True)
class StripRequest:
    """A strip of a given height, as short as can be, that holds every copy of every item without overlap.

    Attributes:
        items: what is nested.
        height_mm: of the strip, which runs from left to right.
        enough_mm: a length that is good enough, 0 for the shortest that can be found.
        seed: for the search.
    """

    items: tuple[StripItem, ...]
    height_mm: float
    enough_mm: float = 0.0
    seed: int = 1


@dataclass(frozen=True)
class StripSpot:
    """A copy in a strip: its ring is turned about (0, 0) of its own coordinates, then moved by (x, y)."""

    item: int
    x_mm: float
    y_mm: float
    turn_deg: int


@dataclass(frozen=True)
class StripAnswer:
    """The length used from the strip's left end, and where every copy lies."""

    length_mm: float
    spots: tuple[StripSpot, ...]


# Somebody who nests: answers None when nothing came of it (not installed, out of time, ended).
Nested = Callable[[StripRequest], StripAnswer | None]
