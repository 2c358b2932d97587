"""The two frames a wrap is shown in: its true flat shape, and the same wall straightened.

Millimetres of a frame count x to the viewer's right and y UP, as on the flat wrap; only what leaves for the screen
(path strings, boxes, matrices) counts y down.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.path import Path, Subpath
from wrapwright.core.design.placement import Placement
from wrapwright.jobs.live.values import Box, FrameKind, FrameView, Matrix

Array = NDArray[np.float64]

TRUE_MM = 0.003  # a straightened outline strays no further than this from its true place
MOST_PARTS = 64
WHOLE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True)
class Canvas:
    """A frame of one wrap.

    Attributes:
        wrap: the flat wrap.
        bleed_mm: art beyond the trim at rim and base.
        kind: as asked for; on a straight wall both kinds are the same.
    """

    wrap: FlatWrap
    bleed_mm: float
    kind: FrameKind

    @property
    def straightens(self) -> bool:
        """Return whether its places differ from those on the flat paper."""
        return self.kind == "straight" and self.wrap.is_sector

    @cached_property
    def girth_mm(self) -> float:
        """Return one whole turn in a straightened frame: the one at the band's middle."""
        return self.wrap.turn_length(self.wrap.height_mm / 2.0)

    @cached_property
    def border(self) -> Path:
        """Return the outline of the trim with its bleed in this frame."""
        return self.path(bleed_outline(self.wrap, self.bleed_mm))

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Return left, bottom, right, top of the trim with its bleed in this frame."""
        if not self.straightens:
            return self.border.box()
        points = np.concatenate([sub.points[::3] for sub in self.border.subpaths])
        (left, bottom), (right, top) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
        return left, bottom, right, top

    def place(self, turn: Array, up: Array) -> tuple[Array, Array]:
        """Return x, y in this frame of places on the wall; arrays broadcast."""
        if not self.straightens:
            return self.wrap.to_flat(turn, up)
        x = (np.asarray(turn, dtype=np.float64) / 360.0 - 0.5) * self.girth_mm
        return x, np.asarray(up, dtype=np.float64) + 0.0 * x

    def of_flat(self, points: Array, turn: float = 180.0) -> Array:
        """Return points in this frame, shape (n, 2), of flat points; `turn` is near theirs."""
        if not self.straightens:
            return points
        at, up = self.wrap.from_flat(points[:, 0], points[:, 1])
        at = _nearest_turn(at, turn, self.wrap.theta)
        return np.stack(self.place(at, up), axis=1)

    def to_flat(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Return flat x, y of points of this frame; arrays keep their shape."""
        if not self.straightens:
            return x, y
        return self.wrap.to_flat((x / self.girth_mm + 0.5) * 360.0, y)

    def path(self, path: Path, turn: float = 180.0) -> Path:
        """Return a path in flat mm as it lies in this frame, true to a few thousandths of a millimetre."""
        return self.paths([path], turn)[0]

    def paths(self, paths: Sequence[Path], turn: float = 180.0) -> list[Path]:
        """Return several paths at once; `turn` is near their places."""
        if not self.straightens:
            return list(paths)
        subs = iter(self._straightened([sub for path in paths for sub in path.subpaths], turn))
        return [Path(tuple(next(subs) for _ in path.subpaths)) for path in paths]

    def rigid(self, lay: str) -> bool:
        """Return whether an element with this lay keeps its shape in this frame wherever it is moved."""
        if not self.wrap.is_sector:
            return True
        return (lay == "level") == (self.kind == "straight")

    def matrix(self, placement: Placement) -> Matrix:
        """Return art frame -> canvas (y down in both) of a rigid copy."""
        turn = math.radians(placement.turn_deg)
        (x,), (y,) = (one.tolist() for one in self.place(np.array([placement.turn]), np.array([placement.up_mm])))
        wide = 1.0
        if self.straightens:
            wide = self.girth_mm / self.wrap.turn_length(placement.up_mm)
        else:
            turn += self.wrap.tilt(placement.turn)
        cos, sin = math.cos(turn), math.sin(turn)
        return (wide * cos, sin, -wide * sin, cos, x, -y)

    def view(self) -> FrameView:
        """Return the frame as a screen gets it."""
        wrap = self.wrap
        lower, upper = (self.girth_mm, self.girth_mm) if self.straightens else (wrap.lower_mm, wrap.upper_mm)
        return FrameView(
            kind=self.kind,
            sector=wrap.is_sector and not self.straightens,
            lower_mm=lower,
            upper_mm=upper,
            height_mm=wrap.height_mm,
            seam_deg=wrap.seam_deg,
            overlap_mm=wrap.overlap_mm,
            gap_mm=wrap.gap_mm,
            box=down(self.box),
            plate=wrap.plate.kind if wrap.plate is not None else "",
        )

    def _straightened(self, subs: Sequence[Subpath], turn: float) -> list[Subpath]:
        """Return chains of curves straightened: Hermite pieces between true points with true tangents."""
        if not subs:
            return []
        chains = [_closed(sub) for sub in subs]
        curves = np.concatenate([_curves(points) for points in chains])
        parts = np.ones(len(curves), dtype=np.int64)
        while True:
            pieces, source, ends = self._pieces(curves, parts, turn)
            off = self._strayed(pieces, source, ends, turn)
            first = np.concatenate([[0], np.cumsum(parts)])
            wrong = (np.maximum.reduceat(off, first[:-1]) > TRUE_MM) & (parts < MOST_PARTS)
            if not wrong.any():
                break
            parts = np.where(wrong, parts * 2, parts)
        out, at = [], 0
        for sub, points in zip(subs, chains, strict=True):
            until = at + (len(points) - 1) // 3
            own = pieces[first[at] : first[until]]
            out.append(Subpath(np.vstack([own[:1, 0], own[:, 1:].reshape(-1, 2)]), sub.closed))
            at = until
        return out

    def _pieces(self, curves: Array, parts: NDArray[np.int64], turn: float) -> tuple[Array, Array, Array]:
        """Return the straightened pieces (n, 4, 2), the curve each comes from, and its first and last parameter."""
        which = np.repeat(np.arange(len(curves)), parts)
        rank = np.arange(len(which)) - np.repeat(np.cumsum(parts) - parts, parts)
        count = parts[which].astype(np.float64)
        source, ends = curves[which], np.stack([rank / count, (rank + 1.0) / count], axis=1)
        (start, rate_start), (end, rate_end) = (_point_and_rate(source, ends[:, at]) for at in (0, 1))
        third = (1.0 / (3.0 * count))[:, None]
        first, last = self.of_flat(start, turn), self.of_flat(end, turn)
        out, into = self._carried(start, rate_start * third), self._carried(end, rate_end * third)
        return np.stack([first, first + out, last - into, last], axis=1), source, ends

    def _strayed(self, pieces: Array, source: Array, ends: Array, turn: float) -> Array:
        """Return how far each piece strays from the true image, the most of three places on it."""
        worst = np.zeros(len(pieces))
        for share in (0.25, 0.5, 0.75):
            here, _ = _point_and_rate(pieces, np.full(len(pieces), share))
            true, _ = _point_and_rate(source, ends[:, 0] + share * (ends[:, 1] - ends[:, 0]))
            worst = np.maximum(worst, np.hypot(*(here - self.of_flat(true, turn)).T))
        return worst

    def _carried(self, points: Array, steps: Array) -> Array:
        """Return small flat steps at flat points as this frame shows them (its derivative there)."""
        turn, up = self.wrap.from_flat(points[:, 0], points[:, 1])
        lean = self.wrap.theta * (turn / 360.0 - 0.5)
        cos, sin = np.cos(lean), np.sin(lean)
        round_it, rise = steps[:, 0] * cos - steps[:, 1] * sin, steps[:, 0] * sin + steps[:, 1] * cos
        wider = self.girth_mm / (self.wrap.lower_mm + self.wrap.theta * up)
        return np.stack([round_it * wider, rise], axis=1)


