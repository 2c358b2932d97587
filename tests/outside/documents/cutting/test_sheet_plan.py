"""The drawing of a sheet: lines where the strokes are, numbers that do not cover each other, shapes as they lie."""

from __future__ import annotations

from itertools import combinations
from typing import Any, cast

import pytest
from tests.core.sheet.cut.layouts import grid

from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Laid, Part, Shape
from wrapwright.outside.documents.cutting.sheet_plan import ring_on_sheet, sheet_plan, trimmer_drawing

Items = list[dict[str, Any]]


def drawn(room: tuple[float, float] = (94.0, 118.0)) -> tuple[Items, float, dict[str, object]]:
    layout = grid(3, 3)
    plan = sheet_plan(layout, [0], cut_list(layout, Trimmer()), rest=None, room=room)
    scale = (cast("float", plan["width"]) - 6.4) / layout.sheets[0].width_mm
    return cast("Items", plan["items"]), scale, plan


def test_it_keeps_to_its_room() -> None:
    for room in ((94.0, 118.0), (60.0, 60.0), (150.0, 40.0)):
        _, _, plan = drawn(room)
        assert cast("float", plan["width"]) <= room[0] + 1e-3
        assert cast("float", plan["height"]) <= room[1] + 1e-3


def test_every_line_lies_where_its_stroke_is() -> None:
    layout = grid(3, 3)
    cuts = cut_list(layout, Trimmer())
    items, scale, _ = drawn()
    lines = [one["moves"] for one in items if one["k"] == "shape" and one["stroke"] in ("accent", "heat")]
    layers = [layer for stroke in cuts.strokes for layer in stroke.layers]
    assert len(lines) == len(layers)
    height = layout.sheets[0].height_mm
    seen = set()
    for (_, x0, y0), (_, x1, y1) in lines:
        upright = abs(x0 - x1) < 1e-6
        page = (x0 - 3.2) / scale if upright else height - (y0 - 3.2) / scale
        assert (abs(x0 - x1) < 1e-6) != (abs(y0 - y1) < 1e-6)
        seen.add((upright, round(page, 1)))
    assert seen == {(layer.edge in ("left", "right"), round(layer.at_mm, 1)) for layer in layers}


def test_numbers_do_not_cover_each_other() -> None:
    items, _, _ = drawn()
    numbers = [one for one in items if one["k"] == "words" and one["strong"]]
    assert len(numbers) >= 12
    for one, other in combinations(numbers, 2):
        half = 0.64 * max(len(one["text"]), len(other["text"]))
        assert abs(one["x"] - other["x"]) > half or abs(one["y"] - other["y"]) > 2.0


@pytest.mark.parametrize(
    ("turn", "corner"), [(0, (10.0, 20.0)), (90, (40.0, 20.0)), (180, (50.0, 50.0)), (270, (10.0, 60.0))]
)
def test_a_ring_is_turned_with_its_piece(turn: int, corner: tuple[float, float]) -> None:
    """The corner at the origin of a part 40 wide and 30 high comes to each corner of its box in turn."""
    part = Part(Shape("outline", 40.0, 30.0, ring=((0.0, 0.0), (40.0, 0.0), (20.0, 30.0))))
    first = ring_on_sheet(part, Laid(0, 0, 10.0, 20.0, turn))[0]
    assert first == pytest.approx(corner)


def test_the_trimmer_is_drawn_with_its_words() -> None:
    items = cast("Items", trimmer_drawing(60.0)["items"])
    assert {one["text"] for one in items if one["k"] == "words"} >= {"fence", "blade", "fence distance", "held", "off"}
