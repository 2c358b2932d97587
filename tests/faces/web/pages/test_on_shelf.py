"""A blank's figures, from every way of measuring it."""

from __future__ import annotations

import math
from typing import Any

import pytest

from wrapwright.faces.web.pages.on_shelf import BlankFigures, figures_of


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


def test_a_profile_shows_its_ends() -> None:
    readings = [["90 mm", "229 mm"], ["0 mm", "226 mm"], ["40 mm", "231 mm"]]
    assert figures_of({"kind": "profile", "readings": readings}) == BlankFigures("bulging", 229, 226, 90)


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
