"""Any mix laid freely: everything once, nothing nearer than the gutter, never more sheets than boxes take."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.core.sheet.nest.shapes import all_within, circle, lies, nearest, outline, rectangle, sector

from wrapwright.core.sheet.lay.values import LaidSheet, LayRequest, Part, Pin, Shape, Stock
from wrapwright.core.sheet.nest.free import FreeLaying, lay_free
from wrapwright.core.sheet.nest.values import Spot, StripAnswer, StripRequest, StripSpot
from wrapwright.core.sheet.pack.trimmer import Packing

LETTER = Stock("Letter", 215.9, 279.4, (4.0, 4.0, 4.0, 4.0))
A3 = Stock("A3", 297.0, 420.0, (5.0, 5.0, 5.0, 5.0))
BRACKET = outline((0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (15.0, 15.0), (15.0, 60.0), (0.0, 60.0))


def judged(request: LayRequest, sheets: tuple[LaidSheet, ...]) -> tuple[LaidSheet, ...]:
    """Return the sheets after shapely has looked at every trim, and all copies have been counted."""
    for sheet in sheets:
        left, bottom, right, top = request.stocks[sheet.stock].margins_mm
        trims = [
            lies(request.parts[one.part].shape, Spot(one.x_mm - left, one.y_mm - bottom, one.turn_deg))
            for one in sheet.pieces
        ]
        assert all_within(trims, sheet.width_mm - left - right + 1e-3, sheet.height_mm - bottom - top + 1e-3)
        assert nearest(trims) >= request.gutter_mm - 1e-3
        assert all(one.turn_deg in request.parts[one.part].turns for one in sheet.pieces)
        assert sheet.cell is None
    laid = Counter((one.part, one.copy) for sheet in sheets for one in sheet.pieces)
    assert laid == Counter((index, copy) for index, part in enumerate(request.parts) for copy in range(part.copies))
    return sheets


def asked(*parts: Part, stock: Stock = LETTER, gutter: float = 3.0, pins: tuple[Pin, ...] = ()) -> LayRequest:
    return LayRequest(parts, (stock,), gutter, "free", pins)


def test_wraps_coasters_and_tags_together_take_no_more_sheets_than_the_wraps_alone() -> None:
    wraps = Part(sector(700.0, 800.0, 8.0), 12)
    request = asked(wraps, Part(circle(95.0), 4), Part(rectangle(50.0, 30.0), 30))
    laying = FreeLaying(request)
    laying.advance(1)
    assert len(judged(request, laying.sheets)) == laying.bound == 12
    assert laying.proven


def test_outlines_reach_into_each_other() -> None:
    """Brackets 60 x 60: as boxes 3 x 4 on a sheet with 3 mm between, so two sheets for 19; they go on one."""
    request = asked(Part(BRACKET, 19))
    assert len(judged(request, lay_free(request))) == 1


def boxes(request: LayRequest) -> int:
    """Return how many sheets the trimmer's search takes for the same parts as boxes with half the gutter each."""
    stock, gap = request.stocks[0], request.gutter_mm
    left, bottom, right, top = stock.margins_mm
    room = (stock.width_mm - left - right + gap, (stock.height_mm or 0.0) - bottom - top + gap)
    items = [
        (
            math.ceil((part.shape.width_mm + gap) * 100 - 1e-6),
            math.ceil((part.shape.height_mm + gap) * 100 - 1e-6),
            part.copies,
            True,
        )
        for part in request.parts
    ]
    packing = Packing(items, (math.floor(room[0] * 100 + 1e-6), math.floor(room[1] * 100 + 1e-6)), seed=1)
    packing.advance(3000)
    return packing.sheets


shapes = some.one_of(
    some.builds(rectangle, some.floats(15.0, 150.0), some.floats(15.0, 150.0)),
    some.builds(circle, some.floats(15.0, 120.0)),
    some.builds(sector, some.floats(60.0, 300.0), some.floats(310.0, 360.0), some.floats(5.0, 10.0)),
    some.just(BRACKET),
)


