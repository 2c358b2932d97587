"""The sentences of a layout."""

from __future__ import annotations

from dataclasses import replace

from tests.core.sheet.lay.sound import A4, asked, rectangle

from wrapwright.core.sheet.lay.values import LaidSheet, Stock
from wrapwright.core.sheet.lay.words import conditions, layout_words, rest_words


def test_what_is_not_proven_is_not_called_so():
    request = asked(rectangle(50.0, 50.0, turns=(0,)))
    sheets = [LaidSheet(0, 210.0, 297.0, ())] * 3
    words = layout_words(request, sheets, 2, proven=False)
    assert "proven" not in words
    assert "it takes at least 2 sheets, and whether 2 sheets would do" in words
    assert "not turned by quarters" in words
    assert "proven the fewest" in layout_words(request, sheets, 3, proven=True)


def test_margins_are_named_one_by_one_where_they_differ():
    uneven = Stock("A4", 210.0, 297.0, (3.0, 14.0, 3.5, 4.0))
    assert "4, 3.5, 14, 3 mm (top, right, bottom, left)" in conditions(asked(rectangle(1.0, 1.0), stocks=(uneven,)))


def test_a_half_sheet_that_is_left_is_called_so():
    letter = Stock("Letter", 215.9, 279.4)
    half = LaidSheet(0, 215.9, 279.4, (), rest=(0.0, 149.4, 215.9, 279.4))
    assert rest_words(half, letter) == "half a Letter sheet left: 215 x 130 mm"
    assert rest_words(LaidSheet(0, 210.0, 297.0, (), rest=(0.0, 237.0, 210.0, 297.0)), A4) == (
        "20 % of an A4 sheet left: 210 x 60 mm"
    )
    assert rest_words(LaidSheet(0, 210.0, 297.0, ()), A4) == ""


def test_a_little_that_is_left_is_told_in_millimetres():
    roll = Stock("roll 610 mm", 610.0, None)
    assert rest_words(LaidSheet(0, 610.0, 828.0, (), rest=(0.0, 0.0, 54.0, 92.0)), roll) == (
        "54 x 92 mm of roll 610 mm left"
    )


def test_a_price_is_never_rounded_up_to_more_than_is_needed():
    request = asked(rectangle(50.0, 50.0), stocks=(replace(A4, price=0.18),))
    words = layout_words(request, [LaidSheet(0, 210.0, 297.0, ())] * 10, 1.628, proven=False)
    assert "10 sheets of A4, which cost 1.80; it takes at least 1.62, and whether 1.62 would do is not known." in words
