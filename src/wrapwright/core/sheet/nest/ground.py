"""One sheet being filled: outlines put down one after the other, each where it touches what lies there already."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from wrapwright.core.sheet.nest.kinds import Area, Kind, goes
from wrapwright.core.sheet.nest.nofit import NoFit
from wrapwright.core.sheet.nest.outlines import Lying

_HAIR_MM = 1e-6


@dataclass(frozen=True)
class Down:
    """A copy of a kind on a sheet: the corner of its trim's box from the printable area's corner, and its turn."""

    kind: int
    x: float
    y: float
    turn: int


class Ground:
    """A printable area and what lies on it.

    Attributes:
        down: what lies there.
    """

    def __init__(self, kinds: Sequence[Kind], no_fit: NoFit, area: Area, *, down: Sequence[Down] = ()) -> None:
        """Begin with what lies there already; whether it does so rightly is not asked."""
        self._kinds, self._no_fit, self._area = kinds, no_fit, area
        self.down = list(down)
        self._free: dict[tuple[int, int], tuple[Any, int]] = {}

    def put(self, kind: int, *, upwards: bool = True) -> bool:
        """Lay one copy of a kind as low (or as far left) as it goes; return whether there was room."""
        best: tuple[float, float, float, Down] | None = None
        for lying in self._kinds[kind].lyings:
            for x, y in self._corners(kind, lying):
                reach = (y + lying.ink[3], x + lying.ink[2]) if upwards else (x + lying.ink[2], y + lying.ink[3])
                # Of what reaches as far, the one that lies lower and wider leaves more above it.
                key = (round(reach[0], 3), round(reach[1], 3), float(lying.turn))
                if best is None or key < best[:3]:
                    best = (*key, Down(kind, x, y, lying.turn))
        if best is None:
            return False
        self.down.append(best[3])
        return True

    def _corners(self, kind: int, lying: Lying) -> list[tuple[float, float]]:
        """Return the corners of the region in which a part at a turn may lie."""
        import shapely

        region = self._region(kind, lying)
        if region.is_empty:
            return []
        return [(float(x), float(y)) for x, y in shapely.get_coordinates(region)]

    def _region(self, kind: int, lying: Lying) -> Any:
        """Return where the corner of a part at a turn may lie."""
        import shapely

        which = (kind, lying.turn)
        region, known = self._free.get(which, (None, 0))
        if region is None:
            left, bottom, right, top = lying.ink
            empty = not goes(lying, self._area)
            region = shapely.Polygon() if empty else shapely.box(
                -left, -bottom, max(self._area[0] - right, -left) + _HAIR_MM,
                max(self._area[1] - top, -bottom) + _HAIR_MM,
            )  # fmt: skip
        new = self.down[known:]
        if new and not region.is_empty:
            taken = [
                shapely.affinity.translate(self._no_fit.region((one.kind, one.turn), which), one.x, one.y)
                for one in new
            ]
            region = shapely.difference(region, taken[0] if len(taken) == 1 else shapely.union_all(taken))
        self._free[which] = (region, len(self.down))
        return region


def filled(ground: Ground, order: Sequence[int], left: Sequence[int], *, upwards: bool) -> list[int]:
    """Lay as many copies as go, kind after kind in the order; return how many of each are then still left."""
    still = list(left)
    for kind in order:
        while still[kind] and ground.put(kind, upwards=upwards):
            still[kind] -= 1
    return still
