"""Replaying a tree finds every way in which it could be wrong."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.sheet.pack.trees import faults, pieces, walked, wastes
from wrapwright.core.sheet.pack.trimmer import Packing
from wrapwright.core.sheet.pack.values import Cut, Item

ITEMS: list[Item] = [(4, 3, 1, True), (6, 5, 1, False)]
SHEET = (10, 5)
LEFT = Cut(0, 0, 4, 5, "y", (Cut(0, 0, 4, 3, item=0), Cut(0, 3, 4, 2)))
RIGHT = Cut(4, 0, 6, 5, item=1)
WHOLE = Cut(0, 0, 10, 5, "x", (LEFT, RIGHT))


def told(whole: Cut) -> str:
    return "; ".join(faults([whole], ITEMS, SHEET))


def test_a_right_tree_has_no_faults() -> None:
    assert told(WHOLE) == ""
    assert [one.item for one in pieces(WHOLE)] == [0, 1]
    assert wastes(WHOLE) == [Cut(0, 3, 4, 2)]
    assert list(walked(WHOLE)) == [WHOLE, LEFT, *LEFT.children, RIGHT]


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (replace(WHOLE, width=11), "a tree of 11 x 5 at 0, 0 is not the whole sheet"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, x=5))), "a cut at 5, 0 that does not go from edge to edge"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, height=4))), "a cut at 4, 0 that does not go from edge to edge"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, width=5))), "pieces that do not fill the rectangle"),
        (replace(WHOLE, children=(LEFT, RIGHT, replace(RIGHT, x=10))), "pieces that do not fill the rectangle"),
        (replace(WHOLE, along="y"), "does not go from edge to edge"),
        (replace(WHOLE, along=""), "a rectangle that is divided wrongly"),
        (replace(WHOLE, item=0), "a rectangle that is divided wrongly"),
        (replace(WHOLE, children=(LEFT,)), "a rectangle that is divided wrongly"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, along="x"))), "a rectangle that is divided into nothing"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, item=2))), "an item 2 that was not asked for"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, item=-1))), "item 1: 0 copies instead of 1"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, item=0))), "item 0 cut to 6 x 5; item 0: 2 copies instead of 1"),
        (replace(WHOLE, children=(LEFT, replace(RIGHT, turned=True))), "item 1 turned, which it may not be"),
        (replace(WHOLE, children=(replace(LEFT, width=0), replace(RIGHT, x=0))), "a rectangle of 0 x 5"),
    ],
)
def test_a_wrong_tree_is_found_out(wrong: Cut, words: str) -> None:
    assert words in told(wrong)


def test_a_turned_piece_has_its_sides_exchanged() -> None:
    turned = Cut(0, 0, 3, 4, item=0, turned=True)
    assert faults([turned], ITEMS[:1], (3, 4)) == []
    assert faults([replace(turned, turned=False)], ITEMS[:1], (3, 4)) == ["item 0 cut to 3 x 4"]


def test_two_sheets_hold_every_copy_between_them() -> None:
    one = Cut(0, 0, 6, 5, item=0)
    assert faults([one, one], [(6, 5, 2, False)], (6, 5)) == []
    assert faults([one], [(6, 5, 2, False)], (6, 5)) == ["item 0: 1 copies instead of 2"]


def test_larger_children_come_first_and_waste_last() -> None:
    packing = Packing([(23, 17, 9, True), (31, 12, 7, False), (8, 9, 20, True)], (60, 45), seed=5)
    divided = [one for tree in packing.best for one in walked(tree) if one.children]
    assert len(divided) > 10
    for one in divided:
        sizes = [(child.width if one.along == "x" else child.height) for child in one.children]
        empty = [child.item < 0 and not child.children for child in one.children]
        assert sum(empty[:-1]) == 0
        kept = sizes[:-1] if empty[-1] else sizes
        assert kept == sorted(kept, reverse=True)
