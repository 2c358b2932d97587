"""The least number of strokes for a layout, proven: every order of edge-to-edge cuts is weighed, nothing assumed."""

from __future__ import annotations

from wrapwright.core.sheet.cut.blocks import BOTTOM, LEFT, RIGHT, TOP, Rect

MOST = 12  # pieces up to which the search is meant

Field = tuple[int, int, int, int]


def least_strokes(pieces: tuple[Rect, ...], field: Field) -> int | None:
    """Return the fewest strokes that free every piece with its true sides cut; None when no order can.

    Every line on which any side of any piece lies is tried at every step, so that waste may be cut too. A true side on
    the edge of the field counts as cut. Lengths in any whole unit. Meant for up to `MOST` pieces: the time grows fast.
    """
    return _Weigher().least(field, tuple(sorted(pieces)))


class _Weigher:
    def __init__(self) -> None:
        self.known: dict[tuple[Field, tuple[Rect, ...]], int | None] = {}

    def least(self, field: Field, pieces: tuple[Rect, ...]) -> int | None:
        if not pieces or (len(pieces) == 1 and _free(pieces[0], field)):
            return 0
        key = (field, pieces)
        if key not in self.known:
            ways = [way for axis in (0, 1) for way in self._ways(field, pieces, axis)]
            self.known[key] = min(ways) if ways else None
        return self.known[key]

    def _ways(self, field: Field, pieces: tuple[Rect, ...], axis: int) -> list[int]:
        found = []
        for at in sorted({one[side] for one in pieces for side in (axis, axis + 2)}):
            crossed = any(one[axis] < at < one[axis + 2] for one in pieces)
            if crossed or not field[axis] < at < field[axis + 2]:
                continue
            low, high = list(field), list(field)
            low[axis + 2] = high[axis] = at
            one = self.least((low[0], low[1], low[2], low[3]), tuple(p for p in pieces if p[axis + 2] <= at))
            two = self.least((high[0], high[1], high[2], high[3]), tuple(p for p in pieces if p[axis] >= at))
            if one is not None and two is not None:
                found.append(1 + one + two)
        return found


def _free(piece: Rect, field: Field) -> bool:
    true = piece[4]
    return all(not true & side or piece[i] == field[i] for i, side in enumerate((LEFT, BOTTOM, RIGHT, TOP)))
