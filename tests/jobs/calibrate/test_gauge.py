"""Gauges as they are asked for: the way they lie, what they say, and what cannot be."""

from __future__ import annotations

import subprocess
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from tests.sheet_on_paper.wound import marks_of
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.blank.readings import Blank, Reading
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.calibrate.gauge import DrawGauge, draw_gauge
from wrapwright.jobs.calibrate.target import PrintTarget, hand_over, print_target

QUIET = Watch()


def straight(girth: float, wall: float | None = None) -> Blank:
    return Blank("straight", (Reading(None, girth),), wall_mm=wall)


def tapered(bottom: float, top: float, wall: float) -> Blank:
    return Blank("tapered", (Reading(None, bottom), Reading(None, top)), wall_mm=wall)


def test_a_gauge_through_a_set_up(steady: Bench) -> None:
    asked = DrawGauge(straight(235.0, 165.0), setup="desk")
    drawn = draw_gauge(asked, steady, QUIET)
    assert (drawn.pages, drawn.lies, drawn.setup, drawn.paper, drawn.scale) == (1, "along", "Desk", "Letter", None)
    assert [(one.low_mm, one.high_mm, one.pieces, one.at_mm) for one in drawn.strips] == [(227, 244, 1, None)]
    with pikepdf.open(BytesIO(drawn.data)) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        box = [float(one) for one in pdf.pages[0].MediaBox]
    assert box == pytest.approx([0.0, 0.0, 792.0, 612.0], abs=1e-3)  # Letter on its side, as the wraps lie
    assert draw_gauge(asked, steady, QUIET).data == drawn.data
    marks = marks_of(drawn.data)
    assert len(marks) == 11 + 37
    # Not mirrored: the vernier stands left of the scale, and the mark for 227 mm is 227 mm from its 0.
    assert marks[11].low[0] - marks[0].low[0] == pytest.approx(227.0, abs=0.002)


def test_the_scale_of_the_set_up_corrects_it(steady: Bench) -> None:
    plain = marks_of(draw_gauge(DrawGauge(straight(235.0), sheet={"paper": "A4"}), steady, QUIET).data)
    scaled = DrawGauge(straight(235.0), sheet={"paper": "A4", "scale": [0.99, 1.01]})
    drawn = draw_gauge(scaled, steady, QUIET)
    corrected = marks_of(drawn.data, (1.01, 0.99))
    assert drawn.scale == 1.01
    lengths = [marks[-1].low[0] - marks[0].low[0] for marks in (plain, corrected)]
    assert lengths[1] * 1.01 == pytest.approx(lengths[0], abs=0.002)


def test_it_lies_as_the_wraps_do(steady: Bench) -> None:
    ways = {girth: draw_gauge(DrawGauge(straight(girth, 90.0)), steady, QUIET).lies for girth in (150.0, 240.0)}
    assert ways == {150.0: "across", 240.0: "along"}
    other = draw_gauge(DrawGauge(straight(150.0, 90.0), lies="along"), steady, QUIET)
    assert other.lies == "along"


def test_a_taper_has_two_arcs_and_a_rule(steady: Bench) -> None:
    drawn = draw_gauge(DrawGauge(tapered(200.0, 230.0, 120.0)), steady, QUIET)
    assert [one.at_mm for one in drawn.strips] == [10.0, 110.0]
    assert all(one.radius_mm is not None and one.radius_mm > 0 for one in drawn.strips)
    turned = draw_gauge(DrawGauge(tapered(230.0, 200.0, 120.0), at_mm=(60.0,)), steady, QUIET)
    assert [one.at_mm for one in turned.strips] == [60.0]
    assert turned.strips[0].radius_mm < 0
    with pytest.raises(WrapwrightError, match="10 mm to 110 mm"):
        draw_gauge(DrawGauge(tapered(200.0, 230.0, 120.0), at_mm=(5.0,)), steady, QUIET)


def test_too_long_and_too_small(steady: Bench) -> None:
    two = draw_gauge(DrawGauge(straight(320.0, 90.0)), steady, QUIET)
    assert two.strips[0].pieces == 2
    assert any("two pieces" in one for one in two.words)
    with pytest.raises(WrapwrightError, match="needs more than 2 pieces"):
        draw_gauge(DrawGauge(straight(700.0, 90.0)), steady, QUIET)
    with pytest.raises(WrapwrightError, match="too small for a gauge"):
        draw_gauge(DrawGauge(straight(40.0, 90.0)), steady, QUIET)
    with pytest.raises(WrapwrightError, match=r"Was it 9\.25 in"):
        draw_gauge(DrawGauge(straight(9.25)), steady, QUIET)


def test_a_roll_is_cut_where_the_drawing_ends(steady: Bench) -> None:
    roll = draw_gauge(DrawGauge(straight(320.0, 300.0), sheet={"paper": {"roll": "210 mm"}}), steady, QUIET)
    assert (roll.lies, roll.strips[0].pieces) == ("along", 1)
    with pikepdf.open(BytesIO(roll.data)) as pdf:
        width, height = (float(one) * 25.4 / 72.0 for one in pdf.pages[0].MediaBox[2:])
    assert width == pytest.approx(210.0, abs=1e-3)
    assert 350.0 < height < 380.0


def test_a_page_that_is_not_there(steady: Bench) -> None:
    with pytest.raises(WrapwrightError) as caught:
        draw_gauge(DrawGauge(straight(235.0), picture=2), steady, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_the_picture_is_the_page(steady: Bench) -> None:
    picture = draw_gauge(DrawGauge(straight(235.0), picture=1), steady, QUIET).data
    assert picture.startswith(b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 -215.9 279.4 ')
    shown = float(picture.split(b'"', 5)[3].split()[3])
    assert 60.0 < shown < 140.0  # the white paper below the drawing is left away
    assert b'fill="#000000"' in picture


def test_the_target_and_how_it_is_handed_over(steady: Bench, tmp_path: Path) -> None:
    drawn = print_target(PrintTarget(setup="Desk"), steady, QUIET)
    assert drawn.asked_mm == (207.0, 271.0)
    file = hand_over(drawn.data, tmp_path / "target.pdf", force=False)
    told = subprocess.run([need("pdfinfo"), str(file)], check=True, capture_output=True, text=True).stdout
    assert "612 x 792 pts (letter)" in told
    with pytest.raises(WrapwrightError) as refused:
        hand_over(drawn.data, file, force=False)
    assert refused.value.kind is Kind.REFUSED
    with pytest.raises(WrapwrightError) as misused:
        hand_over(drawn.data, tmp_path / "target.png", force=False)
    assert misused.value.kind is Kind.USAGE
    assert print_target(PrintTarget({"paper": "A4", "margins": "3 mm"}), steady, QUIET).asked_mm == (203.0, 290.0)
