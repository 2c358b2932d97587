"""Layouts are sound, as few as can be proven, and say so."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import pytest
from tests.core.sheet.lay.sound import A4, asked, check, rectangle

from wrapwright.core.sheet.lay.lay import start
from wrapwright.core.sheet.lay.values import Layout, LayRequest, Part, Shape, Stock

LETTER = Stock("Letter", 215.9, 279.4, (4.0, 4.0, 4.0, 4.0))


def laid(request: LayRequest, steps: int = 40_000) -> Layout:
    laying = start(request)
    while steps > 0 and not laying.advance(2000):
        steps -= 2000
    return check(laying.layout)


def test_equal_pieces_are_proven_fewest():
    """60 mug wraps 200 x 95, 40 coasters 95 x 95 and 30 tags 50 x 95 with a gutter of 3 mm on A4: 40 sheets.

    With half a gutter beyond each edge 205 x 292 mm can be used: two rows of 98, for three are 294. A wrap fills a row,
    and so do two coasters, so wraps and coasters alone need (60 + 20) / 2 = 40; the tags go upright beside them.
    """
    plain = {"clear_mm": (1.5,) * 4, "bleed_mm": (0.0,) * 4}
    request = asked(
        rectangle(200.0, 95.0, 60, **plain), rectangle(95.0, 95.0, 40, **plain), rectangle(50.0, 95.0, 30, **plain)
    )
    layout = laid(request, 12_000)
    assert layout.proven
    assert layout.bound == len(layout.sheets) == 40
    assert "130 pieces on 40 sheets of A4: proven the fewest." in layout.words
    for said in ("margins of 4 mm", "gutter of 3 mm", "turned by quarters", "from edge to edge"):
        assert said in layout.words


def test_a_mixed_order_on_letter():
    request = asked(rectangle(235.0, 95.0, 12), rectangle(90.0, 90.0, 4), rectangle(40.0, 60.0, 30), stocks=(LETTER,))
    layout = laid(request)
    assert layout.proven
    assert len(layout.sheets) == 9


@pytest.mark.parametrize("seed", range(6))
def test_random_orders_are_sound(seed: int):
    dice = random.Random(seed)
    parts = [
        rectangle(
            dice.uniform(20, 190),
            dice.uniform(20, 150),
            dice.randint(1, 6),
            turns=dice.choice([(0,), (90,), (0, 180), (0, 90, 180, 270)]),
            order=dice.choice(["", "A", "B"]),
        )
        for _ in range(dice.randint(1, 8))
    ]
    step = dice.choice([0.01, 25.4 / 300, 25.4 / 720])
    laid(asked(*parts, step_mm=(step, step * dice.choice([1.0, 1.004]))), 6000)


def test_the_same_steps_give_the_same_layout():
    request = asked(*(rectangle(30.0 + 7 * k, 50.0 + 11 * (k % 5), 3) for k in range(8)))
    assert laid(request, 8000) == laid(request, 8000)


def test_a_part_that_fits_no_paper_is_left_over_and_the_rest_laid():
    layout = laid(asked(rectangle(250.0, 300.0), rectangle(50.0, 50.0, 2)))
    assert layout.over == (0,)
    assert len(layout.sheets) == 1


def test_the_cheapest_papers_are_taken_when_all_prices_are_known():
    """Four pieces of 195 x 140: two on an A4 at 1, four on an A3 at 1.5; of three, one more is cheaper on A4."""
    a3 = Stock("A3", 297.0, 420.0, (4.0,) * 4, price=1.5)
    a4 = replace(A4, price=1.0)
    plain = {"clear_mm": (1.5,) * 4, "bleed_mm": (0.0,) * 4}
    layout = laid(asked(rectangle(195.0, 138.0, 5, **plain), stocks=(a3, a4)))
    assert sorted(layout.request.stocks[one.stock].paper for one in layout.sheets) == ["A3", "A4"]
    assert "cost 2.50" in layout.words
    assert layout.proven
    dear = replace(a3, price=2.5)
    layout = laid(asked(rectangle(195.0, 138.0, 4, **plain), stocks=(dear, a4)))
    assert [layout.request.stocks[one.stock].paper for one in layout.sheets] == ["A4", "A4"]


def test_papers_at_hand_are_not_exceeded():
    few = replace(A4, at_hand=1)
    laying = start(asked(rectangle(195.0, 138.0, 4), stocks=(few,)))
    laying.advance(20_000)
    layout = laying.layout
    assert len(layout.sheets) <= 1
    assert any("too few" in note for note in layout.notes)
    both = laid(asked(rectangle(190.0, 138.0, 4), stocks=(few, LETTER)))
    assert sum(one.stock == 0 for one in both.sheets) <= 1


def test_a_roll_is_used_as_short_as_can_be():
    """Twelve pieces of 200 x 100 with 3 mm between on 612 mm: three side by side fill it, four rows of 103.

    606 mm can be printed; 3 x 200 + 2 x 3 fill them. Along: margin 3, 4 x 100 + 3 x 3, margin 3 = 415 mm.
    """
    plain = {"clear_mm": (1.5,) * 4, "bleed_mm": (0.0,) * 4}
    roll = Stock("roll 612 mm", 612.0, None, (3.0, 3.0, 3.0, 3.0))
    layout = laid(asked(rectangle(200.0, 100.0, 12, **plain), stocks=(roll,)))
    assert len(layout.sheets) == 1
    assert layout.sheets[0].height_mm == layout.bound == 415
    assert layout.proven
    assert "415 mm of roll 612 mm: proven the shortest" in layout.words


def test_a_long_order_on_a_roll_is_parted_into_pages():
    plain = {"clear_mm": (1.5,) * 4, "bleed_mm": (0.0,) * 4}
    roll = Stock("roll 300 mm", 300.0, None, (3.0,) * 4)
    layout = laid(asked(rectangle(280.0, 200.0, 40, **plain), stocks=(roll,)), 4000)
    assert len(layout.sheets) == 3
    assert max(one.height_mm for one in layout.sheets) <= 3000.0


def test_an_order_stays_together():
    """Three orders of like pieces, four on a sheet: each order has a sheet of its own."""
    parts = [rectangle(90.0, 130.0, 2, order=order) for order in ("A", "B", "C", "A", "B", "C")]
    layout = laid(asked(*parts))
    assert len(layout.sheets) == 3
    orders = [{layout.request.parts[one.part].order for one in sheet.pieces} for sheet in layout.sheets]
    assert sorted(map(sorted, orders)) == [["A"], ["B"], ["C"]]


def test_sheets_cut_alike_follow_each_other():
    layout = laid(asked(rectangle(195.0, 138.0, 6), rectangle(60.0, 60.0, 9)))
    kinds = [tuple((one.x_mm, one.y_mm, one.turn_deg) for one in sheet.pieces) for sheet in layout.sheets]
    changes = sum(one != other for one, other in itertools.pairwise(kinds))
    assert changes == len(set(kinds)) - 1


def test_the_free_way_is_sound_and_names_scissors():
    ring = ((0.0, 0.0), (60.0, 0.0), (30.0, 50.0))
    triangle = Part(Shape("outline", 60.0, 50.0, ring=ring), 12, clear_mm=(1.5,) * 4)
    request = asked(triangle, way="free", step_mm=(25.4 / 300, 25.4 / 300))
    laying = start(request)
    while not laying.advance(2000):
        pass
    layout = laying.layout
    assert sum(len(one.pieces) for one in layout.sheets) == 12
    assert all(one.cell is None for one in layout.sheets)
    assert "scissors" in layout.words
    step = 25.4 / 300
    for sheet in layout.sheets:
        for one in sheet.pieces:
            assert one.x_mm / step == pytest.approx(round(one.x_mm / step), abs=1e-6)
            assert one.y_mm / step == pytest.approx(round(one.y_mm / step), abs=1e-6)
