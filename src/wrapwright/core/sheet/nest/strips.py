"""What a nester of strips can do for sheets and rolls: everything in one strip, or one sheet fewer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from wrapwright.core.sheet.nest.finish import Filled
from wrapwright.core.sheet.nest.ground import Down
from wrapwright.core.sheet.nest.kinds import Area, Kind
from wrapwright.core.sheet.nest.nofit import coarse
from wrapwright.core.sheet.nest.outlines import lying_at
from wrapwright.core.sheet.nest.values import Nested, StripItem, StripRequest, StripSpot

_FULL = 0.97  # no sheet of parts with some shape to them is filled beyond this
_CALLS = 12
Plan = tuple[Filled, ...]


class Strip:
    """Some copies of kinds, asked of a nester as one strip that is the printable area."""

    def __init__(self, kinds: Sequence[Kind], area: Area, *, upright: bool) -> None:
        """Take an area whose width is the strip's height (upright: a roll), or whose height is."""
        self._kinds, self._area, self._upright = kinds, area, upright
        every = [one for kind in kinds for one in kind.lyings]
        self._over = max(0.0, min(one.overhang for one in every))
        # Where the nester turns an outline about: the corner of its trim's box at turn 0.
        self._rests = [lying_at(kind.part, kind.gutter_mm, 0) for kind in kinds]

    def laid(self, need: Sequence[int], nested: Nested, *, seed: int, short: bool) -> tuple[Down, ...] | None:
        """Return where all the copies lie on the area, or None when they were not got onto it.

        Args:
            need: copies of each kind.
            nested: the nester.
            seed: for its search.
            short: whether the strip shall be as short as can be, not just short enough.
        """
        back = -90 if self._upright else 0
        which = [kind for kind, copies in enumerate(need) if copies]
        items = tuple(
            StripItem(
                tuple((float(x), float(y)) for x, y in coarse(self._rests[kind].room)),
                need[kind],
                tuple((one.turn + back) % 360 for one in self._kinds[kind].lyings),
            )
            for kind in which
        )
        height, most = self._area if self._upright else self._area[::-1]
        most += 2.0 * self._over
        enough = 0.0 if short else most
        answer = nested(StripRequest(items, height + 2.0 * self._over, enough, seed))
        if answer is None or answer.length_mm > most + 1e-3:
            return None
        return tuple(self._down(which[spot.item], spot) for spot in answer.spots)

    def _down(self, kind: int, spot: StripSpot) -> Down:
        x, y, turn = spot.x_mm - self._over, spot.y_mm - self._over, spot.turn_deg % 360
        if self._upright:
            x, y, turn = self._area[0] - y, x, (turn + 90) % 360
        width, height = self._rests[kind].size
        across, up = {0: (0.0, 0.0), 90: (height, 0.0), 180: (width, height), 270: (0.0, width)}[turn]
        return Down(kind, x - across, y - up, turn)


def on_roll(kinds: Sequence[Kind], area: Area, plan: Plan, nested: Nested, *, seed: int, least: int) -> Iterator[Plan]:
    """Yield a plan of one page with everything on it, or an empty one."""
    del least
    need = _need(plan, len(kinds))
    if len(plan) == 1:
        down = Strip(kinds, area, upright=True).laid(need, nested, seed=seed, short=True)
        yield (Filled(plan[0].stock, down),) if down else ()


def on_sheets(
    kinds: Sequence[Kind], area: Area, plan: Plan, nested: Nested, *, seed: int, least: int
) -> Iterator[Plan]:
    """Yield plans of one sheet fewer each, or empty ones: the emptiest sheet's copies are nested into the others."""
    strip, calls = Strip(kinds, area, upright=False), 0
    while len(plan) > max(least, 1) and calls < _CALLS:
        sheets = sorted(plan, key=lambda one: -_area(kinds, one.down))
        pool, kept = Counter(one.kind for one in sheets.pop().down), []
        for sheet in reversed(sheets):
            down, tried = sheet.down, False
            while pool and not tried and calls < _CALLS:
                more = _what_may_go(kinds, area, down, pool, halve=calls % 2 == 1)
                if not more:
                    break
                calls += 1
                need = Counter(one.kind for one in down) + more
                found = strip.laid([need[kind] for kind in range(len(kinds))], nested, seed=seed + calls, short=False)
                yield ()
                if found is None:
                    tried = True
                else:
                    down, pool = found, pool - more
            kept.append(Filled(sheet.stock, down))
        if pool:
            return
        plan = tuple(kept)
        yield plan


def _what_may_go(
    kinds: Sequence[Kind], area: Area, down: Sequence[Down], pool: Counter[int], *, halve: bool
) -> Counter[int]:
    """Return the most of the pool, largest first, that a sheet could hold by area; half of it when that is asked."""
    free = area[0] * area[1] * _FULL - _area(kinds, down)
    chosen: Counter[int] = Counter()
    for kind in sorted(pool.elements(), key=lambda one: -kinds[one].area):
        if kinds[kind].area <= free and (not halve or sum(chosen.values()) < (pool.total() + 1) // 2):
            chosen[kind] += 1
            free -= kinds[kind].area
    return chosen


def _area(kinds: Sequence[Kind], down: Sequence[Down]) -> float:
    return sum(kinds[one.kind].area for one in down)


def _need(plan: Plan, many: int) -> list[int]:
    every = Counter(one.kind for sheet in plan for one in sheet.down)
    return [every[kind] for kind in range(many)]
