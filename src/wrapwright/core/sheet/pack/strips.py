"""Rectangles on the shortest piece of a roll: every cut goes from edge to edge of what lies before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.attempt import Attempt
from wrapwright.core.sheet.pack.bounds import shortest_strip
from wrapwright.core.sheet.pack.trimmer import LONGEST, MOST_PIECES
from wrapwright.core.sheet.pack.values import Cut, CutBin, Item

FIRST_TRIES = 12
FIRST_PIECES = 2000
FIRST_SHARE = 8  # of the room between bound and best: so much less is asked for at first
PATIENCE = 500  # steps that a worse trial may look back
SPAN = 100_000  # steps of an attempt at one length


class Strip:
    """The shortest strip found so far, better from call to call.

    A layout is there at once. Each further search asks for a length between the bound and the best: nearer to the
    best when one was not found, nearer to the bound when one was. The same items, seed and steps give the same trees.
    """

    def __init__(self, items: Sequence[Item], width: int, *, seed: int, bound: int = 0) -> None:
        """Lay everything a first time.

        Args:
            items: width (across the strip), height (along it), copies and whether it may be turned by a quarter.
            width: of the strip.
            seed: any whole number.
            bound: length needed at least, when more is known than areas tell.

        Raises:
            WrapwrightError: a strip of no width, an item of no size or too wide for the strip, too much at once.
        """
        _check(items, width)
        self._width = width
        self.bound = max(bound, shortest_strip(items, width))
        self._attempt = Attempt(items, seed)
        self._share, self._tried, self._goal = FIRST_SHARE, 0, 0
        self._kept = self._first()

    @property
    def best(self) -> CutBin:
        """The strip's tree, y along the strip; a strip of length 0 when there is nothing to lay."""
        return self._kept

    @property
    def length(self) -> int:
        """Length of the best strip."""
        return self._kept.height

    @property
    def proven(self) -> bool:
        """Whether no layout is shorter."""
        return self.length <= self.bound

    def advance(self, steps: int) -> bool:
        """Return whether no shorter strip is possible, after at most so many steps of search."""
        while steps > 0 and not self.proven:
            if self._goal == 0 or self._tried >= SPAN:
                self._begin()
            taken = self._attempt.search(min(steps, SPAN - self._tried))
            self._tried += taken
            steps -= taken
            if self._attempt.lies:
                self._kept = shortened(self._attempt.cuts(self._attempt.now)[0])
                self._goal = 0
                self._share = max(2, self._share // 2)
            elif self._tried >= SPAN:
                self._share *= 2
        return self.proven

    def _begin(self) -> None:
        """Begin from nothing with a length between the bound and the best."""
        room = self.length - self.bound
        self._share = min(self._share, room)
        self._goal = self.length - max(1, room // max(self._share, 1))
        self._attempt.clear(1, (self._width, self._goal))
        self._attempt.begin(PATIENCE)
        self._tried = 0

    def _first(self) -> Cut:
        """Return the best of some layouts on a strip that is long enough."""
        attempt = self._attempt
        if attempt.count == 0:
            return Cut(0, 0, self._width, 0)
        rows = [max(attempt.goods[:2, one]) for one in range(attempt.count)]
        room = (self._width, int(min(sum(map(int, rows)), LONGEST)))
        found = []
        for _ in range(max(1, min(FIRST_TRIES, FIRST_PIECES // attempt.count))):
            attempt.clear(1, room)
            attempt.lay()
            found += [shortened(cut) for cut in attempt.cuts(attempt.now)[:1] if len(attempt.cuts(attempt.now)) == 1]
        if not found:
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"{attempt.count} pieces do not fit {LONGEST} of a strip {self._width} wide.",
                remedy="Split the order.",
            )
        return min(found, key=lambda cut: cut.height)


def shortened(cut: Cut) -> Cut:
    """Return the strip without what is free at its end over its whole width."""
    spare = _spare(cut)
    return _without(cut, spare) if spare else cut


def _spare(cut: Cut) -> int:
    """Return how much can be cut off the upper end of a rectangle without touching a piece."""
    if not cut.children:
        return cut.height if cut.item < 0 else 0
    if cut.along == "x":
        return min(map(_spare, cut.children))
    total = 0
    for child in reversed(cut.children):
        spare = _spare(child)
        total += spare
        if spare < child.height:
            break
    return total


def _without(cut: Cut, spare: int) -> Cut:
    """Return a rectangle with so much cut off its upper end."""
    height = cut.height - spare
    if cut.along == "x":
        return replace(cut, height=height, children=tuple(_without(child, spare) for child in cut.children))
    if cut.along == "y":
        kept = []
        for child in cut.children:
            over = child.y + child.height - (cut.y + height)
            if over < child.height:
                kept.append(_without(child, over) if over > 0 else child)
        if len(kept) == 1:
            return kept[0]
        return replace(cut, height=height, children=tuple(kept))
    return replace(cut, height=height)


def _check(items: Sequence[Item], width: int) -> None:
    """Refuse what cannot be meant, with its figure."""
    if not 0 < width <= LONGEST:
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"A strip is {width} wide; it must be from 1 to {LONGEST}.",
            remedy="Correct the roll or its margins.",
        )
    for index, (across, along, copies, turns) in enumerate(items):
        if across <= 0 or along <= 0 or copies < 0 or max(across, along) > LONGEST:
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1} is {across} x {along}, {copies} times; sides must be from 1 to {LONGEST}, "
                "copies not below 0.",
                remedy="Correct the order.",
            )
        if across > width and not (turns and along <= width):
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1}, {across} x {along}, is wider than the strip of {width}"
                f"{', turned or not' if turns else ' and may not be turned'}.",
                remedy="Take a wider roll, or split it into panels.",
            )
    count = sum(item[2] for item in items)
    if count > MOST_PIECES:
        raise WrapwrightError(
            Kind.UNUSABLE, f"{count} pieces are more than {MOST_PIECES} at once.", remedy="Split the order."
        )
