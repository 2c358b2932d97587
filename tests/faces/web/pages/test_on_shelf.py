"""A blank's figures, from every way of measuring it."""

from __future__ import annotations

import math
from typing import Any

import pytest

from wrapwright.faces.web.pages.on_shelf import BlankFigures, figures_of, standing
from wrapwright.jobs.kept.blanks import list_starters
from wrapwright.jobs.live.measured.judged import blank_read
from wrapwright.outside.documents.screen.blank_drawing import SMALL
from wrapwright.outside.documents.screen.side_view import OPEN, side_view


def test_a_girth_is_read_in_its_unit() -> None:
    found = figures_of({"kind": "straight", "girth": "9 1/4 in", "wall": "6 1/2 in"})
    assert found.shape == "straight"
    # 25.4 mm to the inch (16 CFR 500.19).
    assert (found.bottom_mm, found.top_mm, found.wall_mm) == pytest.approx((234.95, 234.95, 165.1), abs=1e-9)


def test_a_diameter_becomes_a_girth() -> None:
    found = figures_of({"kind": "straight", "diameter": "80 mm", "wall": 100})
    assert found.bottom_mm == pytest.approx(80 * math.pi)
    assert found.wall_mm == 100


def test_an_upright_height_becomes_a_wall() -> None:
    # Radii 30 and 35 mm, 12 mm high: the wall is the long side of a right triangle, 5-12-13.
    table = {"kind": "tapered", "diameter_bottom": 60, "diameter_top": 70, "height": 12}
    assert figures_of(table).wall_mm == pytest.approx(13.0)


def test_a_profile_shows_its_ends_and_how_far_it_bulges() -> None:
    readings = [["90 mm", "229 mm"], ["0 mm", "226 mm"], ["40 mm", "231 mm"]]
    assert figures_of({"kind": "profile", "readings": readings}) == BlankFigures("bulging", 229, 226, 90, 231, 226)


def test_a_handle_is_named() -> None:
    assert figures_of({"kind": "straight", "girth": 250, "handle": {"gap": 24}}).shape == "straight with handle"


@pytest.mark.parametrize(
    "table",
    [
        {},
        {"kind": "straight"},
        {"kind": "straight", "girth": "about so", "wall": True},
        {"kind": "profile", "readings": "none"},
        {"kind": "profile", "readings": [["1 mm"]]},
        {"kind": "profile", "readings": []},
        {"kind": "profile"},
    ],
)
def test_what_cannot_be_read_is_left_out(table: dict[str, Any]) -> None:
    found = figures_of(table)
    assert (found.bottom_mm, found.top_mm, found.wall_mm) == (0, 0, 0)


@pytest.mark.parametrize(
    ("table", "size"),
    [
        ({"circle": "95 mm"}, (95.0, 95.0)),
        ({"width": "6 in", "height": "4 in"}, (152.4, 101.6)),
        ({"outline": [[0, 0], [60, 0], [30, 90]], "height": "45 mm"}, (30.0, 45.0)),
        ({"outline": [[0, 0], [60, 0], [30, 90]], "width": "30 mm"}, (30.0, 45.0)),
        ({"outline": "tag.svg", "width": "30 mm"}, (30.0, 30.0)),
        ({"circle": "about so"}, (0.0, 0.0)),
    ],
)
def test_a_flat_blank_is_known_by_its_two_sides(table: dict[str, Any], size: tuple[float, float]) -> None:
    found = figures_of({"kind": "flat", **table})
    assert (found.shape, found.wall_mm) == ("flat", 0)
    assert found.size_mm == pytest.approx(size)


def test_all_stand_on_the_line_to_one_scale() -> None:
    """The drawing itself says how large a blank is in it and where its foot lies; the page must agree."""
    starters = list_starters()
    found, common = standing([figures_of(one.table) for one in starters])
    largest = 0.0
    for one, stand in zip(starters, found, strict=True):
        largest = max(largest, stand.side)
        job, wrapped = blank_read(one.table, {})
        if wrapped.wrap.plate is not None:  # drawn from above: its lower edge lies on the line
            wide, high = wrapped.wrap.lower_mm, wrapped.wrap.height_mm
            scale = (SMALL[0] - 8.0) / max(wide, high)
            assert scale * stand.side / SMALL[0] == pytest.approx(common, rel=2e-3), one.name
            below = (SMALL[1] - scale * high) / 2.0
            assert below * stand.side / SMALL[1] == pytest.approx(stand.sink, abs=0.25), one.name
            continue
        view = side_view(job.blank, wrapped, (4.0, 4.0, SMALL[0] - 8.0, SMALL[1] - 8.0))
        assert view.scale * stand.side / SMALL[0] == pytest.approx(common, rel=2e-3), one.name
        foot = view.foot + OPEN * view.radii[0] * view.scale
        assert (SMALL[1] - foot) * stand.side / SMALL[1] == pytest.approx(stand.sink, abs=0.25), one.name
    assert largest == SMALL[0]


def test_one_that_cannot_be_read_fills_its_square() -> None:
    known = BlankFigures("straight", 250, 250, 100, 250)
    (unknown, first), scale = standing([BlankFigures("straight"), known])
    assert unknown.side == first.side == SMALL[0]
    assert scale == pytest.approx(124 / max(250 / math.pi, 100 + 2 * OPEN * 125 / math.pi))
    assert standing([]) == ((), 0.0)
