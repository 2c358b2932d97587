"""Rectangles on the fewest sheets for a trimmer: every cut goes from edge to edge of what lies before it."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.attempt import Attempt, sheets_in, sheets_used
from wrapwright.core.sheet.pack.bounds import fewest_sheets
from wrapwright.core.sheet.pack.values import CutBin, Item

LONGEST = 2**24  # sides are weighed in single precision, exact up to here
MOST_PIECES = 20_000
FIRST_TRIES = 12
FIRST_PIECES = 2000  # with more pieces, fewer tries
# How many steps a worse trial may look back, and how many an attempt takes: a hasty one, then thorough ones. By then
# nothing moves any more, and beginning anew helps more than going on.
HASTY = (500, 60_000)
THOROUGH = (3000, 800_000)
TIDY_STEPS = 50  # between two looks at whether everything lies better


class Packing:
    """The fewest sheets found so far, better from call to call.

    A layout is there at once. Each further search takes one sheet away and lays its items among the others until all
    lie or the search is begun anew. The same items, seed and number of steps give the same trees on every machine.
    """

    def __init__(self, items: Sequence[Item], sheet: tuple[int, int], *, seed: int, bound: int = 0) -> None:
        """Lay everything a first time.

        Args:
            items: width, height, copies and whether it may be turned by a quarter, in whole numbers.
            sheet: width and height.
            seed: any whole number.
            bound: sheets needed at least, when more is known than areas tell.

        Raises:
            WrapwrightError: no sheet or item, or one of no size or of more than 2^24; an item larger than the sheet;
                more than 20,000 pieces.
        """
        _check(items, sheet)
        self._sheet = sheet
        self.bound = max(bound, fewest_sheets(items, sheet))
        self._attempt = Attempt(items, seed)
        self._kept = self._attempt.now.copy()
        self._tried, self._begun, self._span = 0, 0, 0
        self._lay_first()

    @property
    def best(self) -> tuple[CutBin, ...]:
        """One tree a sheet."""
        return self._attempt.cuts(self._kept)

    @property
    def sheets(self) -> int:
        """How many sheets the best layout takes."""
        return self._sheets

    @property
    def proven(self) -> bool:
        """Whether no layout takes fewer sheets."""
        return self._sheets <= self.bound

    def advance(self, steps: int) -> bool:
        """Return whether no fewer sheets are possible, after at most so many steps of search."""
        while steps > 0 and not self.proven:
            if self._tried >= self._span:
                self._begin()
            taken = self._attempt.search(min(steps, self._span - self._tried))
            self._tried += taken
            steps -= taken
            if self._attempt.lies:
                self._keep()
        return self.proven

    def tidy(self, steps: int) -> None:
        """Search on for so many steps for the same number of sheets (or fewer) with fewer and larger rests.

        What waste there is lies together then, and fewer strokes cut it off. The next call of `advance` begins its
        search anew.
        """
        attempt = self._attempt
        attempt.take(self._kept)
        attempt.begin(HASTY[0])
        least = attempt.badness()
        while steps > 0 and attempt.count:
            steps -= attempt.search(min(steps, TIDY_STEPS), go_on=True)
            if attempt.lies and attempt.badness() < least:
                least = attempt.badness()
                self._kept = attempt.now.copy()
        self._sheets = sheets_used(self._kept)
        self._begun, self._tried = 0, self._span

    def _lay_first(self) -> None:
        """Lay everything some times from nothing and keep the best."""
        attempt, least = self._attempt, float("inf")
        for _ in range(max(1, min(FIRST_TRIES, FIRST_PIECES // max(attempt.count, 1)))):
            attempt.clear(0, self._sheet)
            attempt.lay()
            size = sheets_used(attempt.now) + attempt.badness()
            if size < least:
                least = size
                self._kept = attempt.now.copy()
        attempt.take(self._kept)
        self._keep()

    def _keep(self) -> None:
        """Keep the layout, in which every piece lies, and begin the search for one with a sheet less."""
        while sheets_in(self._attempt.now) > sheets_used(self._attempt.now):
            self._attempt.dissolve()
        self._kept = self._attempt.now.copy()
        self._sheets = sheets_used(self._kept)
        self._begun = 0
        self._begin()

    def _begin(self) -> None:
        """Begin with one sheet less than the best: twice with its emptiest one taken away, then from nothing."""
        attempt = self._attempt
        if self._begun < 2:
            attempt.take(self._kept)
            while sheets_in(attempt.now) > max(self._sheets - 1, 0):
                attempt.dissolve()
        else:
            attempt.clear(self._sheets - 1, self._sheet)
        patience, self._span = THOROUGH if self._begun else HASTY
        attempt.begin(patience)
        self._tried = 0
        self._begun += 1


def _check(items: Sequence[Item], sheet: tuple[int, int]) -> None:
    """Refuse what cannot be meant, with its figure."""
    if not (0 < sheet[0] <= LONGEST and 0 < sheet[1] <= LONGEST):
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"A sheet is {sheet[0]} x {sheet[1]}; its sides must be from 1 to {LONGEST}.",
            remedy="Correct the paper or its margins.",
        )
    for index, (width, height, copies, turns) in enumerate(items):
        if width <= 0 or height <= 0 or copies < 0:
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1} is {width} x {height}, {copies} times; sides must be above 0, copies not below.",
                remedy="Correct the order.",
            )
        if not ((width <= sheet[0] and height <= sheet[1]) or (turns and width <= sheet[1] and height <= sheet[0])):
            raise WrapwrightError(
                Kind.UNUSABLE,
                f"Item {index + 1}, {width} x {height}, does not fit a sheet of {sheet[0]} x {sheet[1]}"
                f"{', turned or not' if turns else ' unturned'}.",
                remedy="Take a larger paper, or split it into panels.",
            )
    count = sum(item[2] for item in items)
    if count > MOST_PIECES:
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"{count} pieces are more than {MOST_PIECES} at once.",
            remedy="Split the order; equal pieces are best cut from stock in whole sheets.",
        )
