"""A part as it lies at one turn: the room that no other may overlap, and the ink that must lie where it prints."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.sheet.lay.values import Box, Part, Ring, Shape
from wrapwright.core.sheet.nest.profiles import Profile, profile_of

Array = NDArray[np.float64]

RING_OFF_MM = 0.02  # how far the ring of a curved trim may lie beside it
_QUARTER_STEPS = 16  # of a rounded corner
_ROUND = 1.0 / math.cos(math.pi / (4 * _QUARTER_STEPS))  # so that its straight pieces lie outside the arc
_CIRCLE_STEPS = 72
_ARC_ENDS_MM = 0.05


@dataclass(frozen=True, eq=False)
class Lying:
    """A part at one turn; everything is counted from the lower left corner of its trim's box at this turn.

    Attributes:
        turn: degrees anticlockwise.
        size: width and height of the trim's box.
        room: points of a ring, n x 2: the trim with half the gutter, its bleed and its label.
        ink: box round trim, bleed and label.
        radius: of the room where that is a circle about the box's middle, else 0.
    """

    turn: int
    size: tuple[float, float]
    room: Array
    ink: Box
    radius: float = 0.0

    @property
    def bounds(self) -> Box:
        """Return the box round the room."""
        if self.radius:
            x, y = self.size[0] / 2.0, self.size[1] / 2.0
            return (x - self.radius, y - self.radius, x + self.radius, y + self.radius)
        return _box_of(self.room)

    @property
    def overhang(self) -> float:
        """Return how far the room reaches beyond the ink on the side where it does least."""
        room, ink = self.bounds, self.ink
        return min(ink[0] - room[0], ink[1] - room[1], room[2] - ink[2], room[3] - ink[3])

    @cached_property
    def profile(self) -> Profile:
        """Return the sides of the room."""
        return profile_of(self.room)

    def swapped(self) -> Lying:
        """Return it with x and y changed over (a mirror image, for laying rows by the rules of columns)."""
        left, bottom, right, top = self.ink
        ink = (bottom, left, top, right)
        return Lying(self.turn, self.size[::-1], self.room[::-1, ::-1], ink, self.radius)

    def as_box(self) -> Lying:
        """Return it with the box round its room as its room."""
        return Lying(self.turn, self.size, _corners(self.bounds), self.ink)


def lyings(part: Part, gutter_mm: float) -> tuple[Lying, ...]:
    """Return the part at every turn it may have, without turns at which it looks the same."""
    room, ink, radius = _at_rest(part, gutter_mm)
    found: list[Lying] = []
    for turn in dict.fromkeys(one % 360 for one in part.turns):
        one = _turned(part.shape, room, ink, radius, turn)
        if not any(alike(one, other) for other in found):
            found.append(one)
    return tuple(found)


def lying_at(part: Part, gutter_mm: float, turn: int) -> Lying:
    """Return the part at one quarter turn, allowed or not."""
    return _turned(part.shape, *_at_rest(part, gutter_mm), turn % 360)


def boxed(part: Part, gutter_mm: float) -> tuple[Lying, ...]:
    """Return the part as the box round its trim with its clear room, at every turn that differs."""
    shape = Shape("rectangle", part.shape.width_mm, part.shape.height_mm)
    sides = tuple(max(clear, bleed, gutter_mm / 2.0) for clear, bleed in zip(part.clear_mm, part.bleed_mm, strict=True))
    room, ink = _grown_box(shape, sides), _ink(shape, part, gutter_mm)
    if part.label_mm is not None:
        room, ink = _round_both(room, part.label_mm), _round_both(ink, part.label_mm)
    turned = [_turned(shape, _corners(room), ink, 0.0, turn % 360) for turn in dict.fromkeys(part.turns)]
    kept: list[Lying] = []
    for one in turned:
        if not any(alike(one, other) for other in kept):
            kept.append(one)
    return tuple(kept)


def trim_points(shape: Shape, turn: int) -> Array:
    """Return the trim's ring at a quarter turn, counted from the lower left corner of its box."""
    return _quarter(shape, _ring(shape), turn % 360)


