"""Strips: everything laid exactly once by cuts from edge to edge, within the bound, at published figures."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.strips import Strip, shortened
from wrapwright.core.sheet.pack.trees import faults, walked
from wrapwright.core.sheet.pack.trimmer import LONGEST, MOST_PIECES
from wrapwright.core.sheet.pack.values import Cut, Item

WIDTH = 30
sizes = st.integers(1, 30)
orders = st.lists(st.tuples(sizes, sizes, st.integers(0, 4), st.booleans()), max_size=10)

# E. Hopper, B.C.H. Turton, EJOR 128 (2001) 34-57: C1_1 (strip 20) and C2_3 (strip 40) can be laid without waste, on
# lengths of 20 and 15.
C1_1 = "2x12 7x12 8x6 3x6 3x5 5x5 3x12 3x7 5x7 2x6 3x2 4x2 3x4 4x4 9x2 11x2"


def read(words: str) -> list[Item]:
    return [(int(w), int(h), 1, True) for w, h in (word.split("x") for word in words.split())]


@settings(max_examples=50, deadline=None)
@given(orders, st.integers(0, 2**40))
def test_any_order_is_laid_whole(items: list[Item], seed: int) -> None:
    strip = Strip(items, WIDTH, seed=seed)
    if not any(copies for _, _, copies, _ in items):
        assert strip.advance(1)
        assert (strip.length, strip.best.children) == (0, ())
        return
    for steps in (0, 200):
        before = strip.length
        strip.advance(steps)
        assert strip.bound <= strip.length <= before
        assert faults([strip.best], items, (WIDTH, strip.length)) == []
        assert shortened(strip.best) == strip.best


def test_a_published_strip_is_laid_without_waste() -> None:
    items = read(C1_1)
    strip = Strip(items, 20, seed=1)
    assert strip.advance(100_000)
    assert strip.length == strip.bound == 20
    assert faults([strip.best], items, (20, 20)) == []
    assert all(one.item >= 0 or one.children for one in walked(strip.best))


def test_steps_in_one_go_or_in_many_give_the_same_tree() -> None:
    items: list[Item] = [(7, 11, 9, True), (13, 5, 8, False), (3, 4, 9, True)]
    whole, parts = Strip(items, WIDTH, seed=3), Strip(items, WIDTH, seed=3)
    whole.advance(900)
    for steps in (1, 399, 500):
        parts.advance(steps)
    assert whole.best == parts.best


def test_what_is_free_at_the_end_is_cut_off() -> None:
    left = Cut(0, 0, 4, 9, "y", (Cut(0, 0, 4, 3, item=0), Cut(0, 3, 4, 6)))
    right = Cut(4, 0, 6, 9, "y", (Cut(4, 0, 6, 5, item=1), Cut(4, 5, 6, 4)))
    short = shortened(Cut(0, 0, 10, 9, "x", (left, right)))
    assert short.height == 5
    assert short.children[0].children[1] == Cut(0, 3, 4, 2)
    assert short.children[1] == Cut(4, 0, 6, 5, item=1)
    assert faults([short], [(4, 3, 1, False), (6, 5, 1, False)], (10, 5)) == []
    full = Cut(0, 0, 10, 9, item=0)
    assert shortened(full) is full


@pytest.mark.parametrize(
    ("items", "width", "words"),
    [
        ([], 0, "A strip is 0 wide"),
        ([(31, 40, 1, True)], WIDTH, "Item 1, 31 x 40, is wider than the strip of 30, turned or not."),
        ([(31, 20, 1, False)], WIDTH, "Item 1, 31 x 20, is wider than the strip of 30 and may not be turned."),
        ([(3, 0, 1, True)], WIDTH, "Item 1 is 3 x 0, 1 times"),
        ([(1, 1, MOST_PIECES + 1, True)], WIDTH, "20001 pieces are more than 20000 at once."),
        ([(30, LONGEST, 2, False)], WIDTH, "2 pieces do not fit 16777216 of a strip 30 wide."),
    ],
)
def test_what_cannot_be_meant_is_told_with_its_figure(items: list[Item], width: int, words: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        Strip(items, width, seed=1)
    assert caught.value.kind == Kind.UNUSABLE
    assert words in str(caught.value)
