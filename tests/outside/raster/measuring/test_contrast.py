"""Contrast against WCAG 2.2's formula of relative luminance and contrast ratio, worked out here by hand."""

from __future__ import annotations

import pytest
from tests.outside.raster.measuring.wraps import BLACK, GREY, WHITE, box, eye, ground, measured


def luminance(grey: float) -> float:
    """WCAG 2.2, "relative luminance", of a grey 0..1 (its constant 0.04045 in the 2021 text)."""
    return grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4


def ratio(one: float, other: float) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def letters(colour, element=1, **more):
    """Strokes of 1 mm like those of capitals 12 mm high."""
    return [box(x, 20, x + 1, 32, colour, element, **more) for x in (-6, -2, 2, 6)]


def contrast(*items, **more):
    return measured(items, {1: "text"}, **more)[0][1].contrast


def test_white_letters_on_a_mid_grey():
    assert ratio(1.0, GREY[0]) == pytest.approx(4.48, abs=0.005)  # the figure commonly quoted for #777777 on white
    assert contrast(ground(GREY), *letters(WHITE)) == pytest.approx(ratio(1.0, GREY[0]), rel=1e-6)


def test_the_coating_counts():
    found = contrast(*letters(BLACK), look=eye(coating=(0.5, 0.5, 0.5)))
    assert found == pytest.approx(ratio(0.5, 0.0), rel=1e-6)


@pytest.mark.parametrize(("wide", "counts"), [(1.0, False), (6.0, True)])
def test_a_background_counts_from_a_twentieth_of_the_border(wide, counts):
    # A bar of 40 x 4 mm has 88 mm of border; a white stripe crosses 2 x its width of it.
    stripe = box(-wide / 2, 0, wide / 2, 50, WHITE)
    found = contrast(ground(BLACK), stripe, box(-20, 23, 20, 27, WHITE, 1))
    assert found == pytest.approx(1.0 if counts else 21.0)


def test_a_line_round_the_glyphs_helps():
    black = letters(BLACK)
    line = [box(x, 20, x + 1, 32, WHITE, 1, stroke_mm=1.0) for x in (-6, -2, 2, 6)]
    assert contrast(ground(BLACK), *black) == pytest.approx(1.0)
    assert contrast(ground(BLACK), *line, *black) == pytest.approx(21.0)


def test_translucent_letters_are_mixed_with_the_ground_in_linear_light():
    found = contrast(*letters(BLACK, opacity=0.5))
    assert found == pytest.approx((1.0 + 0.05) / (0.5 + 0.05), abs=0.01)  # half of white's light; 8-bit codes


def test_what_lies_above_does_not_count():
    below, above = ground(GREY), box(-20, 10, 20, 40, WHITE, 2)
    assert contrast(below, *letters(WHITE), above) == pytest.approx(ratio(1.0, GREY[0]), rel=1e-6)


def test_text_beside_the_wrap_has_no_contrast():
    rows, _ = measured([ground(GREY), box(200, 10, 210, 20, WHITE, 1)], {0: "fill", 1: "text"})
    assert list(rows) == [0]