def _at_rest(part: Part, gutter_mm: float) -> tuple[Array, Box, float]:
    """Return room, ink and radius at turn 0."""
    shape, half = part.shape, gutter_mm / 2.0
    if shape.kind == "rectangle":
        (lying, *_) = boxed(
            Part(shape, turns=(0,), clear_mm=part.clear_mm, bleed_mm=part.bleed_mm, label_mm=part.label_mm), gutter_mm
        )
        return lying.room, lying.ink, 0.0
    ink = _ink(shape, part, gutter_mm)
    labels = _labels(part, gutter_mm)
    if shape.kind == "circle" and not labels:
        radius = shape.width_mm / 2.0 + max(half, *part.bleed_mm)
        return _disc(shape.width_mm / 2.0, radius), ink, radius
    return (*_drawn_room(part, half, labels), 0.0)


def _drawn_room(part: Part, half: float, labels: list[Box]) -> tuple[Array, Box]:
    from shapely import Polygon, box, union_all

    trim = Polygon(_ring(part.shape))
    bleed = _bled(part, trim)
    grown = trim.buffer(half * _ROUND + RING_OFF_MM, quad_segs=_QUARTER_STEPS)
    room = union_all([grown, bleed.buffer(RING_OFF_MM, quad_segs=2)])
    ink = _round_both((0.0, 0.0, part.shape.width_mm, part.shape.height_mm), bleed.bounds)
    over = half if part.label_mm is None else 0.0  # a strip's words keep that far from its edge
    for label in labels:
        room = _joined(room, box(*label))
        left, bottom, right, top = label
        held = (min(left + over, 0.0), min(bottom + over, 0.0), max(right - over, 0.0), max(top - over, 0.0))
        ink = _round_both(ink, held)
    points = np.asarray(room.exterior.coords, dtype=np.float64)[:-1]
    return (points if room.exterior.is_ccw else points[::-1]), ink


def _bled(part: Part, trim: Any) -> Any:
    """Return the trim with its bleed: all round an outline; a sector's at its arcs along their radii."""
    left, bottom, right, top = part.bleed_mm
    if part.shape.kind != "sector":
        most = max(part.bleed_mm)
        return trim.buffer(most * _ROUND, quad_segs=_QUARTER_STEPS) if most else trim
    from shapely import Polygon, union_all

    shape, arcs = part.shape, max(bottom, top)
    ends = max(left, right)
    if ends <= arcs * math.sin(math.radians(shape.half_deg)) + _ARC_ENDS_MM:
        ends = 0.0  # the arcs' own bleed reaches that far at their ends
    wide = trim.buffer(ends * _ROUND, quad_segs=_QUARTER_STEPS) if ends else trim
    if not arcs:
        return wide
    centre = np.array([shape.width_mm / 2.0 + shape.lean_mm, shape.height_mm - shape.outer_mm])
    if not shape.centre_below:
        centre[1] = shape.outer_mm
    out = _ring(shape) - centre
    radii = np.hypot(out[:, 0], out[:, 1])
    near = np.where(radii > shape.outer_mm - 0.1, shape.outer_mm + arcs, radii)
    near = np.where(radii < shape.inner_mm + 0.1, max(shape.inner_mm - arcs, 0.0), near)
    longer = Polygon(out * (near / np.maximum(radii, 1e-9))[:, None] + centre)
    return union_all([wide, longer]) if longer.is_valid else trim.buffer(arcs * _ROUND, quad_segs=_QUARTER_STEPS)


def _joined(room: Any, label: Any) -> Any:
    """Return room and label as one outline: where they lie apart, with what lies between them."""
    from shapely import union_all

    near = room.intersection(label.buffer(room.distance(label) + 1.0, join_style="mitre"))
    whole = union_all([room, label, union_all([label, near]).convex_hull])
    return whole if whole.geom_type == "Polygon" else whole.convex_hull