def down(box: tuple[float, float, float, float]) -> Box:
    """Return x, y, width, height with y down of a box left, bottom, right, top with y up."""
    left, bottom, right, top = box
    return (left, -top, right - left, top - bottom)


def _closed(sub: Subpath) -> Array:
    """Return a chain's points with its implied straight closing edge written out, for it bends as well."""
    start, end = sub.points[0], sub.points[-1]
    if not sub.closed or bool((start == end).all()):
        return sub.points
    step = (start - end) / 3.0
    return np.vstack([sub.points, end + step, start - step, start])


def _curves(points: Array) -> Array:
    """Return a chain's curves, shape (n, 4, 2)."""
    return np.stack([points[0:-1:3], points[1::3], points[2::3], points[3::3]], axis=1)


def _point_and_rate(curves: Array, at: Array) -> tuple[Array, Array]:
    t = at[:, None]
    s = 1.0 - t
    p0, p1, p2, p3 = curves[:, 0], curves[:, 1], curves[:, 2], curves[:, 3]
    point = s**3 * p0 + 3.0 * s**2 * t * p1 + 3.0 * s * t**2 * p2 + t**3 * p3
    rate = 3.0 * (s**2 * (p1 - p0) + 2.0 * s * t * (p2 - p1) + t**2 * (p3 - p2))
    return point, rate


def _nearest_turn(turn: Array, near: float, theta: float) -> Array:
    """Return the turns of places that lie on the sheet where `turn` does, next to `near`: past its back they repeat."""
    period = 360.0 * 2.0 * math.pi / abs(theta)
    return np.asarray(turn - period * np.rint((turn - near) / period))
