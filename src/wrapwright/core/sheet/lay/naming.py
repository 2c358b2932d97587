"""Which copy lies in which place: an order's pieces stay together, and the numbers follow the sheets."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

from wrapwright.core.sheet.lay.grid import Grid, leaves, turn_of
from wrapwright.core.sheet.lay.plan import Planned
from wrapwright.core.sheet.lay.values import Laid
from wrapwright.core.sheet.pack.values import Cut


class Names:
    """Gives out copies: to a place goes a piece of an order that is on the sheet already, else of one begun before."""

    def __init__(self, grid: Grid, taken: Sequence[Laid] = ()) -> None:
        self.grid = grid
        used = {(one.part, one.copy) for one in taken}
        parts = grid.request.parts
        self.left = {
            index: deque(copy for copy in range(part.copies) if (index, copy) not in used)
            for index, part in enumerate(parts)
        }
        self.begun: dict[str, int] = {}

    def sheet(self, one: Planned, pinned: Sequence[Laid] = ()) -> list[Laid]:
        """Return what lies in the leaves of a sheet, in the tree's order; pinned copies have the last items."""
        here: dict[str, int] = {}
        cuts = list(leaves(one.cut))
        first = len(self.grid.classes)
        found = {place: pinned[cut.item - first] for place, cut in enumerate(cuts) if cut.item >= first}
        for laid in found.values():
            self._on_sheet(laid, here)
        # Places that only one order can fill come first: they say which orders this sheet begins.
        left = [place for place in range(len(cuts)) if place not in found]
        for place in sorted(left, key=lambda at: (self._orders(cuts[at]), at)):
            found[place] = self._take(cuts[place], one.stock, here)
            self._on_sheet(found[place], here)
        return [found[place] for place in range(len(cuts))]

    def _on_sheet(self, laid: Laid, here: dict[str, int]) -> None:
        order = self.grid.request.parts[laid.part].order
        here.setdefault(order, len(here))
        self.begun.setdefault(order, len(self.begun))

    def _choices(self, cut: Cut) -> list[int]:
        return [part for part in self.grid.classes[cut.item].parts if self.left[part]]

    def _orders(self, cut: Cut) -> int:
        return len({self.grid.request.parts[part].order for part in self._choices(cut)})

    def _take(self, cut: Cut, stock: int, here: dict[str, int]) -> Laid:
        parts = self.grid.request.parts
        far = len(parts)

        def rank(part: int) -> tuple[int, int, int]:
            order = parts[part].order
            return (here.get(order, far), self.begun.get(order, far), part)

        chosen = min(self._choices(cut), key=rank)
        copy = self.left[chosen].popleft()
        part = parts[chosen]
        turn = turn_of(part, turned=self.grid.lies_turned(cut.item, cut))
        x, y = self.grid.corner_mm(cut, stock, part, turn)
        return Laid(chosen, copy, x, y, turn)
