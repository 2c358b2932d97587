"""Places on the wrap as the browser finds them, against the flat wrap of the core."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from tests.browser.canvas.canvas_stage import served
from tests.browser.canvas.drawn_by_hand import HANDLED, INVERTED, STRAIGHT, TAPERED, rigid_matrix

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.placement import Placement

NEARLY = FlatWrap(lower_mm=235.3, upper_mm=235.3 + 1e-7, height_mm=102.0)
STEEP = FlatWrap(lower_mm=120.0, upper_mm=420.0, height_mm=80.0, seam_deg=200.0)
WRAPS = [STRAIGHT, TAPERED, INVERTED, HANDLED, NEARLY, STEEP]
NAMES = ["straight", "taper", "inverted", "mug", "nearly straight", "steep"]
MM = 1e-6


@pytest.fixture(scope="module")
def page(browser: Any) -> Iterator[Any]:
    with served() as url:
        context = browser.new_context()
        page = context.new_page()
        page.goto(f"{url}/harness/canvas.html")
        page.wait_for_function("() => window.ready")
        yield page
        context.close()


def view(wrap: FlatWrap) -> dict[str, Any]:
    return {
        "kind": "flat", "sector": wrap.is_sector, "lower_mm": wrap.lower_mm, "upper_mm": wrap.upper_mm,
        "height_mm": wrap.height_mm, "seam_deg": wrap.seam_deg, "overlap_mm": wrap.overlap_mm, "gap_mm": wrap.gap_mm,
        "box": [0, 0, 1, 1],
    }  # fmt: skip


def asked(page: Any, wrap: FlatWrap, words: str, values: Any) -> Any:
    """Return what an expression of `frame` and each of `values` comes to."""
    return page.evaluate(
        f"([view, values]) => {{ const frame = frameOf(view); return values.map({words}); }}", [view(wrap), values]
    )


def places(wrap: FlatWrap) -> list[tuple[float, float]]:
    return [(turn, share * wrap.height_mm) for turn in (0.0, 1.0, 90.0, 180.0, 359.5) for share in (-0.05, 0.3, 1.0)]


@pytest.mark.parametrize("wrap", WRAPS, ids=NAMES)
def test_places_are_the_cores(page: Any, wrap: FlatWrap) -> None:
    for turn, up in places(wrap):
        at = wrap.at_of(turn)
        [found] = asked(page, wrap, "([at, up]) => frame.place(at, up)", [[at, up]])
        x, y = wrap.to_flat(np.asarray(turn), np.asarray(up))
        assert (found["x"], found["y"]) == pytest.approx((float(x), -float(y)), abs=MM)
        assert found["lean"] == pytest.approx(np.degrees(wrap.tilt(turn)), abs=1e-9)
        [length] = asked(page, wrap, "(up) => frame.turnLength(up)", [up])
        assert length == pytest.approx(wrap.turn_length(up), abs=MM)


@pytest.mark.parametrize("wrap", WRAPS, ids=NAMES)
def test_points_are_read_as_the_core_reads_them(page: Any, wrap: FlatWrap) -> None:
    for turn, up in places(wrap):
        x, y = wrap.to_flat(np.asarray(turn), np.asarray(up))
        [found] = asked(page, wrap, "([x, y]) => frame.read(x, y)", [[float(x), -float(y)]])
        again, height = wrap.from_flat(x, y)
        assert found["up"] == pytest.approx(float(height), abs=MM)
        assert found["up"] == pytest.approx(up, abs=MM)
        round_mm = (found["turn"] - float(again)) / 360.0 * wrap.turn_length(up)
        assert round_mm == pytest.approx(0.0, abs=MM)
        assert 0.0 <= found["at"] < 360.0


@pytest.mark.parametrize("wrap", WRAPS, ids=NAMES)
def test_laps_are_the_motions_of_the_core(page: Any, wrap: FlatWrap) -> None:
    for laps in (-1, 0, 1, 2):
        [matrix] = asked(page, wrap, "(laps) => frame.lap(laps)", [laps])
        a, b, c, d, e, f = matrix
        carried = wrap.carried_round(float(laps))
        for x, y in ((0.0, 0.0), (100.0, 0.0), (-40.0, 90.0)):
            told = carried @ np.array([x, y, 1.0])
            found = (a * x + c * -y + e, b * x + d * -y + f)
            assert found == pytest.approx((told[0], -told[1]), abs=MM)


@pytest.mark.parametrize("wrap", WRAPS, ids=NAMES)
@pytest.mark.parametrize(("start", "end"), [((20.0, 10.0), (75.0, 60.0)), ((265.0, 40.0), (5.0, 20.0))])
def test_a_move_carries_a_rigid_copy_to_where_the_core_lays_it(
    page: Any, wrap: FlatWrap, start: tuple[float, float], end: tuple[float, float]
) -> None:
    [matrix] = asked(
        page, wrap, "([from, to]) => frame.move({at: from[0], up: from[1]}, {at: to[0], up: to[1]})", [[start, end]]
    )
    a, b, c, d, e, f = matrix
    own = np.array([[0.0, 0.0], [30.0, 0.0], [-10.0, 25.0]])
    before = Placement(wrap, wrap.turn_of(start[0]), start[1], "true", 12.0).to_flat(own)
    gap = (end[0] - start[0] + 180.0) % 360.0 - 180.0  # the shorter way round
    after = Placement(wrap, wrap.turn_of(start[0]) + gap, end[1], "true", 12.0).to_flat(own)
    for (x, y), (to_x, to_y) in zip(before, after, strict=True):
        assert (a * x + c * -y + e, b * x + d * -y + f) == pytest.approx((to_x, -to_y), abs=MM)


def test_a_bent_point_is_where_the_core_bends_it(page: Any) -> None:
    place = Placement(TAPERED, 70.0, 60.0, "level", 0.0)
    own = [[-30.0, 8.0], [0.0, 0.0], [25.0, -6.0]]
    found = asked(page, TAPERED, "([a, b]) => frame.bent(70, 60, a, b)", own)
    for point, (x, y) in zip(found, place.to_flat(np.array(own)), strict=True):
        assert (point["x"], point["y"]) == pytest.approx((x, -y), abs=MM)


def test_the_matrix_of_a_copy_is_its_placement() -> None:
    a, b, c, d, e, f = rigid_matrix(TAPERED, 40.0, 50.0, 20.0)
    x, y = Placement(TAPERED, TAPERED.turn_of(40.0), 50.0, "true", 20.0).to_flat(np.array([7.0, -4.0]))
    assert (a * 7.0 + c * 4.0 + e, b * 7.0 + d * 4.0 + f) == pytest.approx((float(x), -float(y)), abs=MM)