@settings(max_examples=8, deadline=None, derandomize=True)
@given(
    mix=some.lists(some.tuples(shapes, some.integers(1, 8)), min_size=1, max_size=4),
    gutter=some.sampled_from([0.0, 3.0]),
)
def test_any_mix_is_laid_soundly_on_no_more_sheets_than_boxes(mix: list[tuple[Shape, int]], gutter: float) -> None:
    request = asked(*(Part(shape, copies) for shape, copies in mix), stock=A3, gutter=gutter)
    assert len(judged(request, lay_free(request, steps=6))) <= boxes(request)


def test_labels_and_bleed_have_their_room_and_can_be_printed() -> None:
    wrap = Part(
        sector(150.0, 250.0, 35.0), 4, bleed_mm=(0.0, 2.0, 0.0, 2.0), label_mm=(100.0, 20.0, 180.0, 26.0)
    )  # under the inner arc, whose middle stands 27 mm above the box's lower edge
    tag = Part(rectangle(60.0, 30.0), 8, clear_mm=(1.5, 8.0, 1.5, 1.5))
    request = asked(wrap, tag, stock=A3)
    (sheet, *_) = judged(request, lay_free(request, steps=8))
    labels = [lies(rectangle(80.0, 6.0), Spot(0.0, 0.0, 0)) if False else _label(request, one) for one in sheet.pieces]
    trims = [lies(request.parts[one.part].shape, Spot(one.x_mm, one.y_mm, one.turn_deg)) for one in sheet.pieces]
    for index, label in enumerate(labels):
        left, bottom, right, top = label.bounds
        assert min(left, bottom) >= 5.0 - 1e-3
        assert max(right - 292.0, top - 415.0) <= 1e-3
        for other, trim in enumerate(trims):
            assert other == index or label.intersection(trim.union(labels[other])).area < 1e-3


def _label(request: LayRequest, one) -> shapely.Polygon:
    """Return where a copy's label lies: what is said of it, or the strip below the tag that the gutter leaves."""
    part = request.parts[one.part]
    box = shapely.box(*(part.label_mm or (0.0, -6.5, 60.0, 0.0)))
    width, height = part.shape.width_mm, part.shape.height_mm
    back = {0: (0.0, 0.0), 90: (height, 0.0), 180: (width, height), 270: (0.0, width)}[one.turn_deg]
    turned = shapely.affinity.rotate(box, one.turn_deg, origin=(0.0, 0.0))
    return shapely.affinity.translate(turned, one.x_mm + back[0], one.y_mm + back[1])


def test_what_is_pinned_stays_and_the_others_go_round_it() -> None:
    pins = (Pin(0, 1, 1, 60.0, 70.0, 90), Pin(1, 0, 0, 100.0, 100.0, 0))
    request = asked(Part(rectangle(90.0, 40.0), 9), Part(circle(70.0), 5), pins=pins)
    sheets = judged(request, lay_free(request))
    for pin in pins:
        (held,) = [one for one in sheets[pin.sheet].pieces if (one.part, one.copy) == (pin.part, pin.copy)]
        assert (held.x_mm, held.y_mm, held.turn_deg) == (pin.x_mm, pin.y_mm, pin.turn_deg)


def test_an_order_stays_together_where_it_costs_nothing() -> None:
    shape = rectangle(100.0, 130.0)
    request = asked(*(Part(shape, 2, order=order) for order in ("a", "b", "a", "b")))
    sheets = judged(request, lay_free(request))
    assert len(sheets) == 2
    for sheet in sheets:
        assert len({request.parts[one.part].order for one in sheet.pieces}) == 1


def test_corners_lie_on_whole_steps_of_the_sheets_pixels() -> None:
    step = 25.4 / 300
    parts = (Part(circle(60.0), 9, clear_mm=(1.5, 1.5, 1.5, 1.5)), Part(BRACKET, 9, clear_mm=(1.5, 1.5, 1.5, 1.5)))
    request = LayRequest(parts, (LETTER,), 3.0, "free", step_mm=(step, step))
    laying = FreeLaying(request, begin=())
    laying.advance(12)
    for sheet in judged(request, laying.sheets):
        for one in sheet.pieces:
            clear = parts[one.part].clear_mm[0]
            for at in (one.x_mm - clear, one.y_mm - clear):
                assert abs(at / step - round(at / step)) < 1e-6


