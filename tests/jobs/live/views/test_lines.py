"""Named lines where a tape measure would find them."""

from __future__ import annotations

import math

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Keepout
from wrapwright.jobs.live.values import LineView
from wrapwright.jobs.live.views.frames import Canvas
from wrapwright.jobs.live.views.lines import lines_of

TUBE = FlatWrap(lower_mm=240.0, upper_mm=240.0, height_mm=90.0, overlap_mm=8.0, seam_deg=270.0)
MUG = FlatWrap(lower_mm=240.0, upper_mm=240.0, height_mm=90.0, gap_mm=24.0, seam_deg=90.0)
CONE = FlatWrap(lower_mm=200.0, upper_mm=260.0, height_mm=100.0, overlap_mm=8.0, seam_deg=270.0)


def lines(wrap: FlatWrap, kind: str = "flat", keepouts: tuple[Keepout, ...] = ()) -> dict[str, LineView]:
    canvas = Canvas(wrap, 2.0, "straight" if kind == "straight" else "flat")
    found = lines_of(canvas, safe_mm=4.0, keepouts=keepouts, band_from_mm=10.0)
    return {line.name: line for line in found}


def points(line: LineView) -> list[tuple[float, float]]:
    pen = RecordingPen()
    parse_path(line.d, pen)
    return [point for _, some in pen.value for point in some[-1:]]


def span(line: LineView) -> tuple[float, float, float, float]:
    x, y = zip(*points(line), strict=True)
    return min(x), max(x), min(y), max(y)


def test_sides_lie_a_quarter_apart_and_the_left_one_at_both_ends() -> None:
    found = lines(TUBE)
    assert {found[name].at_deg for name in ("Front", "Right", "Back", "Left")} == {0.0, 90.0, 180.0, 270.0}
    for name, x in (("Front", -60.0), ("Right", 0.0), ("Back", 60.0)):
        assert span(found[name]) == pytest.approx((x, x, -92.0, 2.0), abs=1e-3)
    assert span(found["Left"])[:2] == pytest.approx((-120.0, 120.0), abs=1e-3)


def test_the_seam_stands_at_both_ends_and_the_overlap_beyond_the_right_one() -> None:
    found = lines(TUBE)
    assert [x for x, _ in points(found["Seam"])] == pytest.approx([-120.0, -120.0, 120.0, 120.0], abs=1e-3)
    assert span(found["End of the overlap"])[:2] == pytest.approx((128.0, 128.0), abs=1e-3)
    assert span(found["Trim"]) == pytest.approx((-120.0, 128.0, -90.0, 0.0), abs=1e-3)
    assert span(found["Bleed"]) == pytest.approx((-120.0, 128.0, -92.0, 2.0), abs=1e-3)
    assert span(found["Safe margin"]) == pytest.approx((-116.0, 116.0, -86.0, -4.0), abs=1e-3)
    assert span(found["Middle of the band"]) == pytest.approx((-120.0, 128.0, -45.0, -45.0), abs=1e-3)


def test_a_handle_has_a_drinker_s_and_a_table_s_side() -> None:
    found = lines(MUG)
    assert "Seam" not in found
    # With the handle at 90 degrees, to the viewer's right, a drinker whose right hand holds it looks at the front (0).
    drinker, table = found["Handle, drinker's side"], found["Handle, table's side"]
    assert drinker.at_deg == pytest.approx(90.0 - 18.0)
    assert table.at_deg == pytest.approx(90.0 + 18.0)
    assert span(table)[:2] == pytest.approx((-108.0, -108.0), abs=1e-3)
    assert span(drinker)[:2] == pytest.approx((108.0, 108.0), abs=1e-3)
    assert "Right" not in found  # it lies in the handle's gap


def test_a_keep_out_is_a_box_with_its_reason_and_shows_in_the_overlap_too() -> None:
    box = Keepout(at_deg=275.0, up_mm=30.0, width_mm=12.0, height_mm=6.0, why="maker's mark")
    found = lines(TUBE, keepouts=(box,))["Maker's mark"]
    middle = -120.0 + 5.0 / 360.0 * 240.0
    # Position 30 of the wall is 20 of a band that begins at 10.
    assert span(found) == pytest.approx((middle - 6.0, middle + 240.0 + 6.0, -23.0, -17.0), abs=1e-3)


def test_a_keep_out_above_the_band_is_no_line() -> None:
    above = Keepout(at_deg=0.0, up_mm=200.0, width_mm=5.0, height_mm=5.0, why="rivet")
    assert "Rivet" not in lines(TUBE, keepouts=(above,))


def test_straightened_sides_stand_upright_and_the_middle_is_level() -> None:
    found = lines(CONE, "straight")
    assert span(found["Front"]) == pytest.approx((-57.5, -57.5, -102.0, 2.0), abs=2e-3)
    assert span(found["Middle of the band"])[2:] == pytest.approx((-50.0, -50.0), abs=2e-3)


def test_flat_sides_of_a_taper_point_at_the_apex() -> None:
    found = lines(CONE)
    (x0, y0), (x1, y1) = points(found["Back"])
    apex = 200.0 / 0.6
    lean = 0.6 * 0.25
    assert math.atan2(x1 - x0, -(y1 - y0)) == pytest.approx(lean, abs=1e-4)
    assert x0 / (apex - y0) == pytest.approx(math.tan(lean), abs=1e-5)
