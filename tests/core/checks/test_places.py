"""Rooms, reach and keep-outs on the flat wrap, against plain geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Keepout
from wrapwright.core.checks.places import keepout_hits, reach, sampled, within
from wrapwright.core.design.path import Path, Subpath, joined, rectangle
from wrapwright.core.design.placement import Placement

STRAIGHT = FlatWrap(240.0, 240.0, 100.0, seam_deg=270.0)
TAPER = FlatWrap(200.0, 250.0, 100.0, seam_deg=270.0)  # theta = 0.5 rad, apex 400 mm below the lower edge
MUG = FlatWrap(240.0, 240.0, 100.0, gap_mm=24.0, seam_deg=180.0)
WIDE_TAPER = FlatWrap(100.0, 400.0, 60.0)  # theta = 5 rad, more than half a turn


def laid(wrap: FlatWrap, path: Path, turn: float, up: float, lay: str = "true") -> Path:
    place = Placement(wrap, turn, up, lay)
    return path.mapped(place.to_flat)


def test_rooms_of_a_box_on_a_straight_wall_are_differences() -> None:
    # The band is 240 mm round; x = 0 is opposite the seam.
    found = reach(STRAIGHT, rectangle(-90.0, 10.0, 40.0, 70.0))
    assert found is not None
    assert (found.left_mm, found.right_mm) == (pytest.approx(30.0), pytest.approx(80.0))
    assert (found.low_mm, found.high_mm) == (pytest.approx(10.0), pytest.approx(70.0))
    assert found.last_turn - found.first_turn == pytest.approx(130.0 / 240.0 * 360.0)


def test_a_handle_takes_half_its_gap_from_each_end() -> None:
    found = reach(MUG, rectangle(-120.0, 10.0, 100.0, 70.0))
    assert found is not None
    assert (found.left_mm, found.right_mm) == (pytest.approx(-12.0), pytest.approx(8.0))


def test_on_a_taper_the_room_is_the_distance_to_the_seams_straight_line() -> None:
    # A point at angle phi from the seam's line and radius r from the apex lies r sin(phi) beside it.
    turn, up, half = 60.0, 50.0, 1e-3
    found = reach(TAPER, laid(TAPER, rectangle(-half, -half, half, half), turn, up))
    radius = 200.0 / 0.5 + up
    assert found is not None
    assert found.left_mm == pytest.approx(radius * math.sin(0.5 * turn / 360.0), abs=2 * half)
    assert found.right_mm == pytest.approx(radius * math.sin(0.5 * (360.0 - turn) / 360.0), abs=2 * half)


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPER, WIDE_TAPER])
def test_over_the_seam_is_negative_by_how_much(wrap: FlatWrap) -> None:
    box = rectangle(-10.0, -5.0, 10.0, 5.0)
    crossing = reach(wrap, laid(wrap, box, 0.0, 30.0))
    clear = reach(wrap, laid(wrap, box, 180.0, 30.0))
    assert crossing is not None
    assert clear is not None
    assert crossing.left_mm == pytest.approx(-10.0)  # rigid, its upright on the line
    assert min(clear.left_mm, clear.right_mm) > 20.0


def test_an_empty_path_has_no_reach() -> None:
    assert reach(STRAIGHT, Path()) is None
    assert sampled(Path()).shape == (0, 2)


def test_within_is_the_nonzero_rule() -> None:
    outer, inner = rectangle(0.0, 0.0, 10.0, 10.0), rectangle(3.0, 3.0, 7.0, 7.0)
    hole = Path((Subpath(inner.subpaths[0].points[::-1]),))
    points = np.array([[5.0, 5.0], [1.0, 5.0], [11.0, 5.0], [5.0, -1.0]])
    assert within(joined([outer, inner]), points).tolist() == [True, True, False, False]
    assert within(joined([outer, hole]), points).tolist() == [False, True, False, False]


def test_within_agrees_with_a_circle() -> None:
    # The usual four cubics of a unit circle are off by under 0.03 % (Bezier circle constant 4/3 (sqrt 2 - 1)).
    k = 4.0 / 3.0 * (math.sqrt(2.0) - 1.0)
    quarter = np.array([[1.0, 0.0], [1.0, k], [k, 1.0], [0.0, 1.0]])
    turns = [np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]]) for a in np.arange(4) * math.pi / 2]
    points = np.vstack([quarter[:1], *[(quarter @ turn.T)[1:] for turn in turns]])
    grid = np.stack(np.meshgrid(np.linspace(-1.2, 1.2, 41), np.linspace(-1.2, 1.2, 41)), axis=-1).reshape(-1, 2)
    radius = np.hypot(grid[:, 0], grid[:, 1])
    sure = np.abs(radius - 1.0) > 0.01
    inside = within(Path((Subpath(points),)), grid)
    assert (inside == (radius < 1.0))[sure].all()


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPER])
@pytest.mark.parametrize("at_deg", [0.0, 270.0, 262.0])
def test_a_keepout_under_a_box_counts_its_area(wrap: FlatWrap, at_deg: float) -> None:
    # The keep-out, 20 x 8 mm, lies wholly under a larger box; on the wall it starts 10 mm above position 0.
    mark = Keepout(at_deg, 40.0, 20.0, 8.0, "mark")
    under = laid(wrap, rectangle(-20.0, -10.0, 20.0, 10.0), wrap.turn_of(at_deg), 30.0)
    (hit,) = keepout_hits(wrap, under, (mark,), 10.0)
    assert hit.why == "mark"
    assert hit.area_mm2 == pytest.approx(160.0)


def test_a_keepout_beside_a_box_is_no_hit_and_half_under_counts_half() -> None:
    mark = Keepout(0.0, 30.0, 20.0, 8.0)
    beside = laid(STRAIGHT, rectangle(0.0, -10.0, 40.0, 10.0), STRAIGHT.turn_of(0.0) + 15.0, 30.0)
    assert keepout_hits(STRAIGHT, beside, (mark,), 0.0) == ()
    half = laid(STRAIGHT, rectangle(0.0, -10.0, 40.0, 10.0), STRAIGHT.turn_of(0.0), 30.0)
    (hit,) = keepout_hits(STRAIGHT, half, (mark,), 0.0)
    assert hit.area_mm2 == pytest.approx(80.0, rel=0.06)


def test_a_box_over_the_seam_hits_a_keepout_at_the_other_end() -> None:
    mark = Keepout(260.0, 30.0, 4.0, 4.0)  # 10 degrees before the seam's angle: the wrap's right end
    over = laid(STRAIGHT, rectangle(-10.0, -5.0, 10.0, 5.0), 0.0, 30.0)
    assert len(keepout_hits(STRAIGHT, over, (mark,), 0.0)) == 1


def test_a_line_thinner_than_the_grid_is_still_a_hit() -> None:
    mark = Keepout(0.0, 30.0, 20.0, 8.0)
    hair = rectangle(-100.0, 30.13, 110.0, 30.14)  # the front lies at x = -60
    assert len(keepout_hits(STRAIGHT, hair, (mark,), 0.0)) == 1
    small = Keepout(0.0, 30.0, 2.0, 2.0)
    assert len(keepout_hits(STRAIGHT, hair, (small,), 0.0)) == 1
    assert keepout_hits(STRAIGHT, hair, (Keepout(0.0, 50.0, 2.0, 2.0),), 0.0) == ()


def test_a_keepout_outside_the_band_is_no_hit() -> None:
    everything = rectangle(-200.0, -50.0, 200.0, 150.0)
    assert keepout_hits(STRAIGHT, everything, (Keepout(0.0, 5.0, 20.0, 8.0),), 10.0) == ()
