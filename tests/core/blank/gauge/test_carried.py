"""A gauge's reading with its own set-up and with another: what it comes to, and which doubts come back."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.blank.gauge.carried import Printer, carried, printed_with
from wrapwright.core.blank.measuring.budget import Term
from wrapwright.core.blank.readings import Blank, Reading, Tape, WrapRequest
from wrapwright.core.blank.wrapped import Setup, Wrapped, wrap_blank

FLAT = 235.7


def gauged(**tape: object) -> Blank:
    own: dict[str, object] = {"thickness_mm": 0.12, "kind": "gauge", "setup": "Desk", "scale": 1.002, "lies": "along"}
    return Blank("straight", (Reading(None, FLAT, "flat"),), wall_mm=100.0, tape=Tape(0.1, **(own | tape)))  # type: ignore[arg-type]


def wrapped(blank: Blank, printer: Printer | None, thickness: float = 0.12) -> Wrapped:
    setup = Setup(thickness, calibrated=True, scale_error=0.002, printer=printer)
    return wrap_blank(blank, WrapRequest(overlap_mm=0.0), setup)


def whats(budget: tuple[Term, ...]) -> list[str]:
    return [one.what for one in budget]


def test_its_own_set_up_takes_it_as_it_stands() -> None:
    made = wrapped(gauged(), Printer(" desk ", 0.12, (0.99, 1.002), "along"))
    assert made.wrap.lower_mm == pytest.approx(FLAT)
    assert whats(made.overlap_budget) == ["reading", "lay of the strip", "paper moisture"]


def test_no_set_up_named_or_chosen_takes_it_as_it_stands() -> None:
    for blank, printer in ((gauged(setup=""), Printer("Other", 0.2)), (gauged(), None)):
        assert carried(blank, printer) is blank
        assert whats(wrapped(blank, printer).overlap_budget) == ["reading", "lay of the strip", "paper moisture"]


def test_a_scale_measured_since_is_followed() -> None:
    """The same file millimetres are wanted: F / s then = N / s now."""
    made = wrapped(gauged(), Printer("Desk", 0.12, (0.99, 1.008), "along"))
    assert made.wrap.lower_mm / 1.008 == pytest.approx(FLAT / 1.002)
    assert len(made.overlap_budget) == 3
    never = carried(gauged(scale=None), Printer("Desk", 0.12, (1.0, 1.004)))
    assert never.readings[0].length_mm == pytest.approx(FLAT * 1.004)
    across = carried(gauged(lies="across", scale=1.0), Printer("Desk", 0.12, (1.01, 1.0)))
    assert across.readings[0].length_mm == pytest.approx(FLAT * 1.01)


def test_another_set_up_converts_it_and_the_doubts_come_back() -> None:
    made = wrapped(gauged(), Printer("Studio", 0.16, (1.001, 1.001), "along"), thickness=0.16)
    # girth = flat - pi t of the gauge's paper; one whole turn of the other paper is girth + pi t of its own.
    assert made.girth_top_mm == pytest.approx(FLAT - math.pi * 0.12)
    assert made.wrap.lower_mm == pytest.approx(FLAT + math.pi * (0.16 - 0.12))
    named = whats(made.overlap_budget)
    assert named[2:5] == ["scale of the gauge's printer", "printer scale", "thickness of the two papers"]
    terms = {one.what: one.half_width_mm for one in made.overlap_budget}
    assert terms["printer scale"] == pytest.approx(0.002 * made.girth_top_mm)
    assert terms["scale of the gauge's printer"] == pytest.approx(0.5 / 200.0 * made.girth_top_mm)
    never = wrapped(gauged(scale=None), Printer("Studio", 0.12))
    worse = {one.what: one.half_width_mm for one in never.overlap_budget}
    assert worse["scale of the gauge's printer"] == pytest.approx(0.005 * never.girth_top_mm)


def test_the_other_way_round_only_the_scale_comes_back() -> None:
    printer = Printer("Desk", 0.12, (1.002, 1.002), "across")
    assert printed_with(gauged().tape, printer) == "turned"
    made = wrapped(gauged(), printer)
    assert made.wrap.lower_mm == pytest.approx(FLAT)
    assert whats(made.overlap_budget) == ["reading", "lay of the strip", "printer scale", "paper moisture"]


def test_a_strip_of_two_pieces_is_a_little_less_sure() -> None:
    one, two = (wrapped(gauged(pieces=count), None) for count in (1, 2))
    more = set(whats(two.overlap_budget)) - set(whats(one.overlap_budget))
    assert more == {"join of the strip's pieces"}
    assert two.u_c_mm > one.u_c_mm
