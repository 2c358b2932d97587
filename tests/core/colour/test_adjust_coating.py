"""Changes in CIELAB, and a print on a coating."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.colour import lab
from wrapwright.core.colour.adjust import adjusted
from wrapwright.core.colour.coating import on_coating
from wrapwright.core.design.elements import Adjust

MUTED = 0.35 + 0.3 * np.random.default_rng(5).random((200, 3))


def test_no_change_is_no_change() -> None:
    assert adjusted(MUTED, Adjust()) is MUTED


def test_chroma_scales_chroma_and_keeps_lightness_and_hue() -> None:
    before, after = lab.of_srgb(MUTED), lab.of_srgb(adjusted(MUTED, Adjust(chroma=10)))
    assert np.abs(after[:, 0] - before[:, 0]).max() < 1e-6
    assert np.abs(after[:, 1:] - 1.1 * before[:, 1:]).max() < 1e-6


def test_lightness_goes_a_share_of_the_way() -> None:
    before = lab.of_srgb(MUTED)[:, 0]
    up = lab.of_srgb(adjusted(MUTED, Adjust(lightness=20)))[:, 0]
    down = lab.of_srgb(adjusted(MUTED, Adjust(lightness=-20)))[:, 0]
    assert up == pytest.approx(before + 0.2 * (100 - before), abs=1e-6)
    assert down == pytest.approx(0.8 * before, abs=1e-6)


def test_contrast_turns_about_the_middle() -> None:
    before = lab.of_srgb(MUTED)[:, 0]
    after = lab.of_srgb(adjusted(MUTED, Adjust(contrast=30)))[:, 0]
    assert after - 50 == pytest.approx(1.3 * (before - 50), abs=1e-6)


def test_full_lightness_ends_at_white_and_black() -> None:
    assert adjusted(MUTED, Adjust(lightness=100, chroma=-100)) == pytest.approx(np.ones_like(MUTED), abs=1e-6)
    assert adjusted(MUTED, Adjust(lightness=-100, chroma=-100)) == pytest.approx(np.zeros_like(MUTED), abs=1e-6)


def test_a_print_on_a_coating_is_the_product_of_reflectances() -> None:
    coating = rgb_of("#c0d8e8")
    assert on_coating(np.ones(3), coating) == pytest.approx(coating, abs=1e-9)
    assert on_coating(MUTED, (1.0, 1.0, 1.0)) == pytest.approx(MUTED, abs=1e-9)
    # Worked by hand: sRGB 188 is linear 0.5029; half of a half is a quarter; linear 0.2529 is sRGB 137.6.
    half = np.full(3, 188 / 255)
    assert on_coating(half, (188 / 255, 188 / 255, 188 / 255)) * 255 == pytest.approx(np.full(3, 137.6), abs=0.2)
