"""A transfer as a part: clear room, true sides, and a label outside the trim."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.core.sheet.lay.printed.labels import Lettering, Need, needs
from wrapwright.core.sheet.lay.printed.parts import Asked, parts_of
from wrapwright.core.sheet.lay.printed.values import Slip
from wrapwright.core.sheet.lay.values import Part

STRAIGHT = FlatWrap(200.0, 200.0, 80.0, 5.0)
TAPER = FlatWrap(190.0, 230.0, 90.0, 5.0)
ROUND = FlatWrap(95.0, 95.0, 95.0, plate=Plate("circle"))
TINY = FlatWrap(9.0, 9.0, 9.0, plate=Plate("rectangle"))


def labels(words: tuple[str, ...] = ("Regatta mug", "lay on top"), side: int = 12) -> list[Need]:
    slips = tuple(Slip(number, 20, f"A1-{number}") for number in range(1, 21))
    codes = {slip.code: np.ones((side, side), dtype=np.bool_) for slip in slips}
    return needs(slips, codes, words, Lettering(set_label))


def first(wrap: FlatWrap, bleed: float = 2.0, **more: object) -> tuple[Part, str]:
    return next(parts_of(wrap, bleed, Asked(copies=20, **more), labels()))  # type: ignore[arg-type]


def test_a_straight_wrap_has_its_label_at_the_end_that_is_laid_first():
    """As seen the left end is laid first; mirrored it lies to the right."""
    part, level = first(STRAIGHT)
    assert level == "label"
    assert part.label_mm is not None
    assert part.label_mm[0] == pytest.approx(part.shape.width_mm + 3.0)
    assert part.clear_mm[2] == pytest.approx(part.label_mm[2] - part.shape.width_mm + 1.5)
    assert (part.clear_mm[0], part.clear_mm[1], part.clear_mm[3]) == (1.5, 2.0, 2.0)
    assert part.bleed_mm == (0.0, 2.0, 0.0, 2.0)
    assert part.true == {"left", "right", "bottom", "top"}


def test_folded_edges_need_no_true_cut():
    part, _ = first(STRAIGHT, folded=(True, False))
    assert part.true == {"left", "right", "bottom"}


@pytest.mark.parametrize("wrap", [TAPER, ROUND])
def test_a_curved_trim_has_its_label_in_a_corner_of_its_box_3_mm_away(wrap: FlatWrap):
    part, level = next(parts_of(wrap, 2.0, Asked(copies=20), labels(("Cup",))))
    assert level == "label"
    assert part.true == frozenset()
    left, bottom, right, top = part.label_mm or (0.0, 0.0, 0.0, 0.0)
    assert 0.0 <= left < right <= part.shape.width_mm
    assert 0.0 <= bottom < top <= part.shape.height_mm
    ring = np.array(part.shape.ring)
    for x, y in ((left, bottom), (right, bottom), (right, top), (left, top)):
        assert np.hypot(ring[:, 0] - x, ring[:, 1] - y).min() >= 3.0 - 0.01
    assert max(part.clear_mm) == pytest.approx(2.0, abs=0.6)  # no strip: the bleed, on a taper's ends a little more


def test_a_label_keeps_clear_of_a_wide_bleed():
    part, _ = first(STRAIGHT, bleed=6.0)
    assert part.label_mm is not None
    assert part.label_mm[0] == pytest.approx(part.shape.width_mm + 7.0)


def test_a_tiny_part_has_its_number_alone_and_then_nothing():
    found = [level for _, level in parts_of(TINY, 0.0, Asked(copies=20), labels())]
    assert found == ["piece number", "piece number", ""]
    assert math.isclose(TINY.lower_mm, 9.0)
