"""A blank from the side, drawn from its readings: where a place on the wall lies in the drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from wrapwright.core.blank.readings import Blank
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.outside.documents.screen.svg import Point

OPEN = 0.13  # how far the rings are seen open: short half-axis over long
_RING_STEPS = 24


@dataclass(frozen=True, eq=False)
class SideView:
    """The blank seen from `eye_deg`, standing upright.

    Attributes:
        positions: along the wall, rising.
        radii: bare radius at each, mm.
        rises: upright height of each over the first, mm.
        scale: px per mm.
        middle: x of its axis, px.
        foot: y of the axis at the first position, px.
        eye_deg: the angle round the blank that faces the eye.
    """

    positions: tuple[float, ...]
    radii: tuple[float, ...]
    rises: tuple[float, ...]
    scale: float
    middle: float
    foot: float
    eye_deg: float

    def radius(self, position: float) -> float:
        """Return the radius in px at a position along the wall."""
        return self.scale * float(np.interp(position, self.positions, self.radii))

    def level(self, position: float) -> float:
        """Return the y in px of the axis at a position along the wall."""
        return self.foot - self.scale * float(np.interp(position, self.positions, self.rises))

    def side(self, position: float, sign: float) -> Point:
        """Return the outline's place at a position: sign -1 left, 1 right."""
        return (self.middle + sign * self.radius(position), self.level(position))

    def place(self, at_deg: float, position: float) -> Point | None:
        """Return where a place on the wall is seen, None when it faces away."""
        turn = math.radians(at_deg - self.eye_deg)
        if math.cos(turn) < 0.0:
            return None
        radius = self.radius(position)
        return (self.middle + radius * math.sin(turn), self.level(position) + OPEN * radius * math.cos(turn))

    def ring(self, position: float, *, front: bool) -> list[Point]:
        """Return the near or far half of the ring at a position, from left to right."""
        radius, level, sign = self.radius(position), self.level(position), 1.0 if front else -1.0
        turns = np.linspace(-math.pi / 2.0, math.pi / 2.0, _RING_STEPS + 1)
        return [
            (self.middle + radius * math.sin(turn), level + sign * OPEN * radius * math.cos(turn)) for turn in turns
        ]

    def stretch(self, low: float, high: float) -> list[Point]:
        """Return the outline of the wall between two positions, its lower and upper edge as near half-rings."""
        inner = [at for at in self.positions if low < at < high]
        return [
            *self.ring(low, front=True),
            *(self.side(at, 1.0) for at in inner),
            *reversed(self.ring(high, front=True)),
            *(self.side(at, -1.0) for at in reversed(inner)),
        ]


def extent_mm(blank: Blank, wrapped: Wrapped) -> tuple[float, float]:
    """Return how wide and how high the blank is in the view, its handle and its open rings in, mm."""
    _, radii, rises = _outline(wrapped)
    out = handle_reach(radii, rises[-1]) if blank.handle else 0.0
    return max(radii) + max(out, max(radii)), rises[-1] + OPEN * (radii[0] + radii[-1])


def side_view(blank: Blank, wrapped: Wrapped, room: tuple[float, float, float, float]) -> SideView:
    """Return the view that fills `room` (left, top, width, height in px), a handle to the right and inside the room."""
    positions, radii, rises = _outline(wrapped)
    wide, tall = extent_mm(blank, wrapped)
    left, top, width, height = room
    scale = min(width / wide, height / tall)
    middle = left + (width - scale * wide) / 2.0 + scale * max(radii)
    foot = top + (height + scale * tall) / 2.0 - scale * OPEN * radii[0]
    return SideView(positions, radii, rises, scale, middle, foot, eye_of(blank))


def _outline(wrapped: Wrapped) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    """Return positions along the wall, and the radius and the upright rise at each, mm."""
    positions, girths = zip(*wrapped.profile, strict=True)
    radii = tuple(girth / (2.0 * math.pi) for girth in girths)
    rises = [0.0]
    for (s1, r1), (s2, r2) in pairwise(zip(positions, radii, strict=True)):
        rises.append(rises[-1] + math.sqrt(max(0.0, (s2 - s1) ** 2 - (r2 - r1) ** 2)))
    return positions, radii, tuple(rises)


def eye_of(blank: Blank) -> float:
    """Return the angle that faces the eye: the front, or the side from which a handle points to the right."""
    return (blank.handle.at_deg - 90.0) % 360.0 if blank.handle else 0.0


def handle_reach(radii: tuple[float, ...], rise: float) -> float:
    """Return how far from the axis a handle is drawn to reach, mm; drawn, not measured."""
    return max(radii) + min(0.34 * rise, 0.62 * max(radii))


def handle_shape(view: SideView) -> str:
    """Return the outline of a handle to the right, with its hole, as path data (even-odd)."""
    rise = view.rises[-1]
    low, high = 0.17 * rise, 0.83 * rise
    thick = min(0.11 * rise, 0.16 * max(view.radii))
    reach = handle_reach(view.radii, rise)
    outer = _loop(view, low, high, reach)
    inner = _loop(view, low + thick, high - thick, reach - thick)
    return outer + inner


def _loop(view: SideView, low: float, high: float, reach: float) -> str:
    def at(rise: float, out: float | None = None) -> str:
        # A hair inside the wall, so that no gap shows between the two.
        radius = float(np.interp(rise, view.rises, view.radii)) - 0.5 if out is None else out
        return f"{view.middle + view.scale * radius:.2f} {view.foot - view.scale * rise:.2f}"

    tip = reach + 0.33 * (reach - min(view.radii))
    return f"M{at(low)}C{at(low, tip)} {at(high, tip)} {at(high)}Z"
