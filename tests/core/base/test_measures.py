"""Quantities of makers' sheets against published conversions."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.measures import convert


@pytest.mark.parametrize(
    ("value", "given_in", "wanted", "expected", "tolerance"),
    [
        # 16 CFR 500.19 (law.cornell.edu): 1 fluid ounce = 29.5735 mL, 1 oz = 28.3495 g, 1 lb = 453.592 g.
        (1, "fl oz", "mL", 29.5735295625, 1e-10),
        (11, "fl oz", "mL", 325.309, 5e-4),
        (20, "fl oz", "mL", 591.471, 5e-4),
        (1, "oz", "g", 28.3495, 5e-5),
        (1, "lb", "g", 453.592, 5e-4),
        # The units library pint 0.25.3 returns these.
        (1, "imp fl oz", "mL", 28.4130625, 1e-10),
        (40, "psi", "bar", 2.75790, 5e-6),
        (1, "psi", "kPa", 6.894757, 5e-7),
        (1, "W/m2K", "BTU/(h ft2 F)", 0.176110, 5e-7),
        # A data sheet of stainless steel 304 (ASM) prints both: 112 and 16.2, 0.12 and 500 after rounding.
        (112, "BTU in/(h ft2 F)", "W/mK", 16.1535, 5e-5),
        (0.12, "BTU/(lb F)", "J/kgK", 502.4, 0.05),
    ],
)
def test_published_conversions(value: float, given_in: str, wanted: str, expected: float, tolerance: float) -> None:
    assert convert(value, given_in, wanted) == pytest.approx(expected, abs=tolerance)
    assert convert(convert(value, given_in, wanted), wanted, given_in) == pytest.approx(value, rel=1e-12)


def test_different_things_are_not_turned_into_one_another() -> None:
    with pytest.raises(WrapwrightError, match="measures weight, mL measures volume"):
        convert(1, "oz", "mL")
    with pytest.raises(WrapwrightError, match='"stone" is not known'):
        convert(1, "stone", "kg")
