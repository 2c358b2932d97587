"""Where a part must not be put because of another: the no-fit region of two outlines (their Minkowski difference)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from wrapwright.core.sheet.nest.outlines import Array, Lying, quarter_turned

_COARSE_MM = 0.15  # how much an outline may grow to have fewer corners
_FEW_CORNERS = 16


class NoFit:
    """The no-fit regions of pairs of outlines, each found once.

    An outline is known by its number, given by whoever asks, and its turn.
    """

    def __init__(self, sets: Sequence[Sequence[Lying]]) -> None:
        """Take the outlines: a sequence of turns for each number."""
        self._lyings = {(number, one.turn): one for number, lyings in enumerate(sets) for one in lyings}
        self._parts: dict[tuple[int, int], list[Array]] = {}
        self._rests: dict[int, tuple[Lying, list[Array]]] = {}
        self._found: dict[tuple[tuple[int, int], tuple[int, int]], Any] = {}

    def region(self, lies: tuple[int, int], comes: tuple[int, int]) -> Any:
        """Return where the corner of what comes must not lie inside, counted from the corner of what lies already."""
        if (lies, comes) not in self._found:
            from shapely import affinity

            # What one keeps from the other is what the other keeps from it, seen from there.
            if (comes, lies) in self._found:
                self._found[lies, comes] = affinity.scale(self._found[comes, lies], -1.0, -1.0, origin=(0.0, 0.0))
            else:
                self._found[lies, comes] = no_fit(self._convex(lies), self._convex(comes))
        return self._found[lies, comes]

    def _convex(self, which: tuple[int, int]) -> list[Array]:
        if which not in self._parts:
            # A quarter turn of a kind has the same parts, turned.
            number, turn = which
            if number not in self._rests:
                first = next(one for (other, _), one in self._lyings.items() if other == number)
                self._rests[number] = first, convex_parts(coarse(first.room))
            first, parts = self._rests[number]
            self._parts[which] = [quarter_turned(part, first.size, turn - first.turn) for part in parts]
        return self._parts[which]


def no_fit(lies: Sequence[Array], comes: Sequence[Array]) -> Any:
    """Return the region of moves of one outline (convex parts) that make it overlap the other."""
    import shapely

    sums = [(one[:, None, :] - other[None, :, :]).reshape(-1, 2) for one in lies for other in comes]
    which = np.repeat(np.arange(len(sums)), [len(points) for points in sums])
    return shapely.union_all(shapely.convex_hull(shapely.multipoints(np.concatenate(sums), indices=which)))


def coarse(ring: Array) -> Array:
    """Return a ring of fewer corners that holds the outline, nowhere more than twice 0.15 mm outside it."""
    from shapely import Polygon

    if len(ring) <= _FEW_CORNERS:
        return ring
    grown = Polygon(ring).buffer(_COARSE_MM, join_style="mitre", mitre_limit=2.0).exterior
    fewer = Polygon(grown).simplify(_COARSE_MM)
    return np.asarray(fewer.exterior.coords, dtype=np.float64)[:-1]


def convex_parts(ring: Array) -> list[Array]:
    """Return convex outlines that together are the one given."""
    import shapely

    polygon = shapely.Polygon(ring)
    hull = polygon.convex_hull
    if hull.area - polygon.area < 1e-9 * hull.area:
        return [np.asarray(hull.exterior.coords, dtype=np.float64)[:-1]]
    parts = list(shapely.constrained_delaunay_triangles(polygon).geoms)
    return [np.asarray(one.exterior.coords, dtype=np.float64)[:-1] for one in _merged(parts)]


def _merged(parts: list[Any]) -> list[Any]:
    """Return convex parts put together as long as what comes of it is convex."""
    made: list[Any] = []
    while parts:
        one = parts.pop()
        for at, other in enumerate(parts):
            both = one.union(other)
            if both.geom_type == "Polygon" and both.convex_hull.area - both.area < 1e-9 * both.area:
                parts[at] = both
                break
        else:
            made.append(one)
    return made
