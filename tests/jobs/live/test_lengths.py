"""A length as a person writes it, understood and written as a document holds it."""

from __future__ import annotations

from typing import Literal

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.live.lengths import ReadLength, read_length


@pytest.mark.parametrize(
    ("text", "unit", "mm", "written"),
    [
        ("9 1/4 in", "mm", 234.95, "234.95 mm"),  # the inch is 25.4 mm exactly, 16 CFR 500.19
        ("9 1/4", "in", 234.95, "234.95 mm"),
        ("9¼″", "mm", 234.95, "234.95 mm"),
        ("235", "mm", 235.0, "235 mm"),
        ("-0,5", "mm", -0.5, "-0.5 mm"),
        ("0.0000001 mm", "in", 0.0, "0 mm"),
        ("1/3 in", "mm", 8.466667, "8.466667 mm"),
    ],
)
def test_lengths(text: str, unit: Literal["mm", "in"], mm: float, written: str) -> None:
    read = read_length(ReadLength(text, unit))
    assert (read.mm, read.text) == (pytest.approx(mm, abs=1e-9), written)
    assert read_length(ReadLength(read.text)).mm == read.mm


def test_what_is_no_length() -> None:
    with pytest.raises(WrapwrightError, match="not a length"):
        read_length(ReadLength("wide"))
    with pytest.raises(WrapwrightError, match="without a unit"):
        read_length(ReadLength("9 1/4"))
