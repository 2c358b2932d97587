"""Which sheet, and which place on it, the pieces of a list have: every sheet but the last is laid alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

Order = Literal["rows", "piles"]


@dataclass(frozen=True)
class Places:
    """Where the pieces lie.

    Attributes:
        pieces: how many, at least 1.
        a_sheet: how many a sheet holds, at least 1.
        order: "rows": the pieces follow each other on a sheet, then on the next. "piles": the sheets are cut in
            stacks, and the pieces of a stack follow each other down through its sheets at one place, then at the next,
            so that the piles that are cut only have to be laid one on the other.
        stack: how many sheets are cut at once; 1 makes both orders the same.
    """

    pieces: int
    a_sheet: int
    order: Order = "rows"
    stack: int = 1

    @property
    def sheets(self) -> int:
        """How many sheets there are."""
        return -(-self.pieces // self.a_sheet)

    def on(self, sheet: int) -> list[int]:
        """Return the pieces on a sheet (from 0), as indices from 0, one a place; the last may have fewer places."""
        if self.order == "rows" or self.stack <= 1:
            first = sheet * self.a_sheet
            return list(range(first, min(first + self.a_sheet, self.pieces)))
        first_sheet = sheet - sheet % self.stack
        deep = min(self.stack, self.sheets - first_sheet)
        first = first_sheet * self.a_sheet
        held = min(self.pieces - first, deep * self.a_sheet)
        down = sheet - first_sheet
        # With a last stack that is not full, the upper sheets hold one place more than the lower ones.
        full, over = divmod(held, deep)
        count = full + (1 if down < over else 0)
        return [first + place * deep + down for place in range(count)]

    def cut_order(self) -> Iterator[tuple[int, int]]:
        """Yield (piece, sheet), both from 0, as the pieces come from the cutter: stack by stack, pile by pile."""
        deep = max(1, self.stack)
        for first in range(0, self.sheets, deep):
            stack = [(self.on(sheet), sheet) for sheet in range(first, min(first + deep, self.sheets))]
            for place in range(max(len(held) for held, _ in stack)):
                yield from ((held[place], sheet) for held, sheet in stack if place < len(held))

    def alike(self) -> list[tuple[int, list[range]]]:
        """Return by the number of pieces that a sheet holds, the largest first, which sheets (from 0) hold so many."""
        deep = max(1, self.stack) if self.order == "piles" else 1
        last = (self.sheets - 1) // deep * deep
        found: dict[int, list[range]] = {self.a_sheet: [range(last)]} if last else {}
        for sheet in range(last, self.sheets):
            runs = found.setdefault(len(self.on(sheet)), [])
            if runs and runs[-1].stop == sheet:
                runs[-1] = range(runs[-1].start, sheet + 1)
            else:
                runs.append(range(sheet, sheet + 1))
        return sorted(found.items(), reverse=True)