def test_bleed_wider_than_half_the_gutter_keeps_apart_on_whole_steps() -> None:
    """Wraps whose bleed and label need more room than the gutter gives are laid on a roll, though moved to pixels."""
    step = 25.4 / 300
    roll = Stock("roll", 610.0, None, (4.0, 4.0, 4.0, 4.0))
    bleed = {"clear_mm": (1.5, 2.06, 9.5, 2.06), "bleed_mm": (0.0, 2.0, 0.0, 2.0)}
    parts = (Part(rectangle(232.0, 84.0), 5, **bleed), Part(BRACKET, 5, clear_mm=(2.0,) * 4, bleed_mm=(2.0,) * 4))
    request = LayRequest(parts, (roll,), 3.0, "free", step_mm=(step, step))
    laying = FreeLaying(request)
    laying.advance(4)
    (sheet,) = laying.sheets
    assert len(sheet.pieces) == 10


def test_the_dearer_paper_is_never_proven_the_cheapest_by_its_sheets_alone() -> None:
    """Two on one A3 at 9 are one sheet, the fewest; on two Letter sheets they cost 0.40, which is the least."""
    stocks = (replace(A3, price=9.0), replace(LETTER, price=0.2))
    request = LayRequest((Part(rectangle(200.0, 200.0), 2),), stocks, 3.0, "free")
    laying = FreeLaying(request)
    while not laying.advance(20):
        pass
    assert [one.stock for one in laying.sheets] == [1, 1]
    assert laying.bound == 1


def test_a_roll_is_used_no_longer_than_it_must_be() -> None:
    roll = Stock("roll", 300.0, None, (5.0, 5.0, 5.0, 5.0))
    request = asked(Part(circle(100.0 - 1.0), 7), stock=roll, gutter=1.0)
    (sheet,) = judged(request, lay_free(request))
    # Seven circles 99 across, 1 apart, in 290: 2, 1, 2, 1 ... stand closer along the roll than rows of two.
    assert sheet.height_mm <= 10 + 99 + 3 * 100
    assert sheet.rest is None


def test_the_cheaper_paper_is_taken_where_it_does() -> None:
    papers = (Stock("dear", 220.0, 300.0, price=1.0), Stock("cheap", 220.0, 300.0, price=0.3, at_hand=1))
    request = LayRequest((Part(rectangle(200.0, 280.0), 3),), papers, 3.0, "free")
    sheets = judged(request, lay_free(request))
    assert sorted(sheet.stock for sheet in sheets) == [0, 0, 1]


def test_a_small_rest_goes_on_the_cheaper_small_paper() -> None:
    papers = (Stock("large", 300.0, 420.0, price=1.0), Stock("small", 210.0, 150.0, price=0.2))
    request = LayRequest((Part(circle(140.0), 7),), papers, 0.0, "free")
    sheets = judged(request, lay_free(request))
    assert [sheet.stock for sheet in sheets].count(0) == 1


def test_parts_that_fit_no_paper_are_named_and_the_others_laid() -> None:
    request = asked(Part(rectangle(400.0, 300.0), 1), Part(circle(40.0), 3))
    laying = FreeLaying(request)
    laying.advance(10)
    assert laying.over == (0,)
    assert {one.part for sheet in laying.sheets for one in sheet.pieces} == {1}
    assert lay_free(asked(Part(rectangle(400.0, 300.0), 1))) == ()


def test_the_same_request_gives_the_same_sheets() -> None:
    request = asked(Part(circle(95.0), 7), Part(BRACKET, 15), Part(rectangle(70.0, 45.0), 9), stock=A3)
    assert lay_free(request, steps=4) == lay_free(request, steps=4)


