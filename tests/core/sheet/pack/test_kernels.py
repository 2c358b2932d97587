"""The tables stay what they must be, step by step, and are the same with and without a compiler."""

from __future__ import annotations

import os
import subprocess
import sys

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.sheet.pack import kernels as row
from wrapwright.core.sheet.pack.attempt import Attempt, sheets_in, sheets_used
from wrapwright.core.sheet.pack.compiled import has_compiler
from wrapwright.core.sheet.pack.values import Item

SHEET = (50, 40)
sizes = st.integers(1, 40)
orders = st.lists(st.tuples(sizes, sizes, st.integers(1, 4), st.booleans()), min_size=1, max_size=10)


def children_of(table: row.Table, node: int) -> list[int]:
    found, before, child = [], -1, int(table[row.CHILD, node])
    while child >= 0:
        assert table[row.PARENT, child] == node
        assert table[row.BEFORE, child] == before
        found.append(child)
        before, child = child, int(table[row.NEXT, child])
    return found


def check_division(table: row.Table, node: int) -> list[int]:
    """Check that children fill their parent, all across, with one free at the most; return them."""
    children = children_of(table, node)
    side, across = (row.WIDE, row.HIGH) if table[row.ALONG, node] == 0 else (row.HIGH, row.WIDE)
    assert len(children) >= 2
    assert sum(int(table[side, child]) for child in children) == table[side, node]
    assert {int(table[across, child]) for child in children} == {int(table[across, node])}
    assert sum(table[row.KIND, child] == row.FREE for child in children) <= 1
    for child in children:
        assert table[row.KIND, child] != row.DIVIDED or table[row.ALONG, child] != table[row.ALONG, node]
    return children


def check(attempt: Attempt) -> None:
    """Check every promise that the kernels rely on."""
    table = attempt.now
    top, frees, spares, lefts = (int(one) for one in table[row.COUNTS, :4])
    gone = set(np.flatnonzero(table[row.KIND, :top] == row.GONE).tolist())
    assert gone == set(table[row.SPARE, :spares].tolist())
    assert len(gone) == spares
    seen, held = set(), table[row.LEFT, :lefts].tolist()
    waiting = [node for node in range(top) if node not in gone and table[row.PARENT, node] < 0]
    for node in waiting:
        seen.add(node)
        kind = table[row.KIND, node]
        if kind == row.DIVIDED:
            waiting += check_division(table, node)
        elif kind == row.ITEM:
            item = int(table[row.HELD, node])
            held.append(item)
            sides = {(int(attempt.goods[0, item]), int(attempt.goods[1, item]))}
            sides |= {(high, wide) for wide, high in sides if attempt.goods[row.TURNS, item]}
            assert (int(table[row.WIDE, node]), int(table[row.HIGH, node])) in sides
        else:
            place = int(table[row.LISTED, node])
            assert place < frees
            assert table[row.FREE_NODE, place] == node
            assert table[row.FREE_WIDE, place] == table[row.WIDE, node] > 0
            assert table[row.FREE_HIGH, place] == table[row.HIGH, node] > 0
    assert seen == set(range(top)) - gone
    assert sum(table[row.KIND, node] == row.FREE for node in seen) == frees
    assert sorted(held) == list(range(attempt.count))


@settings(max_examples=40, deadline=None)
@given(orders, st.integers(0, 2**31))
def test_the_tables_keep_their_promises(items: list[Item], seed: int) -> None:
    items = [one for one in items if one[0] <= SHEET[0] and one[1] <= SHEET[1]]
    attempt = Attempt(items, seed)
    attempt.clear(0, SHEET)
    attempt.lay()
    check(attempt)
    assert attempt.lies
    assert 1 <= sheets_used(attempt.now) <= sheets_in(attempt.now)
    while sheets_in(attempt.now) > 1:
        attempt.dissolve()
        check(attempt)
    attempt.begin(50)
    for steps in (1, 2, 3, 200):
        attempt.search(steps)
        check(attempt)
    assert attempt.search(50, go_on=True) == 50
    check(attempt)


def test_a_sheet_that_holds_nothing_may_be_dissolved() -> None:
    attempt = Attempt([(20, 20, 3, True)], 1)
    attempt.clear(4, SHEET)
    attempt.lay()
    while sheets_in(attempt.now) > 1:
        attempt.dissolve()
        check(attempt)
    assert attempt.lies
    assert sheets_used(attempt.now) == 1


def test_an_item_waits_where_the_table_has_no_room() -> None:
    """Nothing is written past the end of a table that is too small."""
    attempt = Attempt([(side % 9 + 3, side % 7 + 3, 1, True) for side in range(20)], 1)
    wide = np.full((row.ROWS, 40), -7, dtype=np.int32)
    attempt.now = wide[:, :24].copy()
    attempt.clear(1, SHEET)
    attempt.lay()
    assert 0 < attempt.now[row.COUNTS, row.LEFTS] < 20
    assert attempt.now[row.COUNTS, row.TOP] <= 24
    check(attempt)


def test_luck_runs_through_the_numbers_of_its_source() -> None:
    """Both generators of the pair, computed with Python's own whole numbers."""
    luck = np.array([12345, 67890, 0, 0], dtype=np.int64)
    one, two = 12345, 67890
    for _ in range(1000):
        one, two = one * 40014 % 2147483563, two * 40692 % 2147483399
        assert row.drawn(luck) == ((one - two - 1) % 2147483562 + 1) / 2147483563
    assert luck.tolist() == [one, two, 0, 0]


STORY = """
import sys
from wrapwright.core.sheet.pack.trimmer import Packing
from wrapwright.core.sheet.pack.strips import Strip
items = [(30, 20, 12, True), (11, 7, 3, False)]
packing = Packing(items, (50, 50), seed=4)
assert not packing.advance(25)
strip = Strip(items, 45, seed=4)
assert not strip.advance(25)
print(packing.best, strip.best)
print(type(__import__("wrapwright.core.sheet.pack.kernels").core.sheet.pack.kernels.search).__name__, file=sys.stderr)
"""


def told(environment: dict[str, str]) -> tuple[str, str]:
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", STORY],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, **environment},
    )
    return done.stdout, done.stderr.strip()


def test_without_the_compiler_the_trees_are_the_same() -> None:
    """Uncompiled, numpy checks every place in every table, too."""
    plain, kind = told({"NUMBA_DISABLE_JIT": "1"})
    assert kind == "function"
    compiled, kind = told({})
    assert kind == ("CPUDispatcher" if has_compiler() else "function")
    assert plain == compiled
    assert "Cut(" in plain
