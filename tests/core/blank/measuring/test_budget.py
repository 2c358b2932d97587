"""The budget of doubt and the overlap against the law on tapes and a worked combination."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.measuring.budget import (
    Heat,
    Measuring,
    Term,
    combined_mm,
    expanded_mm,
    overlap_need,
    terms,
)
from wrapwright.core.blank.measuring.tape import tape_error_mm
from wrapwright.core.blank.readings import Tape

INCH_TAPE = Tape(division_mm=25.4 / 16, thickness_mm=0.0, kind="class II")
STEEL = Heat(17.3e-6, 200.0, "steel")


@pytest.mark.parametrize(
    ("kind", "length", "end", "error"),
    # SI 2016/1153 Schedule 1I (legislation.gov.uk), Measuring Instruments Directive annex: a + b L, L rounded up.
    [
        ("class I", 1000, False, 0.2),
        ("class II", 1000, False, 0.5),
        ("class II", 235, False, 0.5),
        ("class II", 3000, False, 0.9),
        ("class II", 4001, False, 1.3),
        ("class II", 5000, False, 1.3),
        ("class II", 10000, False, 2.3),
        ("class III", 2000, False, 1.4),
        ("class I", 1000, True, 0.3),
        ("class II", 1000, True, 0.7),
        ("class III", 1000, True, 1.3),
    ],
)
def test_what_the_law_lets_a_tape_be_out_by(kind: str, length: float, end: bool, error: float) -> None:
    assert tape_error_mm(kind, length, end_surface=end) == pytest.approx(error, abs=1e-12)


def test_half_a_millimetre_of_girth_in_diameter() -> None:
    # Closed form: 0.5 / pi = 0.159 mm.
    assert tape_error_mm("class II", 1000) / math.pi == pytest.approx(0.159, abs=5e-4)


def test_the_worked_budget_to_its_digits() -> None:
    # JCGM 100:2008 combination in closed form: girth 235, divisions of 1/16 in, class II, lay 0.3, scale 0.5 %,
    # moisture 0.2 %; steel 17.3e-6 from 25 to 200 degC.
    budget = terms(235.0, Measuring(INCH_TAPE))
    assert [round(term.half_width_mm, 5) for term in budget] == [0.79375, 0.5, 0.3, 1.175, 0.47]
    assert combined_mm(budget) == pytest.approx(0.92584, abs=5e-6)
    assert 3.09 * combined_mm(budget) == pytest.approx(2.8609, abs=5e-5)
    need = overlap_need(235.0, budget, heat=STEEL, short_mm=0.0)
    assert need.growth_mm == pytest.approx(0.7115, abs=5e-5)
    assert need.sum_mm == pytest.approx(5.572, abs=5e-4)
    assert need.rounded_mm == 6.0


def test_each_standard_uncertainty_is_that_of_a_rectangle() -> None:
    for term in terms(300.0, Measuring(Tape())):
        assert term.standard_mm == pytest.approx(term.half_width_mm / 3**0.5, rel=1e-12)
        assert term.source


def test_the_doubt_is_never_more_than_all_half_widths_together() -> None:
    one = (Term("only", 1.0, 1.0 / math.sqrt(3.0), "estimate"),)
    assert expanded_mm(one) == 1.0  # 3.09 u would say 1.78


def test_a_named_temperature_replaces_the_steel_figure_and_never_shrinks() -> None:
    budget = terms(235.0, Measuring(INCH_TAPE))
    assert overlap_need(235.0, budget, heat=None, short_mm=0.0).growth_mm == 0.7
    assert overlap_need(235.0, budget, heat=Heat(17.3e-6, 10.0), short_mm=0.0).growth_mm == 0.0


def test_the_overlap_is_rounded_up_to_half_a_millimetre_and_at_least_three() -> None:
    gauge = terms(80.0, Measuring(Tape(kind="gauge"), "flat", grain="along"))
    least = overlap_need(80.0, gauge, heat=Heat(0.0, 25.0), short_mm=0.0)
    assert least.sum_mm < 2.5
    assert least.rounded_mm == 3.0
    more = overlap_need(80.0, gauge, heat=Heat(0.0, 25.0), short_mm=3.0)
    assert more.rounded_mm >= more.sum_mm > more.rounded_mm - 0.5


def whats(measuring: Measuring) -> dict[str, float]:
    return {term.what: term.half_width_mm for term in terms(200.0, measuring)}


def test_a_tape_of_unknown_thickness_is_a_term_of_its_own() -> None:
    assert whats(Measuring(Tape()))["tape thickness"] == 0.8
    assert "tape thickness" not in whats(Measuring(Tape(thickness_mm=0.1)))
    assert "tape thickness" not in whats(Measuring(Tape(), "flat"))
    assert "tape thickness" not in whats(Measuring(Tape(kind="paper strip")))


def test_a_gauge_leaves_out_tape_and_scale() -> None:
    found = whats(Measuring(Tape(kind="Gauge"), "flat"))
    assert found == pytest.approx({"reading": 0.05, "lay of the strip": 0.1, "paper moisture": 0.4})
    assert whats(Measuring(Tape(kind="gauge"), "girth"))["printer scale"] == pytest.approx(1.0)


def test_each_tool_has_its_error() -> None:
    assert whats(Measuring(Tape(kind="sewing tape", thickness_mm=0.3)))["sewing tape"] == pytest.approx(1.0)
    assert whats(Measuring(Tape(kind="calliper", division_mm=0.1), "diameter")) == pytest.approx(
        {
            "reading": math.pi * 0.05,
            "calliper": math.pi * 0.05,
            "lay of the tape": 0.3,
            "printer scale": 1.0,
            "paper moisture": 0.4,
        }
    )
    assert whats(Measuring(Tape(kind="steel rule"), "flat"))["steel rule"] == 0.5
    assert whats(Measuring(Tape(kind="class III"), "flat"))["tape class III"] == 1.0


def test_a_calibrated_printer_and_known_grain_count_for_less() -> None:
    plain, known = whats(Measuring(Tape())), whats(Measuring(Tape(), calibrated=True, grain="along"))
    assert known["printer scale"] == pytest.approx(plain["printer scale"] / 2)
    assert known["paper moisture"] == pytest.approx(plain["paper moisture"] / 2)
    assert whats(Measuring(Tape(), grain="across"))["paper moisture"] == plain["paper moisture"]


def test_an_unknown_tool_is_refused_with_the_known_ones() -> None:
    with pytest.raises(WrapwrightError, match="sewing tape, paper strip, gauge, calliper"):
        terms(235.0, Measuring(Tape(kind="string")))