def _labels(part: Part, gutter_mm: float) -> list[Box]:
    """Return the boxes that hold the label: the one that is said, else the strips that the clear room has for it."""
    if part.label_mm is not None:
        return [part.label_mm]
    width, height = part.shape.width_mm, part.shape.height_mm
    left, bottom, right, top = (
        clear if clear > bleed + gutter_mm / 2.0 + 1e-6 else 0.0
        for clear, bleed in zip(part.clear_mm, part.bleed_mm, strict=True)
    )
    strips = [(-left, 0.0, 0.0, height), (0.0, -bottom, width, 0.0), (width, 0.0, width + right, height)]
    strips.append((0.0, height, width, height + top))
    return [strip for strip, depth in zip(strips, (left, bottom, right, top), strict=True) if depth]


def _ink(shape: Shape, part: Part, gutter_mm: float) -> Box:
    """Return the box that must be printable: the bleed, and a label's strip less half the gutter beyond it."""
    sides = tuple(
        max(bleed, clear - gutter_mm / 2.0 if part.label_mm is None else 0.0)
        for clear, bleed in zip(part.clear_mm, part.bleed_mm, strict=True)
    )
    return _box_of(_corners(_grown_box(shape, sides)))


def _ring(shape: Shape) -> Array:
    ring: Ring = shape.ring
    if shape.kind == "circle":
        return _disc(shape.width_mm / 2.0, shape.width_mm / 2.0)
    if not ring:
        return _corners((0.0, 0.0, shape.width_mm, shape.height_mm))
    return np.asarray(ring, dtype=np.float64)


def _disc(middle: float, radius: float) -> Array:
    """Return a ring round a circle, nowhere inside it."""
    steps = (np.arange(_CIRCLE_STEPS) + 0.5) * 2.0 * math.pi / _CIRCLE_STEPS
    far = radius / math.cos(math.pi / _CIRCLE_STEPS)
    return np.column_stack([middle + far * np.cos(steps), middle + far * np.sin(steps)])


def _turned(shape: Shape, room: Array, ink: Box, radius: float, turn: int) -> Lying:
    size = (shape.width_mm, shape.height_mm) if turn % 180 == 0 else (shape.height_mm, shape.width_mm)
    return Lying(turn, size, _quarter(shape, room, turn), _box_of(_quarter(shape, _corners(ink), turn)), radius)


def _quarter(shape: Shape, points: Array, turn: int) -> Array:
    return quarter_turned(points, (shape.width_mm, shape.height_mm), turn)


def quarter_turned(points: Array, size: tuple[float, float], turn: int) -> Array:
    """Return points after quarter turns anticlockwise, counted from the turned box's own lower left corner.

    Args:
        points: n x 2, counted from the box's lower left corner before.
        size: width and height of the box before.
        turn: 0, 90, 180 or 270, or the same and whole turns.
    """
    (x, y), (width, height) = points.T, size
    return np.column_stack(
        {0: (x, y), 90: (height - y, x), 180: (width - x, height - y), 270: (y, width - x)}[turn % 360]
    )


def alike(one: Lying, other: Lying) -> bool:
    """Return whether two turns of a part cover the same points."""
    if one.radius:
        return np.allclose(one.ink, other.ink, atol=1e-6)
    if not np.allclose(one.bounds, other.bounds, atol=1e-6) or not np.allclose(one.ink, other.ink, atol=1e-6):
        return False
    apart = np.abs(one.room[:, None, :] - other.room[None, :, :]).max(axis=2)
    return bool((apart.min(axis=1) < 1e-6).all() and (apart.min(axis=0) < 1e-6).all())


def _grown_box(shape: Shape, sides: tuple[float, ...]) -> Box:
    left, bottom, right, top = sides
    return (-left, -bottom, shape.width_mm + right, shape.height_mm + top)


def _round_both(one: Box, other: Box) -> Box:
    return (min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3]))


def _corners(box: Box) -> Array:
    left, bottom, right, top = box
    return np.array([[left, bottom], [right, bottom], [right, top], [left, top]], dtype=np.float64)


def _box_of(points: Array) -> Box:
    low, high = points.min(axis=0), points.max(axis=0)
    return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))
