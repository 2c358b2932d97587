"""Readings and wishes that cannot be: each gets a sentence that names it, its figure, the limit and what to do."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.core.blank.readings import Blank, Handle, How, Keepout, Reading, Tape, WrapRequest
from wrapwright.core.blank.statement import cutting_statement, wrap_statement
from wrapwright.core.blank.wrapped import Setup, wrap_blank

BLANK = Blank("straight", (Reading(None, 235.0, where="blank: girth"),), wall_mm=165.0)


def refusal(blank: Blank, request: WrapRequest | None = None, setup: Setup | None = None) -> WrapwrightError:
    with pytest.raises(WrapwrightError) as problem:
        wrap_blank(blank, request or WrapRequest(), setup or Setup())
    assert problem.value.kind is Kind.UNUSABLE
    return problem.value


def tapered(bottom: float, top: float, wall: float) -> Blank:
    return Blank(
        "tapered",
        (Reading(None, bottom, where="blank: girth_bottom"), Reading(None, top, where="blank: girth_top")),
        wall,
    )


def profile(*readings: tuple[float | None, float]) -> Blank:
    return Blank(
        "profile", tuple(Reading(at, girth, where=f"reading {n}") for n, (at, girth) in enumerate(readings, 1))
    )


@pytest.mark.parametrize(
    ("length", "how", "words"),
    [
        (-235.0, "girth", "the girth reads -235 mm; it must be more than 0 mm."),
        (0.0, "girth", "the girth reads 0 mm; it must be more than 0 mm."),
        (2350.0, "girth", "the girth reads 2350 mm, over the limit of 2000 mm."),
        (
            9.25,
            "girth",
            "the girth reads 9.25 mm, less than the 30 mm that a blank can have. Was it 9.25 in (234.95 mm)",
        ),
        (9.25, "girth", "or 9.25 cm (92.5 mm)? Write it with its unit."),
        (
            2.9,
            "diameter",
            "the diameter reads 2.9 mm, less than the 9.5 mm that a blank can have. Was it 2.9 in (73.66 mm)",
        ),
        (700.0, "diameter", "the diameter reads 700 mm, over the limit of 636.6 mm."),
        (0.02, "girth", "Measure again, and write the reading with its unit."),
        (9.25, "flat", "the flat length reads 9.25 mm"),
        (math.nan, "girth", "the girth is not a number."),
    ],
)
def test_a_reading_that_cannot_be_is_named(length: float, how: How, words: str) -> None:
    problem = refusal(replace(BLANK, readings=(Reading(None, length, how, where="blank: girth"),)))
    assert problem.where == "blank: girth"
    assert words in str(problem)


def test_the_largest_and_smallest_girths_are_taken() -> None:
    for girth in (30.0, 2000.0):
        wrapped = wrap_blank(replace(BLANK, readings=(Reading(None, girth),)), WrapRequest(overlap_mm=3.0), Setup())
        assert wrapped.girth_top_mm == girth


def test_a_wall_in_inches_is_asked_about() -> None:
    assert "the wall reads 6.5 mm" in str(refusal(replace(BLANK, wall_mm=6.5)))
    assert "Was it 6.5 in (165.1 mm)" in str(refusal(replace(BLANK, wall_mm=6.5)))
    missing = refusal(replace(BLANK, wall_mm=None))
    assert (missing.where, missing.remedy) == ("blank: wall", "Measure it along the wall.")
    assert refusal(replace(BLANK, wall_mm=None, axial_mm=-3.0)).where == "blank: height"


def test_girths_past_the_geometric_limit() -> None:
    problem = refusal(tapered(100.0, 500.0, 63.0))
    assert problem.where == "blank: girth_top"
    assert "differ by 400 mm; on 63 mm of wall they can differ by less than 395.8 mm (2 pi times it)" in str(problem)
    assert wrap_blank(tapered(100.0, 480.0, 63.0), WrapRequest(overlap_mm=0.0), Setup()).wrap.theta < 2 * math.pi
    steep = refusal(profile((0, 226), (5, 260), (90, 229)))
    assert steep.where == "reading 2"


def test_readings_in_the_wrong_order_or_without_a_place() -> None:
    problem = refusal(profile((0, 226), (90, 231), (40, 229)))
    assert problem.where == "reading 3"
    assert "the reading at 40 mm comes after the one at 90 mm. List the readings from the base up" in str(problem)
    assert "comes after" in str(refusal(profile((0, 226), (40, 231), (40, 229))))
    assert "has no position" in str(refusal(profile((None, 226), (40, 231), (90, 229))))
    assert "the position -5 mm" in str(refusal(profile((-5, 226), (40, 231), (90, 229))))


def test_the_number_of_readings() -> None:
    assert "takes 1 reading, but 2 came" in str(refusal(replace(tapered(226, 280, 160), kind="straight")))
    assert "takes 2 readings, but 1 came" in str(refusal(replace(BLANK, kind="tapered")))
    assert "takes 2 to 60 readings, but 1 came" in str(refusal(profile((0, 226))))


def test_a_profile_that_does_not_span_a_wall() -> None:
    inches = refusal(profile((0, 226), (3, 227), (6.5, 226)))
    assert "Were the positions in inches (165.1 mm)?" in str(inches)
    short = refusal(replace(profile((0, 226), (90, 229)), wall_mm=80.0))
    assert "the highest reading lies at 90 mm, above the wall's 80 mm" in str(short)


@pytest.mark.parametrize(
    ("request_", "where", "words"),
    [
        (
            WrapRequest(band_from_mm=10.0, band_height_mm=160.0),
            "wrap: band",
            "from 10 mm to 170 mm does not lie on the wall",
        ),
        (WrapRequest(band_from_mm=-1.0), "wrap: band", "the wall goes from 0 mm to 165 mm"),
        (WrapRequest(band_from_mm=165.0), "wrap: band", "does not lie on the wall"),
        (WrapRequest(band_height_mm=0.0), "wrap: band", "height reads 0 mm; it must be more than 0"),
        (WrapRequest(overlap_mm=-1.0), "wrap: overlap", "the overlap reads -1 mm; it cannot be less than 0"),
        (WrapRequest(overlap_mm=120.0), "wrap: overlap", "half the girth (117.5 mm) or more"),
        (WrapRequest(bleed_mm=-2.0), "wrap: bleed", "the bleed reads -2 mm"),
        (WrapRequest(safe_mm=-2.0), "wrap: safe", "the safe margin reads -2 mm"),
    ],
)
def test_a_wish_that_this_wall_cannot_have(request_: WrapRequest, where: str, words: str) -> None:
    problem = refusal(BLANK, request_)
    assert problem.where == where
    assert words in str(problem)
    assert problem.remedy


def test_a_band_that_is_the_wall_but_for_rounding_is_taken() -> None:
    assert wrap_blank(BLANK, WrapRequest(band_height_mm=165.0 + 1e-9), Setup()).band_height_mm == 165.0


def test_the_handle_s_gap_seam_and_overlap() -> None:
    mug = replace(BLANK, handle=Handle(180.0, 24.0))
    assert "lie between 0 and half the girth (117.5 mm)" in str(refusal(replace(BLANK, handle=Handle(180.0, 130.0))))
    assert "gap reads 0 mm" in str(refusal(replace(BLANK, handle=Handle(180.0, 0.0))))
    assert "the handle at back is where the wrap ends. Leave the seam out." in str(
        refusal(mug, WrapRequest(seam_deg=270.0))
    )
    assert "a wrap that ends at a handle has none" in str(refusal(mug, WrapRequest(overlap_mm=5.0)))
    assert wrap_blank(mug, WrapRequest(seam_deg=180.0, overlap_mm=0.0), Setup()).overlap_mm == 0.0


@pytest.mark.parametrize(
    ("keepout", "words"),
    [
        (Keepout(0.0, 2.0, 20.0, 8.0), "from -2 mm to 6 mm does not lie on the wall"),
        (Keepout(0.0, 163.0, 20.0, 8.0), "from 159 mm to 167 mm does not lie on the wall"),
        (Keepout(0.0, 50.0, 0.0, 8.0), "0 mm wide and 8 mm high"),
        (Keepout(0.0, 50.0, 300.0, 8.0), "less than the girth (235 mm)"),
    ],
)
def test_a_keep_out_lies_on_the_wall(keepout: Keepout, words: str) -> None:
    good = Keepout(0.0, 50.0, 20.0, 8.0)
    problem = refusal(replace(BLANK, keepouts=(good, keepout)))
    assert problem.where == "blank: keepout 2"
    assert words in str(problem)


def test_the_coated_part_lies_on_the_wall() -> None:
    assert "from 4 mm to 170 mm does not lie on the wall" in str(refusal(replace(BLANK, coated=(4.0, 170.0))))
    assert refusal(replace(BLANK, coated=(50.0, 40.0))).where == "blank: coated"
    wrapped = wrap_blank(replace(BLANK, coated=(4.0, 160.0)), WrapRequest(), Setup())
    assert (wrapped.coated_from_mm, wrapped.coated_to_mm) == (4.0, 160.0)


def test_tape_and_paper_figures() -> None:
    assert refusal(replace(BLANK, tape=Tape(division_mm=0.0))).where == "blank: tape division"
    assert "between 0 and 3 mm" in str(refusal(replace(BLANK, tape=Tape(thickness_mm=5.0))))
    assert refusal(replace(BLANK, tape=Tape(kind="string"))).where == "blank: tape kind"
    assert "between 0 and 1 mm" in str(refusal(BLANK, setup=Setup(thickness_mm=12.0)))
    thin = Blank("straight", (Reading(None, 30.5, "flat", where="blank: flat"),), wall_mm=100.0)
    assert wrap_blank(thin, WrapRequest(overlap_mm=3.0), Setup(thickness_mm=0.1)).girth_top_mm < 30.5


def test_a_pattern_that_would_run_into_itself() -> None:
    nearly_a_disc = tapered(60.0, 560.0, 80.0)
    problem = refusal(nearly_a_disc, WrapRequest(overlap_mm=9.0))
    assert "the flat pattern runs into itself: its inner radius is 9.7 mm" in str(problem)
    assert wrap_blank(nearly_a_disc, WrapRequest(overlap_mm=0.0), Setup()).wrap.is_sector


def test_several_problems_are_all_told() -> None:
    blank = tapered(9.25, -1.0, 6.5)
    with pytest.raises(SeveralProblemsError) as problems:
        wrap_blank(blank, WrapRequest(), Setup())
    assert [one.where for one in problems.value.problems] == ["blank: girth_bottom", "blank: girth_top", "blank: wall"]
    assert str(problems.value).count("\n") == 2


# Whatever is typed: either a sentence, or a flat wrap whose figures are all finite and hang together.

any_length = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True), st.floats(-10, 400), st.sampled_from([0.0, 1e-9, 30.0, 235.0, 2e3])
)
some_length = st.one_of(st.none(), any_length)
ways = st.sampled_from(["girth", "diameter", "flat"])


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    readings = draw(st.lists(st.tuples(some_length, any_length, ways), min_size=1, max_size=5))
    return Blank(
        draw(st.sampled_from(["straight", "tapered", "profile"])),
        tuple(Reading(at, length, how, where=str(n)) for n, (at, length, how) in enumerate(readings)),
        wall_mm=draw(some_length),
        axial_mm=draw(some_length),
        tape=Tape(draw(any_length), draw(some_length), draw(st.sampled_from(["class II", "gauge", "calliper"]))),
        handle=draw(st.one_of(st.none(), st.builds(Handle, st.floats(0, 359), any_length))),
        coated=draw(st.one_of(st.none(), st.tuples(any_length, any_length))),
    )


wishes = st.builds(WrapRequest, some_length, some_length, st.none(), some_length)


def finite(stated: object) -> bool:
    if isinstance(stated, dict):
        return all(finite(one) for one in stated.values())
    if isinstance(stated, list):
        return all(finite(one) for one in stated)
    return not isinstance(stated, float) or math.isfinite(stated)


@given(blanks(), wishes, any_length)
@settings(max_examples=250, derandomize=True, deadline=None)
def test_any_blank_is_wrapped_or_refused(blank: Blank, request: WrapRequest, thickness: float) -> None:
    try:
        wrapped = wrap_blank(blank, request, Setup(thickness_mm=thickness))
    except WrapwrightError as problem:
        told = str(problem)
    else:
        told = ""
    if told:
        assert all(line.endswith((".", "?")) for line in told.splitlines()), told
        return
    assert finite(wrap_statement(wrapped))
    assert finite(cutting_statement(wrapped.wrap))


@given(
    st.floats(31, 1900),
    st.floats(31, 1900),
    st.floats(11, 1900),
    st.floats(0, 30),
    st.one_of(st.none(), st.floats(0, 40)),
)
@settings(max_examples=150, derandomize=True, deadline=None)
def test_a_plausible_taper_hangs_together(
    bottom: float, top: float, wall: float, low: float, overlap: float | None
) -> None:
    blank = Blank("tapered", (Reading(None, bottom), Reading(None, top)), wall, tape=Tape(thickness_mm=0.0))
    try:
        wrapped = wrap_blank(blank, WrapRequest(band_from_mm=low, overlap_mm=overlap), Setup(thickness_mm=0.0))
    except WrapwrightError:
        assert abs(top - bottom) >= 2 * math.pi * wall or low >= wall or wrapped_into_itself(bottom, top, wall, overlap)
        return
    wrap = wrapped.wrap
    assert wrapped.inverted == (wrap.lower_mm > wrap.upper_mm)
    assert wrapped.inverted == (bottom > top) or abs(bottom - top) < 1e-8
    assert math.isclose(wrap.upper_mm, top, rel_tol=1e-9)
    assert math.isclose(wrap.lower_mm, bottom + (top - bottom) * low / wall, rel_tol=1e-9)
    assert wrapped.overlap_mm == overlap if overlap is not None else wrapped.overlap_mm >= 3.0
    width = cutting_statement(wrap)["bounding_box_mm"]
    assert isinstance(width, list)
    assert width[0] <= wrap.trim_width_mm + 1e-6 or wrapped.overlap_mm > 0


def wrapped_into_itself(bottom: float, top: float, wall: float, overlap: float | None) -> bool:
    theta = abs(top - bottom) / wall
    strip = 60.0 if overlap is None else overlap
    small = min(bottom, top)
    return strip >= small / 2 or strip * theta >= small or theta + math.asin(strip * theta / small) > 2 * math.pi
