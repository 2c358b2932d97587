"""Orders so small that every way of cutting them can be tried, and a replay of cuts, apart from how they came."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache
from itertools import product

from wrapwright.core.sheet.pack.values import Cut, Item

Counts = tuple[int, ...]


def all_contents(items: Sequence[Item], sheet: tuple[int, int]) -> set[Counts]:
    """Return every multiset of copies that edge-to-edge cuts at whole positions can take from one sheet."""
    caps = tuple(item[2] for item in items)
    nothing = (0,) * len(items)

    @cache
    def within(width: int, height: int) -> frozenset[Counts]:
        found = {nothing}
        for k, (wide, high, copies, turn) in enumerate(items):
            fits = (wide <= width and high <= height) or (turn and high <= width and wide <= height)
            if fits and copies:
                found.add(tuple(int(k == other) for other in range(len(items))))
        pairs = [((a, height), (width - a, height)) for a in range(1, width // 2 + 1)]
        pairs += [((width, a), (width, height - a)) for a in range(1, height // 2 + 1)]
        for one, other in pairs:
            for first, second in product(within(*one), within(*other)):
                found.add(tuple(min(a + b, cap) for a, b, cap in zip(first, second, caps, strict=True)))
        return frozenset(found)

    return set(within(*sheet))


def least_cost(items: Sequence[Item], bins: Sequence[tuple[int, int, float, int | None]]) -> float:
    """Return what the cheapest whole sheets cost, as many of each kind as wanted, by trying all."""
    kinds = [(cost, all_contents(items, (width, height))) for width, height, cost, _ in bins]

    @cache
    def cheapest(left: Counts) -> float:
        if not any(left):
            return 0
        best = float("inf")
        for cost, contents in kinds:
            for held in contents:
                rest = tuple(max(0, a - b) for a, b in zip(left, held, strict=True))
                if rest != left:
                    best = min(best, cost + cheapest(rest))
        return best

    return cheapest(tuple(item[2] for item in items))


def replayed(cut: Cut, items: Sequence[Item], sheet: tuple[int, int]) -> Counter[int]:
    """Return the copies that come off a sheet when it is cut so; complain where the cuts do not agree."""
    assert (cut.x, cut.y, cut.width, cut.height) == (0, 0, *sheet)
    got: Counter[int] = Counter()
    waiting = [cut]
    while waiting:
        at = waiting.pop()
        assert at.width > 0
        assert at.height > 0
        if at.children:
            assert at.item == -1
            assert len(at.children) > 1
            x, y = at.x, at.y
            for child in at.children:
                assert (child.x, child.y) == (x, y)
                assert child.along != at.along
                if at.along == "x":
                    assert child.height == at.height
                    x += child.width
                else:
                    assert at.along == "y"
                    assert child.width == at.width
                    y += child.height
            assert (x if at.along == "x" else y) == (at.x + at.width if at.along == "x" else at.y + at.height)
            waiting.extend(at.children)
        elif at.item >= 0:
            width, height, _, turn = items[at.item]
            assert (at.width, at.height) == ((height, width) if at.turned else (width, height))
            assert turn or not at.turned
            got[at.item] += 1
    return got
