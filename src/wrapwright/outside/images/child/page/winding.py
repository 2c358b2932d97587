"""Clips with the even-odd rule, turned into ones that nonzero winding fills alike."""

from __future__ import annotations

from dataclasses import replace

from wrapwright.outside.images.child.page.figure import Curve, Curves, Figure, Point, extent
from wrapwright.outside.images.child.page.stroke import flat

_COARSE = 1e-3  # of a subpath's extent: only used to tell which lies within which


def with_odd_clips(figures: list[Figure]) -> list[Figure]:
    """Return the figures with every clip of several subpaths read by the even-odd rule.

    The library does not tell a clip's rule, so both are tried against the page. Subpaths within an even number of
    others run anticlockwise, the rest clockwise: right as long as they do not cross.
    """
    return [replace(figure, clips=[_alternating(clip) for clip in figure.clips]) for figure in figures]


def has_holes(figures: list[Figure]) -> bool:
    """Return whether any clip has several subpaths, so that its rule matters."""
    return any(len(clip) > 1 for figure in figures for clip in figure.clips)


def _alternating(clip: Curves) -> Curves:
    """Return a clip's subpaths run one way or the other by how many others they lie within."""
    if len(clip) < 2:
        return clip
    rings = [flat(curve, _reach(curve) * _COARSE) for curve in clip]
    out = []
    for at, curve in enumerate(clip):
        depth = sum(_inside(rings[at][0], ring) for other, ring in enumerate(rings) if other != at)
        wanted = depth % 2 == 0
        out.append(curve if (_area(rings[at]) > 0) == wanted else (curve[0][::-1], curve[1]))
    return out


def _reach(curve: Curve) -> float:
    left, bottom, right, top = extent([curve])
    return max(right - left, top - bottom, 1e-9)


def _area(ring: list[Point]) -> float:
    """Return twice the ring's area, positive when it runs anticlockwise."""
    edges = zip(ring, [*ring[1:], ring[0]], strict=True)
    return float(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in edges))


def _inside(point: Point, ring: list[Point]) -> bool:
    """Return whether a point lies within a ring, by the edges a ray to the right crosses."""
    x, y = point
    within = False
    for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            within = not within
    return within
