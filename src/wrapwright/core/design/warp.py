"""Outlines bent onto the flat wrap, true to a stated error."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, Subpath
from wrapwright.core.design.placement import Placement

Array = NDArray[np.float64]


def bent(path: Path, placement: Placement, *, error_mm: float = 0.005) -> Path:
    """Return a path in local mm as it lies on the flat paper, nowhere more than `error_mm` from its true image.

    Rigid lays move control points. A level lay turns every curve, straight lines too, into cubics that share
    end points and end tangents with the true image; each curve is split into so many equal parts that the
    remainder of Hermite interpolation, max |f''''| / 384, stays under the error (any text on numerical analysis).
    """
    if not path.subpaths:
        return path
    if placement.lay != "level" or placement.wrap.theta == 0.0:
        return path.mapped(placement.to_flat)
    closed = [_with_closing_edge(sub) for sub in path.subpaths]
    turned = [_turned(sub.points, placement.turn_deg) for sub in closed]
    curves = np.concatenate([_curves(points) for points in turned])
    counts = splits(curves, placement, error_mm)
    ends, handles_out, handles_in = _images(curves, counts, placement)
    out, first = [], 0
    piece_starts = np.concatenate([[0], np.cumsum(counts)])
    for sub, points in zip(closed, turned, strict=True):
        last = first + (len(points) - 1) // 3
        pieces = slice(piece_starts[first], piece_starts[last])
        out.append(
            Subpath(_chain(ends[0][pieces], handles_out[pieces], handles_in[pieces], ends[1][pieces]), sub.closed)
        )
        first = last
    return Path(tuple(out))


def _with_closing_edge(sub: Subpath) -> Subpath:
    """Return the subpath with its implied straight closing edge written out, for it bends as well."""
    start, end = sub.points[0], sub.points[-1]
    if not sub.closed or bool((start == end).all()):
        return sub
    step = (start - end) / 3.0
    return Subpath(np.vstack([sub.points, end + step, start - step, start]), closed=True)


def _turned(points: Array, degrees: float) -> Array:
    """Return points turned clockwise as seen."""
    if degrees == 0.0:
        return points
    angle = math.radians(-degrees)
    cos, sin = math.cos(angle), math.sin(angle)
    turned: Array = points @ np.array([[cos, sin], [-sin, cos]])
    return turned


def _curves(points: Array) -> Array:
    """Return a chain's curves, shape (n, 4, 2)."""
    return np.stack([points[0:-1:3], points[1::3], points[2::3], points[3::3]], axis=1)


def splits(curves: Array, placement: Placement, error_mm: float) -> NDArray[np.int64]:
    """Return into how many equal parts each curve must be split.

    With u = arc at the centre's height over the radius R and v = R + b, the image is v exp(iu) turned. The bound
    on its fourth derivative comes from Leibniz's rule and the bounds of a', a'', a''', b', b'', b''' of a cubic,
    which are the largest differences of its control points times 3, 6 and 6. It falls with the fourth power
    of the number of parts.
    """
    wrap = placement.wrap
    k = abs(wrap.theta) / wrap.turn_length(placement.up_mm)
    steps = [6.0 / math.factorial(3 - n) * np.abs(np.diff(curves, n=n, axis=1)).max(axis=1) for n in (1, 2, 3)]
    (a1, b1), (a2, b2), (a3, b3) = (step.T for step in steps)
    far = 1.0 + k * np.abs(curves[:, :, 1]).max(axis=1)
    # Derivatives 1..4 of exp(iu), each already divided by k.
    e1, e2 = a1, a2 + k * a1**2
    e3 = a3 + 3.0 * k * a1 * a2 + k**2 * a1**3
    e4 = 4.0 * k * a1 * a3 + 3.0 * k * a2**2 + 6.0 * k**2 * a1**2 * a2 + k**3 * a1**4
    fourth = far * e4 + k * (4.0 * b1 * e3 + 6.0 * b2 * e2 + 4.0 * b3 * e1)
    parts: NDArray[np.int64] = np.maximum(1, np.ceil((fourth / 384.0 / error_mm) ** 0.25)).astype(np.int64)
    return parts


def _images(curves: Array, counts: NDArray[np.int64], placement: Placement) -> tuple[tuple[Array, Array], Array, Array]:
    """Return the pieces' end points, and the control points after their start and before their end."""
    which = np.repeat(np.arange(len(curves)), counts)
    rank = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    parts = counts[which].astype(np.float64)
    source = curves[which]
    start, rate_start = _point_and_rate(source, rank / parts)
    end, rate_end = _point_and_rate(source, (rank + 1.0) / parts)
    # Whole curves keep their exact ends, so that neighbours still meet to the last digit.
    third = (1.0 / (3.0 * parts))[:, None]
    flat_start, flat_end = _flat(start, placement), _flat(end, placement)
    return (
        (flat_start, flat_end),
        flat_start + _carried(start, rate_start * third, placement),
        flat_end - _carried(end, rate_end * third, placement),
    )


def _point_and_rate(curves: Array, at: Array) -> tuple[Array, Array]:
    """Return the point and the derivative of each curve at its parameter."""
    t = at[:, None]
    p0, p1, p2, p3 = curves[:, 0], curves[:, 1], curves[:, 2], curves[:, 3]
    s = 1.0 - t
    point = s**3 * p0 + 3.0 * s**2 * t * p1 + 3.0 * s * t**2 * p2 + t**3 * p3
    rate = 3.0 * (s**2 * (p1 - p0) + 2.0 * s * t * (p2 - p1) + t**2 * (p3 - p2))
    return point, rate


def _place(points: Array, placement: Placement) -> tuple[Array, Array]:
    """Return turn and wall position of points in the element's frame after its own turn."""
    circle = placement.wrap.turn_length(placement.up_mm)
    return placement.turn + 360.0 * (placement.laps + points[:, 0] / circle), placement.up_mm + points[:, 1]


def _flat(points: Array, placement: Placement) -> Array:
    x, y = placement.wrap.to_flat(*_place(points, placement))
    return np.stack([x, y], axis=1)


def _carried(points: Array, steps: Array, placement: Placement) -> Array:
    """Return small steps at points as the level lay carries them (its derivative there)."""
    wrap = placement.wrap
    turn, up = _place(points, placement)
    lean = wrap.theta * (turn / 360.0 - 0.5)
    along = steps[:, 0] * (wrap.lower_mm + wrap.theta * up) / wrap.turn_length(placement.up_mm)
    rise = steps[:, 1]
    cos, sin = np.cos(lean), np.sin(lean)
    return np.stack([along * cos + rise * sin, rise * cos - along * sin], axis=1)


def _chain(starts: Array, outs: Array, ins: Array, ends: Array) -> Array:
    """Return the pieces as one chain of control points."""
    points = np.empty((3 * len(starts) + 1, 2))
    points[0::3] = np.vstack([starts, ends[-1:]])
    points[1::3], points[2::3] = outs, ins
    return points
