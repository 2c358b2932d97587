"""What one heat of one blank tells: where, not how long."""

from __future__ import annotations

import pytest

from wrapwright.core.press.trial.strip import kind_words, uneven_words
from wrapwright.core.press.trial.values import KINDS, Scores


def _density(*scores: int) -> dict[int, Scores]:
    return {number: Scores(one) for number, one in enumerate(scores, start=1)}


@pytest.mark.parametrize(
    ("scores", "said"),
    [
        (_density(5, 5, 3, 2, 5, 5), "Less colour at positions 3 and 4 than elsewhere (2 to 3 against 5)."),
        (_density(4, 4, 4, 2), "Less colour at position 4 than elsewhere (2 against 4)."),
        (_density(5, 5, 5, 5), "Even, as far as scores from 1 to 5 show it."),
        ({}, "No position is scored yet."),
        (
            {n: Scores(5, 5, y) for n, y in enumerate((5, 5, 3), 1)},
            "More yellowing at position 3 than elsewhere (3 against 5).",
        ),
    ],
)
def test_positions_that_stand_out_are_named(scores: dict[int, Scores], said: str) -> None:
    assert uneven_words(scores)[0] == said


def test_every_kind_says_what_it_cannot_tell() -> None:
    told = {kind: " ".join(kind_words(kind, free=True)) for kind in KINDS}
    assert "nothing about how long or how hot" in told["positions"]
    assert "would see one dose only" in told["strip"]
    assert "yellowing is judged once" in told["strip"]
    assert "heated from both sides" in told["coupons"]
    assert "heated from one side" in " ".join(kind_words("coupons"))
