"""The contrast ratio against published figures."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.colour.contrast import luminance, ratio

# On white. 0000FF, 777777 and 767676 are widely printed (8.59, 4.48, 4.54: a11y.jenn.dev); the others were computed
# from the formula of WCAG 2 (w3c.github.io/wcag/guidelines/relative-luminance.html) apart from this code.
ON_WHITE = {
    "777777": 4.4781, "767676": 4.5422, "757575": 4.6075, "595959": 7.0047, "949494": 3.0335, "959595": 2.9953,
    "0000FF": 8.5925, "FF0000": 3.9985, "00FF00": 1.3722, "008000": 5.1374, "FFFF00": 1.0738,
}  # fmt: skip


@pytest.mark.parametrize(("code", "expected"), ON_WHITE.items())
def test_on_white(code: str, expected: float) -> None:
    assert ratio(np.array(rgb_of("#" + code)), np.ones(3)) == pytest.approx(expected, abs=1e-4)


def test_ends_are_exact() -> None:
    assert ratio(np.zeros(3), np.ones(3)) == pytest.approx(21.0, abs=1e-12)
    assert ratio(np.full(3, 0.3), np.full(3, 0.3)) == 1.0


def test_nothing_is_rounded_up() -> None:
    # w3c/wcag: 4.4999 fails 4.5.
    assert ratio(np.array(rgb_of("#777777")), np.ones(3)) < 4.5


def test_both_published_thresholds_give_the_same_for_every_8_bit_code() -> None:
    # 0.03928 stood in the formula until May 2021, 0.04045 since; no 8-bit code lies between.
    codes = np.arange(256) / 255
    assert not np.any((codes > 0.03928) & (codes <= 0.04045))
    grey = luminance(np.repeat(codes[:, None], 3, axis=1))
    older = np.where(codes <= 0.03928, codes / 12.92, ((codes + 0.055) / 1.055) ** 2.4)
    assert np.abs(grey - older).max() < 1e-12
