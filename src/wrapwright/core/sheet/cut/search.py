"""The fewest strokes that free every piece of a block, and the order that needs them.

Each stroke goes from edge to edge of the block under the blade. Three observations keep the search small and lose
nothing: only lines of sides that must be cut are worth cutting; waste beyond the outermost such line may come off
before any stroke square to that line; and blocks that are turns of each other are one.
"""

from __future__ import annotations

from typing import NamedTuple

from wrapwright.core.sheet.cut.blocks import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Block,
    Kinds,
    Line,
    Rect,
    halves,
    partings,
    trims,
)

EXACT = 12  # pieces up to which every order is weighed
_ENOUGH = 6000  # blocks after which a search takes no liberties any more
MOST = 60_000  # pieces in all blocks met, after which the known way is followed: some seconds
Hints = dict[tuple[Rect, ...], tuple[Line, ...]]


class Limits(NamedTuple):
    """What the trimmer can do, in micrometres."""

    longest: int
    least: int


class Hold(NamedTuple):
    """How a stroke is made.

    `low`: whether the left or lower half is held; `fence`: its width, 0 where no cut edge lies against the fence and
    the stroke follows a printed line; `fault`: "", "long" or "narrow".
    """

    low: bool
    fence: int
    fault: str


class Found(NamedTuple):
    """The best way through a block: strokes beyond the trimmer, strokes, strokes by eye, kinds of block, first line."""

    faults: int
    strokes: int
    by_eye: int
    kinds: int  # one bit a kind of block that is cut
    line: Line | None


DONE = Found(0, 0, 0, 0, None)
STUCK = Found(1_000_000, 0, 0, 0, None)  # pieces that no cut from edge to edge can part


def held(block: Block, line: Line, limits: Limits) -> Hold:
    """Return how a stroke is made: of the halves that the clamp can hold, the one with a cut edge, pieces and width."""
    extent, length = (block.width, block.height) if line.upright else (block.height, block.width)
    axis, near, far = (0, LEFT, RIGHT) if line.upright else (1, BOTTOM, TOP)
    ways = []
    for low, width, side in ((True, line.at, near), (False, extent - line.at, far)):
        whole = any((one[axis] < line.at) == low for one in block.pieces)
        ways.append((width >= limits.least, bool(block.cut & side), whole, width, low))
    can, is_cut, _, width, low = max(ways)
    fault = "" if can and length <= limits.longest else "long" if can else "narrow"
    return Hold(low, width if is_cut else 0, fault)


class Search:
    """Remembers the best way through every kind of block it has met.

    Args:
        limits: the trimmer's.
        hints: for sets of pieces, with the lower left corner of the box round them as origin, lines that a known way
            of cutting uses; blocks of many pieces are cut no worse than by those.

        most: pieces in all blocks met, after which the known way is followed without weighing others.

    Attributes:
        met: pieces in all blocks met so far.
        bound: whether the limits could matter for any block met so far.
    """

    def __init__(self, limits: Limits, hints: Hints | None = None, *, most: int = MOST) -> None:
        self.limits = limits
        self.hints = dict(hints or {})
        self.bound = False
        self._begun = self.met = 0
        self._most = most
        self._found: dict[Block, Found] = {}
        self.kinds = Kinds()

    def begin(self) -> None:
        """Allow itself the full liberty for the next sheet again."""
        self._begun = len(self._found)

    def best(self, block: Block) -> Found:
        """Return the best way through a block; its line is one of the block that stands for it."""
        if not block.pieces:
            return DONE
        key = self.kinds.settled(block)[0]
        known = self._found.get(key)
        if known is not None:
            return known
        best, weight = (DONE if len(key.pieces) == 1 else STUCK), None
        for line in self._lines(key):
            hold = held(key, line, self.limits)
            low, high = halves(key, line)
            one, two = self.best(low), self.best(high)
            faults = one.faults + two.faults + bool(hold.fault)
            by_eye = one.by_eye + two.by_eye + (hold.fence == 0)
            kinds = one.kinds | two.kinds
            this = (faults, one.strokes + two.strokes + 1, by_eye, kinds.bit_count(), -hold.fence)
            if weight is None or this < weight:
                best, weight = Found(*this[:3], kinds, line), this
        if best.line is not None:
            best = best._replace(kinds=best.kinds | 1 << len(self._found))
        self._found[key] = best
        self.met += len(key.pieces)
        return best

    def _lines(self, block: Block) -> list[Line]:
        """Return the first strokes worth weighing."""
        outer = _in_turn(block)
        if self.met > self._most and len(block.pieces) > 1:
            known = outer[:1] or self._known(block)[:1]
            if known:
                return known
        if self._tight(block):
            self.bound = True
            return [*outer, *self._partings(block, upright=True), *self._partings(block, upright=False)]
        uprights = [line for line in outer if line.upright]
        if outer and len(uprights) not in (0, len(outer)):
            return outer[:1]
        lines = list(outer)
        if not outer or uprights:
            lines += self._partings(block, upright=True)
        if not uprights:
            lines += self._partings(block, upright=False)
        return lines

    def _tight(self, block: Block) -> bool:
        """Return whether the trimmer's limits may forbid to take the outer waste off first."""
        if len(self._found) - self._begun > _ENOUGH:
            return False
        least = min(min(x1 - x0, y1 - y0) for x0, y0, x1, y1, _ in block.pieces)
        return least < self.limits.least or max(block.width, block.height) > self.limits.longest

    def _partings(self, block: Block, *, upright: bool) -> list[Line]:
        gaps = partings(block, upright=upright)
        if len(block.pieces) <= EXACT or len(gaps) <= 2:
            return [line for gap in gaps for line in gap]
        ends = [line for gap in (gaps[0], gaps[-1]) for line in gap]
        told = self._known(block)
        return ends + [line for gap in gaps[1:-1] for line in gap if line in told]

    def _known(self, block: Block) -> list[Line]:
        """Return the lines that a known way of cutting uses first, in this block's own figures."""
        left, bottom = (min(one[axis] for one in block.pieces) for axis in (0, 1))
        known = self.hints.get(cornered(block.pieces), ())
        return [Line(upright, at + (left if upright else bottom)) for upright, at in known]


def cornered(pieces: tuple[Rect, ...]) -> tuple[Rect, ...]:
    """Return the pieces with the lower left corner of the box round them as origin."""
    left, bottom = (min(one[axis] for one in pieces) for axis in (0, 1))
    return tuple((x0 - left, y0 - bottom, x1 - left, y1 - bottom, true) for x0, y0, x1, y1, true in pieces)


def _in_turn(block: Block) -> list[Line]:
    """Return the outer strokes in the order to make them: an edge to measure from each way, then the largest offcut.

    The first edges are those at the right and at the top where they can be: the paper lies as it was printed then,
    the blade on its right.
    """

    def rank(line: Line) -> tuple[bool, bool, int]:
        near, far = (LEFT, RIGHT) if line.upright else (BOTTOM, TOP)
        raw = not block.cut & (near | far)
        extent, length = (block.width, block.height) if line.upright else (block.height, block.width)
        is_near = all(one[0 if line.upright else 1] >= line.at for one in block.pieces)
        return not raw, raw and is_near, -min(line.at, extent - line.at) * length

    return sorted(trims(block), key=rank)
