"""A dose in words: three figures, and small ones not as nothing."""

from __future__ import annotations

import pytest

from wrapwright.core.press.trial.words import dose_words, interval_words


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0.0, "0.000 min"),
        (0.0004, "under 0.001 min"),
        (0.0024, "0.002 min"),
        (0.0099, "0.010 min"),
        (0.0997, "0.10 min"),
        (1.434, "1.43 min"),
        (9.996, "10.0 min"),
        (30.17, "30.2 min"),
        (104.6, "105 min"),
    ],
)
def test_a_dose_as_people_read_it(minutes: float, said: str) -> None:
    assert dose_words(minutes) == said


def test_both_ends_with_one_unit() -> None:
    assert interval_words((0.001, 0.02)) == "0.001 to 0.02 min"
