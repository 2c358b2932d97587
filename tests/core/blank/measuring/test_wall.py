"""What is taken off the readings before anything is worked out from them."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.blank.measuring.wall import bare_girth, tape_taken_off
from wrapwright.core.blank.readings import Blank, How, Reading, Tape

PAPER_MM = 0.12


@pytest.mark.parametrize(
    ("how", "tape", "off_mm"),
    [
        # The middle of a tape of thickness b runs round on a circle of radius r + b/2: 2 pi r + pi b (geometry).
        ("girth", Tape(thickness_mm=0.4), math.pi * 0.4),
        ("girth", Tape(thickness_mm=0.0), 0.0),
        ("girth", Tape(), 0.0),  # not known: nothing is taken off
        ("girth", Tape(kind="paper strip"), math.pi * PAPER_MM),
    ],
)
def test_a_tape_is_taken_off_a_girth_and_that_is_told(how: How, tape: Tape, off_mm: float) -> None:
    reading = Reading(None, 235.0, how)
    assert reading.length_mm - bare_girth(reading, tape, thickness_mm=PAPER_MM) == pytest.approx(off_mm)
    blank = Blank("straight", (reading,), wall_mm=100.0, tape=tape)
    assert tape_taken_off(blank, thickness_mm=PAPER_MM) is (off_mm > 0.0)


def test_what_was_no_girth_had_no_tape_round_it() -> None:
    readings = (Reading(None, 74.8, "diameter"), Reading(None, 235.0, "flat"))
    blank = Blank("tapered", readings, wall_mm=100.0, tape=Tape(thickness_mm=0.4))
    assert not tape_taken_off(blank, thickness_mm=PAPER_MM)