def test_the_rest_of_a_sheet_is_said_when_it_is_large_enough() -> None:
    request = asked(Part(rectangle(100.0, 60.0), 2), stock=Stock("sheet", 210.0, 297.0))
    (sheet,) = judged(request, lay_free(request))
    assert sheet.rest is not None
    left, bottom, right, top = sheet.rest
    assert (right - left) * (top - bottom) >= 210 * (297 - 62)


def roll_of_squares(nested: Callable[[StripRequest], StripAnswer | None] | None) -> LaidSheet:
    """Return the page of six squares of 90 mm, 4 mm apart, on a roll of 200 mm."""
    square = outline((0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (0.0, 90.0))
    request = asked(Part(square, 6), stock=Stock("roll", 200.0, None), gutter=4.0)
    (sheet,) = judged(request, lay_free(request, nested))
    return sheet


def test_a_nester_that_lies_is_not_believed() -> None:
    """It says that all six lie on one spot."""

    def nested(strip: StripRequest) -> StripAnswer:
        (item,) = strip.items
        return StripAnswer(95.0, tuple(StripSpot(0, 5.0, 5.0, item.turns[0]) for _ in range(item.copies)))

    assert roll_of_squares(nested) == roll_of_squares(None)


def test_a_nester_that_gives_up_costs_nothing() -> None:
    assert roll_of_squares(lambda _: None) == roll_of_squares(None)


def test_what_a_nester_finds_is_turned_into_the_roll() -> None:
    """Discs drawn as outlines, 60 and 100 across, on a roll of 170: touching on the slant they need less length."""

    def nested(strip: StripRequest) -> StripAnswer:
        asked_for.append(strip)
        assert strip.height_mm == pytest.approx(170.0, abs=0.1)
        # A strip runs to the right, the roll up: turns are a quarter less.
        assert {item.turns for item in strip.items} == {(270,)}
        large, small = ((0.05, 50.0 + 50.0), (70.0, 30.0))
        return StripAnswer(
            131.0, (StripSpot(0, large[0], large[1], 270), StripSpot(1, small[0], small[1] + 135.0, 270))
        )

    asked_for: list[StripRequest] = []
    parts = (Part(outline(*octagon(100.0)), 1, turns=(0,)), Part(outline(*octagon(60.0)), 1, turns=(0,)))
    request = asked(*parts, stock=Stock("roll", 170.0, None), gutter=0.0)
    judged(request, lay_free(request, nested))
    assert len(asked_for) == 1


def octagon(across: float) -> list[tuple[float, float]]:
    cut = across / (2.0 + math.sqrt(2.0))
    far = across - cut
    return [(cut, 0.0), (far, 0.0), (across, cut), (across, far), (far, across), (cut, across), (0.0, far), (0.0, cut)]


def test_triangles_pair_up() -> None:
    """Four right triangles 150 x 100 make two rectangles, each with a gutter along its diagonal."""
    triangle = outline((0.0, 0.0), (150.0, 0.0), (0.0, 100.0))
    request = asked(Part(triangle, 4), stock=Stock("sheet", 160.0, 110.0), gutter=2.0)
    assert len(judged(request, lay_free(request))) == 2


def test_a_nester_makes_one_sheet_of_two() -> None:
    """Four of 60 x 40 go on 100 x 100 only round a hole of 20 x 20, which no cut from edge to edge gives."""

    def nested(strip: StripRequest) -> StripAnswer | None:
        (item,) = strip.items
        assert (item.copies, item.turns) == (4, (0, 90))
        over = (strip.height_mm - 100.0) / 2.0
        # A quarter turn about its lower left corner puts an outline to the left of that corner.
        corners = [(0.0, 0.0, 0), (60.0, 0.0, 90), (40.0, 60.0, 0), (0.0, 40.0, 90)]
        spots = [(x + (40.0 if turn else 0.0), y, turn) for x, y, turn in corners]
        return StripAnswer(100.0, tuple(StripSpot(0, x + over, y + over, turn) for x, y, turn in spots))

    request = asked(Part(rectangle(60.0, 40.0), 4), stock=Stock("sheet", 100.0, 100.0), gutter=0.0)
    assert len(judged(request, lay_free(request))) == 2
    assert len(judged(request, lay_free(request, nested))) == 1
