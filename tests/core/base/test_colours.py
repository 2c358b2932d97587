"""Colours as they are written."""

from __future__ import annotations

import pytest

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.base.errors import WrapwrightError


def test_six_and_three_digits() -> None:
    assert rgb_of("#0e3a5a") == pytest.approx((14 / 255, 58 / 255, 90 / 255))
    assert rgb_of("#fff") == (1.0, 1.0, 1.0)
    assert rgb_of("#1aF") == rgb_of("#11aaff")


@pytest.mark.parametrize("colour", ["#000000", "#ffffff", "#0e3a5a", "#010203"])
def test_written_and_read_back(colour: str) -> None:
    assert hex_of(rgb_of(colour)) == colour


def test_values_outside_are_clipped() -> None:
    assert hex_of((-0.2, 0.5, 1.7)) == "#0080ff"


@pytest.mark.parametrize("written", ["0e3a5a", "#12345", "#12345g", "navy", "", 3, None, "#fff\n#000", "#٣٣٣"])
def test_other_writings_are_refused_with_an_example(written: object) -> None:
    with pytest.raises(WrapwrightError, match="#rrggbb") as problem:
        rgb_of(written, where="element.colour")
    assert problem.value.where == "element.colour"
