"""Flat blanks from their readings: what they come to, and a sentence for each that cannot be."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.blank.plated import flat_of, plate_questions, with_ring
from wrapwright.core.blank.readings import Blank, Handle, Keepout, PlateReadings, WrapRequest
from wrapwright.core.blank.wrapped import Setup, wrap_blank

TAG = ((10.0, 0.0), (50.0, 0.0), (60.0, 20.0), (60.0, 90.0), (0.0, 90.0), (0.0, 20.0))


def flat(**readings: Any) -> Blank:
    return Blank("flat", (), plate=PlateReadings(**readings))


def test_a_flat_blank_is_one_turn_wide_and_its_front_is_its_middle() -> None:
    wrap = flat_of(flat(width_mm=200.0, height_mm=150.0), WrapRequest())
    assert (wrap.lower_mm, wrap.upper_mm, wrap.height_mm) == (200.0, 200.0, 150.0)
    assert (wrap.overlap_mm, wrap.gap_mm, wrap.is_sector) == (0.0, 0.0, False)
    for across, x in ((0.0, 0.0), (30.0, 30.0), (-100.0, -100.0), (130.0, 130.0)):
        places = wrap.to_flat([wrap.turn_at(0.0, across)], [12.0])  # type: ignore[arg-type]
        assert (float(places[0][0]), float(places[1][0])) == pytest.approx((x, 12.0))


@pytest.mark.parametrize(
    ("sides", "size"),
    [
        ({"height_mm": 45.0}, (30.0, 45.0)),
        ({"width_mm": 30.0}, (30.0, 45.0)),
        ({"width_mm": 40.0, "height_mm": 45.0}, (40.0, 45.0)),
    ],
)
def test_an_outline_is_brought_to_its_sides(sides: dict[str, float], size: tuple[float, float]) -> None:
    wrap = flat_of(flat(ring=TAG, **sides), WrapRequest())
    assert (wrap.lower_mm, wrap.height_mm) == pytest.approx(size)
    assert wrap.plate is not None
    across, up = zip(*wrap.plate.ring, strict=True)
    assert (min(across), max(across)) == pytest.approx((-size[0] / 2, size[0] / 2))
    assert (min(up), max(up)) == pytest.approx((0.0, size[1]))


def test_what_is_known_of_a_flat_blank_has_nothing_of_a_wall() -> None:
    wrapped = wrap_blank(flat(circle_mm=95.0), WrapRequest(), Setup())
    assert (wrapped.kind, wrapped.wall_mm, wrapped.overlap_mm, wrapped.misfit_mm) == ("flat", 95.0, 0.0, 0.0)
    assert [term.what for term in wrapped.overlap_budget] == ["reading", "printer scale", "paper moisture"]
    # Half-widths 0.5, 0.5 % and 0.2 % of 95 mm: the root of the sum of squares over 3 (JCGM 100:2008).
    assert wrapped.u_c_mm == pytest.approx(((0.5**2 + 0.475**2 + 0.19**2) / 3) ** 0.5)
    assert (wrapped.findings, wrapped.questions) == ((), ())


@pytest.mark.parametrize(
    ("holes", "said"), [(1, "a hole: the transfer covers it; cut the hole by hand"), (2, "2 holes")]
)
def test_holes_are_left_to_the_hand(holes: int, said: str) -> None:
    (question,) = plate_questions(with_ring(flat(file="tag.svg", width_mm=60.0), TAG, holes=holes))
    assert said in question


BAD: list[tuple[dict[str, Any], str]] = [
    ({"width_mm": 4.0, "height_mm": 95.0}, "the width reads 4 mm; a flat blank measures 5 to 5000 mm"),
    ({"width_mm": 95.0, "height_mm": 6000.0}, "the height reads 6000 mm"),
    ({"circle_mm": 0.5}, "the circle reads 0.5 mm"),
    ({"width_mm": 95.0}, "needs width and height, or the diameter of a circle, or an outline"),
    ({"circle_mm": 95.0, "width_mm": 95.0}, "needs width and height, or the diameter"),
    ({}, "needs width and height"),
    ({"width_mm": 60.0, "height_mm": 40.0, "corner_mm": 21.0}, "the corner reads 21 mm; its radius lies between 0 and"),
    ({"circle_mm": 95.0, "corner_mm": 5.0}, "corner rounds a rectangle only"),
    ({"ring": TAG}, "an outline needs its width or its height"),
    (
        {"ring": ((0, 0), (60, 90), (60, 0), (0, 90)), "width_mm": 60.0},
        "the outline crosses or touches itself at 0.0, 45.0",
    ),
    ({"ring": ((0, 0), (60, 0), (60, 1), (0, 1)), "width_mm": 60.0}, "the outline is 60 x 1 mm and too small to cut"),
    ({"ring": ((0, 0), (60, 0), (30, 1e-9)), "width_mm": 60.0}, "too small to cut"),
    ({"ring": ((0, 0), (60, 90)), "width_mm": 60.0}, "2 different points and needs at least 3"),
]


@pytest.mark.parametrize(("readings", "said"), BAD, ids=[said[:40] for _, said in BAD])
def test_readings_that_cannot_be(readings: dict[str, Any], said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        wrap_blank(flat(**readings), WrapRequest(), Setup())
    assert said in str(caught.value)


WISHES: list[tuple[WrapRequest, str]] = [
    (WrapRequest(seam_deg=270.0), "a seam is given, but a flat blank has none: nothing goes round it."),
    (WrapRequest(overlap_mm=5.0), "an overlap is given, but a flat blank has no ends that meet."),
    (WrapRequest(band_from_mm=5.0), "a band is given, but a flat blank is covered whole."),
    (WrapRequest(rim="fold"), "a folded edge is given, but a flat blank is cut all round."),
    (WrapRequest(panels=True), "panels are asked for, but a flat blank is printed in one piece."),
    (WrapRequest(bleed_mm=-1.0), "the bleed reads -1 mm; it cannot be less than 0."),
]


@pytest.mark.parametrize(("wish", "said"), WISHES, ids=[said[:20] for _, said in WISHES])
def test_wishes_for_a_wall_are_refused(wish: WrapRequest, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        flat_of(flat(circle_mm=95.0), wish)
    assert said in str(caught.value)


def test_a_handle_a_coating_and_a_keepout_must_lie_on_it() -> None:
    blank = flat(width_mm=95.0, height_mm=95.0)
    for other, said in (
        (replace(blank, handle=Handle(180.0, 24.0)), "a handle is given, but a flat blank has none"),
        (replace(blank, coated=(0.0, 96.0)), "from 0 mm to 96 mm does not lie on the blank: it is 95 mm high"),
        (
            replace(blank, keepouts=(Keepout(0, 50, 10, 10, across_mm=45),)),
            "of 10 mm by 10 mm reaches out of the blank",
        ),
        (replace(blank, keepouts=(Keepout(0, 50, 0, 10),)), "is 0 mm wide and 10 mm high; both must be more than 0"),
    ):
        with pytest.raises(WrapwrightError) as caught:
            flat_of(other, WrapRequest())
        assert said in str(caught.value)


def test_all_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(SeveralProblemsError) as caught:
        flat_of(flat(circle_mm=2.0, corner_mm=1.0), WrapRequest(seam_deg=0.0))
    assert [one.where for one in caught.value.problems] == ["wrap: seam", "blank: circle", "blank: corner"]
