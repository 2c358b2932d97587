"""Blocks of paper in hand, in whole micrometres: a rectangle, which of its edges are cut, and the pieces in it."""

from __future__ import annotations

from typing import NamedTuple

LEFT, BOTTOM, RIGHT, TOP = 1, 2, 4, 8
ALL_CUT = LEFT | BOTTOM | RIGHT | TOP
ALIKE = 25  # micrometres: a pixel's rounding, far below what a fence can be set to
_SHELF = 1000
Rect = tuple[int, int, int, int, int]  # left, bottom, right, top, which sides must be cut exactly there


class Block(NamedTuple):
    """A block; its lower left corner is the origin, `cut` says which of its edges are cut edges."""

    width: int
    height: int
    cut: int
    pieces: tuple[Rect, ...]


class Line(NamedTuple):
    """A cut across the whole block: upright at an x, else level at a y."""

    upright: bool
    at: int


def turned_sides(sides: int) -> int:
    """Return the sides after a quarter turn anticlockwise."""
    return (sides << 1) & ALL_CUT | sides >> 3


def turned(block: Block) -> Block:
    """Return the block after a quarter turn anticlockwise."""
    height = block.height
    pieces = sorted((height - y1, x0, height - y0, x1, turned_sides(true)) for x0, y0, x1, y1, true in block.pieces)
    return Block(height, block.width, turned_sides(block.cut), tuple(pieces))


def alike(one: Block, other: Block) -> bool:
    """Return whether two blocks are cut alike: the same but for less than a trimmer can show."""
    if one.cut != other.cut or len(one.pieces) != len(other.pieces):
        return False
    if abs(one.width - other.width) > ALIKE or abs(one.height - other.height) > ALIKE:
        return False
    return all(
        a[4] == b[4] and all(abs(p - q) <= ALIKE for p, q in zip(a[:4], b[:4], strict=True))
        for a, b in zip(one.pieces, other.pieces, strict=True)
    )


class Kinds:
    """Gives every block the one that stands for it, its turns and all that are cut alike."""

    def __init__(self) -> None:
        self._known: dict[Block, tuple[Block, int]] = {}
        self._shelves: dict[tuple[int, int, int, int], list[Block]] = {}

    def settled(self, block: Block) -> tuple[Block, int]:
        """Return the block that stands for this one, and how many quarter turns anticlockwise lead to it.

        An uncut sheet is not turned: where its first strokes go should not depend on what is on it.
        """
        known = self._known.get(block)
        if known is None:
            known = self._known[block] = self._find(block)
        return known

    def _find(self, block: Block) -> tuple[Block, int]:
        now = block
        for quarters in range(4 if block.cut else 1):
            now = turned(now) if quarters else now
            for shelf in _shelves(now):
                for other in self._shelves.get(shelf, ()):
                    if alike(now, other):
                        return other, quarters
        home = (len(block.pieces), block.cut, block.width // _SHELF, block.height // _SHELF)
        self._shelves.setdefault(home, []).append(block)
        return block, 0


def _shelves(block: Block) -> set[tuple[int, int, int, int]]:
    """Return where blocks like this one may be kept."""
    both = [{(extent + off) // _SHELF for off in (-ALIKE, ALIKE)} for extent in (block.width, block.height)]
    return {(len(block.pieces), block.cut, across, along) for across in both[0] for along in both[1]}


def turned_back(line: Line, block: Block, quarters: int) -> Line:
    """Return a line of the turned block `block` as it lies before its quarter turns anticlockwise."""
    upright, at = line
    width, height = block.width, block.height
    for _ in range(quarters):
        upright, at = (False, width - at) if upright else (True, at)
        width, height = height, width
    return Line(upright, at)


def side_back(side: int, quarters: int) -> int:
    """Return a side of the turned block as it lies before its quarter turns anticlockwise."""
    for _ in range((4 - quarters) % 4):
        side = turned_sides(side)
    return side


def own_line(line: Line, kind: Block, block: Block) -> Line:
    """Return a line of `kind` as it lies in a block that is cut alike: on the same side of the same piece."""
    axis = 0 if line.upright else 1
    pairs = list(zip(kind.pieces, block.pieces, strict=True))
    ends = [own[axis + 2] for one, own in pairs if one[axis + 2] == line.at]
    begins = [own[axis] for one, own in pairs if one[axis] == line.at]
    return Line(line.upright, max(ends) if ends else min(begins, default=line.at))


def halves(block: Block, line: Line) -> tuple[Block, Block]:
    """Return the two blocks that a cut leaves: left and right, or lower and upper; every piece is in one of them."""
    at, width, height = line.at, block.width, block.height
    if line.upright:
        low = [one for one in block.pieces if one[0] + one[2] < 2 * at]
        high = [(x0 - at, y0, x1 - at, y1, true) for x0, y0, x1, y1, true in block.pieces if x0 + x1 >= 2 * at]
        sizes = ((at, height, block.cut | RIGHT), (width - at, height, block.cut | LEFT))
    else:
        low = [one for one in block.pieces if one[1] + one[3] < 2 * at]
        high = [(x0, y0 - at, x1, y1 - at, true) for x0, y0, x1, y1, true in block.pieces if y0 + y1 >= 2 * at]
        sizes = ((width, at, block.cut | TOP), (width, height - at, block.cut | BOTTOM))
    return Block(*sizes[0], tuple(low)), Block(*sizes[1], tuple(sorted(high)))


def trims(block: Block) -> list[Line]:
    """Return the outer strokes still to make: lines of true sides beyond which there is nothing but waste."""
    found = []
    both = ((True, 0, LEFT, RIGHT, block.width), (False, 1, BOTTOM, TOP, block.height))
    for upright, axis, near, far, extent in both:
        low = min(one[axis] for one in block.pieces)
        high = max(one[axis + 2] for one in block.pieces)
        if low > 0 and any(one[axis] == low and one[4] & near for one in block.pieces):
            found.append(Line(upright, low))
        if high < extent and any(one[axis + 2] == high and one[4] & far for one in block.pieces):
            found.append(Line(upright, high))
    return found


def partings(block: Block, *, upright: bool) -> list[list[Line]]:
    """Return, for each gap that runs through the whole block, the one or two lines worth cutting in it, in order."""
    axis, near, far = (0, LEFT, RIGHT) if upright else (1, BOTTOM, TOP)
    ordered = sorted(block.pieces, key=lambda one: one[axis])
    found, reach, true = [], ordered[0][axis + 2], bool(ordered[0][4] & far)
    for i, one in enumerate(ordered[1:], 1):
        begin = one[axis]
        if begin >= reach:
            starts_true = any(other[axis] == begin and other[4] & near for other in ordered[i:])
            places = ([reach] if true else []) + ([begin] if starts_true and not (true and begin == reach) else [])
            found.append([Line(upright, at) for at in places or [(reach + begin) // 2]])
        end, is_true = one[axis + 2], bool(one[4] & far)
        if end > reach:
            reach, true = end, is_true
        elif end == reach:
            true = true or is_true
    return found
