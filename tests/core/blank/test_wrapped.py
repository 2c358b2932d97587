"""From readings to the flat wrap: widths, bands, handles, remarks."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from wrapwright.core.base.findings import Severity
from wrapwright.core.blank.measuring.budget import Heat
from wrapwright.core.blank.readings import Blank, Handle, Reading, Tape, WrapRequest
from wrapwright.core.blank.statement import blank_statement, cutting_statement, wrap_statement
from wrapwright.core.blank.trim import bounding_box_mm
from wrapwright.core.blank.wrapped import Setup, Side, Wrapped, wrap_blank

BARE_TAPE = Tape(thickness_mm=0.0)
STRAIGHT = Blank("straight", (Reading(None, 235.0, where="blank: girth"),), wall_mm=165.0, tape=BARE_TAPE)
TAPERED = Blank(
    "tapered",
    (Reading(None, 226.0, where="blank: girth_bottom"), Reading(None, 280.0, where="blank: girth_top")),
    wall_mm=160.0,
    tape=BARE_TAPE,
)
BULGING = Blank(
    "profile",
    tuple(
        Reading(at, girth, where=f"blank: readings {at:g}")
        for at, girth in ((0.0, 226.0), (40.0, 231.0), (90.0, 229.0))
    ),
    tape=BARE_TAPE,
)
PURE = Setup(thickness_mm=0.0)


def rules(wrapped: Wrapped) -> list[tuple[str, Severity]]:
    return [(one.rule, one.severity) for one in wrapped.findings]


def test_straight_is_girth_and_paper_and_overlap() -> None:
    wrapped = wrap_blank(STRAIGHT, WrapRequest(overlap_mm=8.0), Setup(thickness_mm=0.12))
    assert wrapped.wrap.trim_width_mm == pytest.approx(235.0 + math.pi * 0.12 + 8.0, abs=1e-12)
    assert wrapped.wrap.lower_mm == wrapped.wrap.upper_mm
    assert wrapped.wrap.seam_deg == 270.0
    assert (wrapped.band_from_mm, wrapped.band_height_mm) == (0.0, 165.0)
    assert wrapped.girth_top_mm == wrapped.girth_bottom_mm == 235.0
    assert wrapped.findings == ()
    assert wrapped.questions == ()


@pytest.mark.parametrize("diameter", [40.0, 73.0, 120.0])
def test_paper_wraps_at_its_middle_layer(diameter: float) -> None:
    # Neutral axis of a bent sheet: middle minus inside is pi t = 0.40841 mm for t 0.13, on any diameter.
    blank = replace(STRAIGHT, readings=(Reading(None, diameter, "diameter"),))
    wrap = wrap_blank(blank, WrapRequest(overlap_mm=0.0), Setup(thickness_mm=0.13)).wrap
    assert wrap.lower_mm - math.pi * diameter == pytest.approx(0.40841, abs=5e-6)
    # the outside is as far beyond the middle: pi (D + 2 t) - pi D = 0.81681
    assert 2 * (wrap.lower_mm - math.pi * diameter) == pytest.approx(0.81681, abs=1e-5)


def test_the_tape_s_own_thickness_is_taken_off() -> None:
    blank = replace(STRAIGHT, tape=Tape(thickness_mm=0.35))
    wrapped = wrap_blank(blank, WrapRequest(), PURE)
    assert wrapped.girth_top_mm == pytest.approx(235.0 - math.pi * 0.35)
    unknown = wrap_blank(replace(STRAIGHT, tape=Tape()), WrapRequest(), PURE)
    assert unknown.girth_top_mm == 235.0
    assert "How thick is the tape?" in unknown.questions[0]


def test_a_flat_length_is_used_as_it_stands() -> None:
    for tape in (Tape(kind="gauge"), Tape(kind="paper strip"), Tape()):
        blank = replace(STRAIGHT, readings=(Reading(None, 235.4, "flat"),), tape=tape)
        wrapped = wrap_blank(blank, WrapRequest(overlap_mm=0.0), Setup(thickness_mm=0.12))
        assert wrapped.wrap.lower_mm == pytest.approx(235.4, abs=1e-12)
        assert wrapped.girth_top_mm == pytest.approx(235.4 - math.pi * 0.12)
        assert wrapped.questions == ()


def test_a_girth_read_with_a_paper_strip_is_a_flat_length_too() -> None:
    blank = replace(STRAIGHT, tape=Tape(kind="Paper strip"))
    assert wrap_blank(blank, WrapRequest(), Setup(thickness_mm=0.12)).wrap.lower_mm == pytest.approx(235.0)


def test_a_handle_leaves_its_gap_bare_and_takes_the_overlap() -> None:
    blank = replace(STRAIGHT, handle=Handle(180.0, 24.0))
    wrapped = wrap_blank(blank, WrapRequest(), Setup(thickness_mm=0.12))
    assert wrapped.wrap.trim_width_mm == pytest.approx(235.0 + math.pi * 0.12 - 24.0)
    assert wrapped.wrap.seam_deg == 180.0
    assert wrapped.overlap_mm == 0.0
    assert wrapped.wrap.turn_of(0.0) == 180.0
    assert rules(wrapped) == []
    assert bounding_box_mm(wrapped.wrap)[0] == pytest.approx(wrapped.wrap.trim_width_mm)


def test_a_band_inside_a_tapered_wall_gets_its_girths_along_it() -> None:
    wrapped = wrap_blank(TAPERED, WrapRequest(band_from_mm=40.0, band_height_mm=80.0, overlap_mm=0.0), PURE)
    assert wrapped.wrap.lower_mm == pytest.approx(226.0 + 54.0 * 40 / 160)
    assert wrapped.wrap.upper_mm == pytest.approx(226.0 + 54.0 * 120 / 160)
    assert wrapped.wrap.theta == pytest.approx(54.0 / 160)
    assert (wrapped.girth_bottom_mm, wrapped.girth_top_mm, wrapped.wall_mm) == (226.0, 280.0, 160.0)
    # outer = (C1 + pi t) / theta, inner = outer - s
    thick = wrap_blank(TAPERED, WrapRequest(overlap_mm=0.0), Setup(thickness_mm=0.2)).wrap
    assert thick.outer_radius_mm == pytest.approx((280.0 + math.pi * 0.2) / (54.0 / 160))
    assert thick.inner_radius_mm == pytest.approx(thick.outer_radius_mm - 160.0)


def test_the_upright_height_of_a_taper_becomes_its_slope() -> None:
    # Closed form: diameters 72 and 90, height 160: slant 160.25293.
    blank = Blank("tapered", (Reading(None, 72.0, "diameter"), Reading(None, 90.0, "diameter")), axial_mm=160.0)
    assert wrap_blank(blank, WrapRequest(), PURE).wall_mm == pytest.approx(160.25293, abs=5e-6)


def test_a_foot_wider_than_the_rim_is_inverted() -> None:
    blank = replace(TAPERED, readings=TAPERED.readings[::-1])
    wrapped = wrap_blank(blank, WrapRequest(), PURE)
    assert wrapped.inverted
    assert blank_statement(wrapped)["inverted"] is True
    assert wrapped.wrap.outer_radius_mm == pytest.approx(280.0 / (54.0 / 160))


def test_two_readings_cannot_show_a_bulge() -> None:
    assert rules(wrap_blank(TAPERED, WrapRequest(), PURE)) == [("too-few-readings", Severity.WARNING)]
    two = replace(BULGING, readings=BULGING.readings[::2])
    finding = wrap_blank(two, WrapRequest(), PURE).findings[0]
    assert (finding.rule, finding.figure, finding.limit) == ("too-few-readings", 2, 3)
    assert "mid height (45 mm up the wall)" in finding.message
    assert rules(wrap_blank(BULGING, WrapRequest(), PURE)) == [("profile-misfit", Severity.ERROR)]


def test_a_wall_that_leans_over_30_degrees_is_asked_about() -> None:
    steep = Blank("tapered", (Reading(None, 80.0, "diameter"), Reading(None, 400.0, "diameter")), axial_mm=210.0)
    wrapped = wrap_blank(steep, WrapRequest(), PURE)
    assert wrapped.findings[-1].figure == pytest.approx(math.degrees(math.atan(160 / 210)))
    assert "leans by 37.3 degrees" in wrapped.findings[-1].message
    assert any("37.3 degrees" in question for question in wrapped.questions)


def test_a_bulge_is_followed_as_well_as_one_flat_shape_can() -> None:
    wrapped = wrap_blank(BULGING, WrapRequest(), PURE)
    # By hand: the chord from (0, 226) to (90, 229) passes 3.667 under the middle reading; half of that is the misfit.
    assert wrapped.misfit_mm == pytest.approx((231 - 226 - 3 * 40 / 90) / 2)
    assert wrapped.misfit.stand_off_mm == pytest.approx(2 * wrapped.misfit_mm / (2 * math.pi))
    assert wrapped.wrap.lower_mm == pytest.approx(226 + wrapped.misfit_mm)
    assert wrapped.need.misfit_mm == pytest.approx(wrapped.misfit_mm)
    assert wrapped.distance_error == pytest.approx(wrapped.misfit_mm / 226.0)
    finding = wrapped.findings[0]
    assert f"height {wrapped.misfit.tallest_height_mm:g} mm" in finding.message
    # and the band it offers is indeed within the limit
    offered = WrapRequest(band_from_mm=wrapped.misfit.tallest_from_mm, band_height_mm=wrapped.misfit.tallest_height_mm)
    better = wrap_blank(BULGING, offered, PURE)
    assert rules(better) == []
    assert 1.4 < better.misfit_mm <= 1.5


def test_a_profile_read_from_higher_up_keeps_its_positions() -> None:
    higher = replace(
        BULGING, readings=tuple(replace(one, position_mm=10 + (one.position_mm or 0)) for one in BULGING.readings)
    )
    wrapped = wrap_blank(higher, WrapRequest(), PURE)
    assert (wrapped.wall_from_mm, wrapped.wall_mm, wrapped.band_from_mm) == (10.0, 90.0, 10.0)
    assert wrapped.profile[0] == (10.0, 226.0)


def test_the_overlap_that_is_worked_out() -> None:
    # Check of the whole chain against the worked budget (JCGM 100 in closed form): 6.0 mm.
    blank = replace(STRAIGHT, tape=Tape(division_mm=25.4 / 16, thickness_mm=0.0))
    wrapped = wrap_blank(blank, WrapRequest(), Setup(heat=Heat(17.3e-6, 200.0)))
    assert wrapped.overlap_mm == 6.0
    assert wrapped.u_c_mm == pytest.approx(0.92584, abs=5e-6)
    assert wrapped.girth_error_mm == pytest.approx(2.8609, abs=5e-5)
    assert wrapped.opposite_error_mm == pytest.approx(2.8609 / 2, abs=5e-5)


def test_a_given_overlap_under_the_budget_is_remarked() -> None:
    short = wrap_blank(STRAIGHT, WrapRequest(overlap_mm=3.0), PURE)
    assert rules(short) == [("overlap-short", Severity.WARNING)]
    assert short.findings[0].figure == 3.0
    assert short.findings[0].limit == pytest.approx(short.need.sum_mm)
    assert f"Use {short.need.rounded_mm:g} mm" in short.findings[0].message
    enough = wrap_blank(STRAIGHT, WrapRequest(overlap_mm=short.need.rounded_mm), PURE)
    assert rules(enough) == []


def test_a_butt_join_has_its_own_advice() -> None:
    butt = wrap_blank(STRAIGHT, WrapRequest(overlap_mm=0.0), PURE)
    assert rules(butt) == [("overlap-short", Severity.WARNING)]
    assert "The ends butt" in butt.findings[0].message


def test_a_calibrated_set_up_asks_for_less_overlap() -> None:
    plain = wrap_blank(STRAIGHT, WrapRequest(), PURE)
    known = wrap_blank(STRAIGHT, WrapRequest(), replace(PURE, calibrated=True))
    assert known.need.sum_mm < plain.need.sum_mm


@pytest.mark.parametrize(
    ("grain", "lies", "share"),
    [("long", "long", 0.001), ("short", "short", 0.001), ("long", "short", 0.002), ("long", "unknown", 0.002)],
)
def test_moisture_counts_half_along_the_grain(grain: Side, lies: Side, share: float) -> None:
    wrapped = wrap_blank(STRAIGHT, WrapRequest(), replace(PURE, grain=grain, lies=lies))
    moisture = next(term for term in wrapped.overlap_budget if term.what == "paper moisture")
    assert moisture.half_width_mm == pytest.approx(share * 235.0)


def test_what_the_report_states() -> None:
    wrapped = wrap_blank(TAPERED, WrapRequest(overlap_mm=5.0), PURE)
    stated = wrap_statement(wrapped)
    assert list(stated) == ["width_mm", "height_mm", "overlap_mm", "overlap_budget", "sector", "misfit_mm"]
    assert stated["width_mm"] == 285.0
    assert stated["sector"] == {
        "inner_radius_mm": round(226 / (54 / 160), 6),
        "outer_radius_mm": round(280 / (54 / 160), 6),
        "angle_deg": round(math.degrees(54 / 160), 6),
    }
    budget = stated["overlap_budget"]
    assert isinstance(budget, list)
    assert budget[0] == {"what": "reading", "half_width_mm": 0.5, "standard_mm": 0.288675, "source": "half a division"}
    assert wrap_statement(wrap_blank(STRAIGHT, WrapRequest(), PURE))["sector"] is None
    cut = cutting_statement(wrapped.wrap)
    assert cut["outer_chord_mm"] == pytest.approx(2 * 280 / (54 / 160) * math.sin(27 / 160), abs=1e-6)
    assert cut["bounding_box_mm"][0] > cut["outer_chord_mm"]  # type: ignore[index]
