"""The measuring form: understood, judged field by field, and drawn as far as it goes."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.live.measuring import DrawBlank, MeasuredLive, MeasureLive, draw_blank, measure_live


def measured(blank: dict[str, Any], wrap: dict[str, Any] | None = None, unit: str = "mm") -> MeasuredLive:
    return measure_live(MeasureLive(blank, wrap or {}, unit), None, Watch())  # type: ignore[arg-type]


def told(found: MeasuredLive) -> list[str]:
    return [one.field for one in found.problems]


def test_a_form_in_inches_as_it_stands_on_the_tape() -> None:
    found = measured({"kind": "straight", "girth": "9 1/4", "wall": "6 1/2"}, unit="in")
    # An inch is 25.4 mm exactly (16 CFR 500.19): 234.95 and 165.1.
    assert [(one.field, one.mm) for one in found.reads] == [("blank.girth", 234.95), ("blank.wall", 165.1)]
    assert found.ready
    assert found.table == {"kind": "straight", "girth": "9 1/4 in", "wall": "6 1/2 in"}
    assert found.blank_svg.startswith("<svg")
    assert "9.25 in" in found.blank_svg
    assert found.problems == ()
    assert found.needed == ""


def test_the_same_figures_in_the_wrong_unit_are_asked_about() -> None:
    found = measured({"kind": "straight", "girth": "9 1/4", "wall": "165"})
    (problem,) = found.problems
    assert problem.field == "blank.girth"
    assert "9.25 mm" in problem.message
    assert "9.25 in (234.95 mm)" in problem.remedy
    assert not found.ready
    assert found.blank_svg == ""


def test_the_budget_is_the_published_one() -> None:
    # Girth 235, read to 1/16 in, class II, lay 0.3, scale 0.5 %, moisture 0.2 %: u_c 0.92584, 3.09 u_c 2.8609 (JCGM 100
    # combination), overlap 6 mm.
    tape = {"division": "1/16 in", "thickness": "0", "kind": "class II"}
    found = measured({"kind": "straight", "girth": "235", "wall": "165", "tape": tape})
    assert ("Girth is known to", "± 2.9 mm") in found.figures
    assert found.overlap_words.startswith("6 mm of overlap: ")
    half = [one.half_width for one in found.doubts]
    assert half == ["± 0.79 mm", "± 0.5 mm", "± 0.3 mm", "± 1.18 mm", "± 0.47 mm"]
    shares = [0.79375**2, 0.5**2, 0.3**2, 1.175**2, 0.47**2]
    assert [one.share for one in found.doubts] == pytest.approx([one / sum(shares) for one in shares])


def test_empty_fields_are_no_errors() -> None:
    for blank, field in (({}, "blank.kind"), ({"kind": "straight", "girth": "", "wall": ""}, "blank.girth")):
        found = measured(blank)
        assert found.problems == ()
        assert found.needed.startswith("Begin with: ")
        assert found.needed_fields[0] == field
    found = measured({"kind": "straight", "girth": "235", "wall": ""})
    assert found.problems == ()
    assert found.needed == "Still needed: the height of the wall."


def test_every_problem_is_told_at_its_field_and_all_at_once() -> None:
    blank = {
        "kind": "tapered",
        "girth_top": "3",
        "girth_bottom": "9,125",
        "wall": "tall",
        "coating": "bluish",
        "tape": {"division": "0", "kind": "string"},
        "handle": {"at": "inside", "gap": "24"},
        "keepout": [{"at": "front", "up": "x", "width": "10", "height": "10"}],
    }
    wrap = {"bleed": "-2", "overlap": "some", "edge": {"rim": "torn"}}
    found = measured(blank, wrap)
    assert sorted(told(found)) == [
        "blank.coating",
        "blank.girth_bottom",
        "blank.girth_top",
        "blank.handle.at",
        "blank.keepout.0.up",
        "blank.tape.division",
        "blank.tape.kind",
        "blank.wall",
        "wrap.bleed",
        "wrap.edge.rim",
        "wrap.overlap",
    ]
    assert all(one.message.endswith(".") for one in found.problems)


@pytest.mark.parametrize(
    ("blank", "wrap", "field"),
    [
        ({"handle": {"gap": "200"}}, {}, "blank.handle.gap"),
        ({"coated": {"from": "10", "to": "500"}}, {}, "blank.coated"),
        ({"keepout": [{"up": "900", "width": "10", "height": "8"}]}, {}, "blank.keepout.0"),
        ({}, {"band": {"from": "100", "height": "100"}}, "wrap.band"),
        ({}, {"overlap": "200"}, "wrap.overlap"),
        ({"tape": {"thickness": "9"}}, {}, "blank.tape.thickness"),
        ({"handle": {"gap": "24"}}, {"overlap": "5"}, "wrap.overlap"),
        ({"handle": {"gap": "24"}}, {"seam": "front"}, "wrap.seam"),
        ({"colour": "red"}, {}, "blank.colour"),
    ],
)
def test_what_is_wrong_in_a_part_hides_nothing_of_the_blank(
    blank: dict[str, Any], wrap: dict[str, Any], field: str
) -> None:
    found = measured({"kind": "straight", "girth": "235", "wall": "165"} | blank, wrap)
    assert told(found) == [field]
    assert not found.ready
    assert "235 mm" in found.blank_svg


def test_a_reading_out_of_order_is_told_in_its_row_and_the_others_are_drawn() -> None:
    rows = [["0", "226"], ["", ""], ["40", "231"], ["90", "229"], ["80", "228"]]
    found = measured({"kind": "profile", "readings": rows})
    assert told(found) == ["blank.readings.4"]
    assert "comes after the one at 90 mm" in found.problems[0].message
    assert "229 mm" in found.blank_svg
    assert found.misfit_svg.startswith("<svg")


def test_the_rules_of_the_readings_speak() -> None:
    cup = measured({"kind": "tapered", "girth_top": "281", "girth_bottom": "225", "wall": "158"}, {"overlap": "3"})
    assert {one.rule for one in cup.remarks} == {"too-few-readings", "overlap-short"}
    assert cup.questions  # the tape's thickness is not known
    bulge = measured({"kind": "profile", "readings": [["0", "226"], ["50", "236"], ["100", "226"]]})
    (misfit,) = bulge.remarks
    assert (misfit.rule, misfit.severity) == ("profile-misfit", "error")
    assert bulge.ready  # it may be kept all the same: a narrower band mends it


def test_a_tapered_blank_agrees_with_the_closed_form() -> None:
    # Diameters 72 and 90, axial height 160: radii 641.01170 and 801.26463, 20.21800 degrees, box 281.2787 x 170.2043
    # (development of a frustum, drmath 55270). Paper of 0.12 mm adds pi t to both girths: radii grow by the same share.
    found = measured(
        {"kind": "tapered", "diameter_top": "90", "diameter_bottom": "72", "height": "160"}, {"overlap": "0"}
    )
    figures = dict(found.figures)
    grown = 641.0117 + 0.12 * math.pi / math.radians(20.218)
    assert figures["Sector"] == f"radii {grown:.1f} mm and {grown + 160.25293:.1f} mm, 20.22°"
    assert figures["Flat height"] == "160.3 mm (6.309 in)"


def test_what_is_kept_draws_again_as_it_was() -> None:
    found = measured(
        {"kind": "straight", "girth": "9 1/4", "wall": "6 1/2"}, {"band": {"from": "1/2", "height": "5"}}, "in"
    )
    again = draw_blank(DrawBlank(found.table, found.wrap, unit="in", form="large", width_px=360), None, Watch())  # type: ignore[arg-type]
    assert again == found.blank_svg
    small = draw_blank(DrawBlank(found.table, found.wrap, name="Bottle"), None, Watch())  # type: ignore[arg-type]
    assert 'aria-label="Bottle: ' in small


def test_a_kept_blank_that_cannot_be_is_refused_in_words() -> None:
    with pytest.raises(WrapwrightError, match="wall is missing"):
        draw_blank(DrawBlank({"kind": "straight", "girth": "235 mm"}), None, Watch())  # type: ignore[arg-type]


JUNK = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=12)
    | st.sampled_from(["9 1/4", "235", "auto"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["at", "gap", "up", "from", "to", "width", "height"]), inner, max_size=4)
    ),
    max_leaves=8,
)
KEYS = st.sampled_from(
    [
        "girth",
        "girth_top",
        "girth_bottom",
        "wall",
        "height",
        "readings",
        "handle",
        "keepout",
        "coated",
        "tape",
        "coating",
        "use",
    ]
)


@given(
    kind=st.sampled_from(["straight", "tapered", "profile", "", "cube"]),
    blank=st.dictionaries(KEYS, JUNK, max_size=6),
    wrap=st.dictionaries(st.sampled_from(["band", "seam", "overlap", "bleed", "safe", "edge"]), JUNK, max_size=4),
    unit=st.sampled_from(["mm", "in"]),
)
def test_nothing_that_can_be_typed_is_raised(kind: str, blank: dict[str, Any], wrap: dict[str, Any], unit: str) -> None:
    found = measured({"kind": kind} | blank, wrap, unit)
    assert found.ready is (not found.problems and not found.needed and found.blank_svg != "")
    assert found.ready or found.problems or found.needed


def test_a_flat_blank_is_measured_by_its_sides_or_its_circle() -> None:
    found = measured({"kind": "flat", "width": "95", "height": "3 3/4 in", "corner": ""})
    assert found.ready
    assert found.table == {"kind": "flat", "width": "95 mm", "height": "3 3/4 in"}
    assert dict(found.figures)["Height"] == "95.2 mm (3.75 in)"
    assert found.spoken == "Transfer: a rectangle, 95 mm wide and 95.2 mm high."
    assert found.overlap_words == "The transfer is cut to the blank's edge, all round."
    for drawing in (found.blank_svg, found.flat_svg):
        assert "95 mm" in drawing
        assert not any(word in drawing for word in ("Seam", "Back", "overlap", "girth"))
    disc = measured({"kind": "flat", "circle": "95"})
    assert disc.spoken == "Transfer: a circle, 95 mm wide and 95 mm high."


def test_what_a_flat_blank_still_needs_and_what_it_cannot_be() -> None:
    assert measured({"kind": "flat", "width": "95", "height": ""}).needed == "Still needed: the height."
    assert measured({"kind": "flat", "circle": ""}).needed == "Begin with: the diameter."
    drawn = measured({"kind": "flat", "outline": "", "width": "60", "height": ""})
    assert drawn.needed == "Still needed: a drawing of the outline."
    small = measured({"kind": "flat", "width": "95", "height": "4"})
    assert [(one.field, "5 to 5000 mm" in one.message) for one in small.problems] == [("blank.height", True)]
    crossed = measured({"kind": "flat", "outline": [[0, 0], [60, 90], [60, 0], [0, 90]], "width": "60", "height": ""})
    assert [one.field for one in crossed.problems] == ["blank.outline"]
    assert "crosses or touches itself" in crossed.problems[0].message
    keepout = [{"across": "45", "up": "50", "width": "10", "height": "10"}]
    beside = measured({"kind": "flat", "circle": "95", "keepout": keepout})
    assert [one.field for one in beside.problems] == ["blank.keepout.0"]
    assert beside.blank_svg != ""


def test_a_flat_blank_is_drawn_small_for_the_shelf() -> None:
    table = {"kind": "flat", "outline": [[0, 0], [60, 0], [60, 90], [30, 60], [0, 90]], "width": "60 mm"}
    small = draw_blank(DrawBlank(table, {}, "Flag"), None, Watch())  # type: ignore[arg-type]
    assert 'aria-label="Flag: an outline, 60 mm wide, 90 mm high."' in small
