"""Letters of many pieces: each glyph's curves are worked out once, a text's are bent onto the wrap all together."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.layers import Box
from wrapwright.core.design.path import Path
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import splits

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

# A straight edge whose image is nearer to its chord than this stays straight. With its 5 micrometres, and those of the
# grid on which it is written (2.5 each way), an outline is within 10 of its true place.
STRAIGHT_MM = 0.005
BENT_MM = 0.005  # likewise how far the image of a curve may be off


@dataclass(frozen=True, eq=False)
class Letter:
    """A glyph's outline, ready to be set many times.

    Attributes:
        points: shape (n, 2), font units: its chains of cubics one after the other, each (3 m + 1) long and closed.
        chains: how many curves each chain has.
        starts: index of the first point of every curve.
        lines: which of the curves, counted through, are straight edges.
        differences: the largest first, second and third differences of its curves' control points, across and up.
        box: round its control points.
    """

    points: Array
    chains: tuple[int, ...]
    starts: Whole
    lines: Whole
    differences: Array
    box: Box

    @classmethod
    def of(cls, path: Path) -> Letter | None:
        """Return a glyph's letter, None where its outline is not closed as glyphs' are."""
        chains = [sub.points for sub in path.subpaths]
        if not all(sub.closed and bool((sub.points[0] == sub.points[-1]).all()) for sub in path.subpaths):
            return None
        if not chains:
            nothing = np.zeros(0, dtype=np.int64)
            return cls(np.zeros((0, 2)), (), nothing, nothing, np.zeros((3, 2)), (0.0, 0.0, 0.0, 0.0))
        points = np.concatenate(chains)
        firsts = np.cumsum([0, *(len(chain) for chain in chains[:-1])])
        starts = np.concatenate(
            [first + np.arange(0, len(chain) - 1, 3) for first, chain in zip(firsts, chains, strict=True)]
        )
        curves = points[starts[:, None] + np.arange(4)]
        thirds = curves[:, :1] + (curves[:, 3:] - curves[:, :1]) * (np.arange(4) / 3.0)[:, None]
        lines = np.flatnonzero(np.abs(curves - thirds).max(axis=(1, 2)) < 1e-6)
        steps = [6.0 / math.factorial(3 - n) * np.abs(np.diff(curves, n=n, axis=1)).max(axis=(0, 1)) for n in (1, 2, 3)]
        return cls(points, tuple((len(one) - 1) // 3 for one in chains), starts, lines, np.array(steps), path.box())


@dataclass(frozen=True, eq=False)
class SetLetters:
    """A text's letters in local mm: each one's origin and size (mm a font unit)."""

    letters: tuple[Letter, ...]
    origins: Array
    scales: Array

    def box(self) -> Box:
        """Return the box round all control points."""
        boxes = np.array([one.box for one in self.letters]).reshape(-1, 2, 2)
        corners = boxes * self.scales[:, None, None] + self.origins[:, None, :]
        low, high = corners[:, 0].min(axis=0).tolist(), corners[:, 1].max(axis=0).tolist()
        return (low[0], low[1], high[0], high[1])


@dataclass(frozen=True, eq=False)
class PlacedLetters:
    """A text on the wrap.

    Attributes:
        element, copy: where in the design.
        letters: its letters, in order.
        points: control points of all of them in flat mm, as in the letters, one letter after the other.
        straight: for each of the letters' straight edges, counted through, whether its image is straight.
        colour: working space, 0..1.
        opacity: always 1.
    """

    element: int
    copy: int
    letters: tuple[Letter, ...]
    points: Array
    straight: NDArray[np.bool_]
    colour: Rgb

    def box(self) -> Box:
        """Return the box round all control points."""
        low, high = self.points.min(axis=0).tolist(), self.points.max(axis=0).tolist()
        return (low[0], low[1], high[0], high[1])


def bent_letters(text: SetLetters, placement: Placement) -> tuple[Array, NDArray[np.bool_]] | None:
    """Return a text's control points on the flat wrap, and which of its straight edges stay straight.

    As `warp.bent` with no curve split; None where one would have to be.
    """
    sizes = [len(one.points) for one in text.letters]
    local = np.concatenate([one.points for one in text.letters]) * np.repeat(text.scales, sizes)[:, None]
    local += np.repeat(text.origins, sizes, axis=0)
    firsts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    if placement.lay != "level" or placement.wrap.theta == 0.0:
        count = sum(len(one.lines) for one in text.letters)
        return placement.to_flat(local), np.ones(count, dtype=np.bool_)
    if placement.turn_deg:
        angle = math.radians(placement.turn_deg)
        cos, sin = math.cos(angle), math.sin(angle)
        local = local @ np.array([[cos, -sin], [sin, cos]])
    starts = np.concatenate([one.starts + first for one, first in zip(text.letters, firsts, strict=True)])
    if _error(text, local, placement) > BENT_MM:  # quick, and more than it is: only then each curve is looked at
        curves = local[starts[:, None] + np.arange(4)]
        if bool((splits(curves, placement, BENT_MM) > 1).any()):
            return None
    points = _images(local, starts, placement)
    lines = np.concatenate([one.starts[one.lines] + first for one, first in zip(text.letters, firsts, strict=True)])
    return points, _straight(points, lines)


def _error(text: SetLetters, local: Array, placement: Placement) -> float:
    """Return a bound in mm of how far an image is off when no curve is split: see `warp.splits`."""
    k = abs(placement.wrap.theta) / placement.wrap.turn_length(placement.up_mm)
    steps = (np.array([one.differences for one in text.letters]) * text.scales[:, None, None]).max(axis=0)
    if placement.turn_deg:  # turned, either way may be as large as both together
        steps = np.repeat(steps.sum(axis=1, keepdims=True), 2, axis=1)
    (a1, b1), (a2, b2), (a3, b3) = steps.tolist()
    far = 1.0 + k * float(np.abs(local[:, 1]).max())
    e1, e2 = a1, a2 + k * a1**2
    e3 = a3 + 3.0 * k * a1 * a2 + k**2 * a1**3
    e4 = 4.0 * k * a1 * a3 + 3.0 * k * a2**2 + 6.0 * k**2 * a1**2 * a2 + k**3 * a1**4
    return float((far * e4 + k * (4.0 * b1 * e3 + 6.0 * b2 * e2 + 4.0 * b3 * e1)) / 384.0)


def _images(local: Array, starts: Whole, placement: Placement) -> Array:
    """Return the images of all control points: ends where they lie, handles as the lay carries them from there."""
    wrap, circle = placement.wrap, placement.wrap.turn_length(placement.up_mm)
    turn = placement.turn + 360.0 * (placement.laps + local[:, 0] / circle)
    up = placement.up_mm + local[:, 1]
    out = np.stack(wrap.to_flat(turn, up), axis=1)
    for at, end in ((starts + 1, starts), (starts + 2, starts + 3)):
        lean = wrap.theta * (turn[end] / 360.0 - 0.5)
        along = (local[at, 0] - local[end, 0]) * (wrap.lower_mm + wrap.theta * up[end]) / circle
        rise = local[at, 1] - local[end, 1]
        cos, sin = np.cos(lean), np.sin(lean)
        out[at, 0] = out[end, 0] + along * cos + rise * sin
        out[at, 1] = out[end, 1] + rise * cos - along * sin
    return out


def _straight(points: Array, lines: Whole) -> NDArray[np.bool_]:
    """Return which of the straight edges that begin at `lines` have straight images.

    A cubic is off its chord by at most three quarters of what its handles are.
    """
    start = points[lines]
    chord = points[lines + 3] - start
    length = np.maximum(np.hypot(chord[:, 0], chord[:, 1]), 1e-12)
    off = np.zeros(len(lines))
    for handle in (1, 2):
        away = points[lines + handle] - start
        off = np.maximum(off, np.abs(away[:, 0] * chord[:, 1] - away[:, 1] * chord[:, 0]) / length)
    return np.asarray(0.75 * off <= STRAIGHT_MM)
