"""The next trial lies where most is to be learned, and says why."""

from __future__ import annotations

import pytest
from tests.core.press.trial.beds import oven_bed
from tests.core.press.trial.worlds import coupons, scored

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.trial.fit import belief, marks_of
from wrapwright.core.press.trial.proposing import next_trial
from wrapwright.core.press.trial.values import Coupon, Scores

MINUTES = (0.33, 0.63, 1.47, 3.3, 7.4, 16.0)
CELSIUS = (185.0, 195.0, 205.0)


def test_it_lies_between_the_scores_that_leave_the_bound_open() -> None:
    rows = [(2, 5, 5), (2, 5, 5), (5, 5, 5), (5, 4, 5), (5, 1, 5), (5, 1, 5)]
    given, scores = coupons(MINUTES), scored(rows)
    ahead = next_trial(oven_bed(), CELSIUS, given, scores, within=1.3)
    assert ahead.celsius in CELSIUS
    assert MINUTES[1] <= ahead.dose <= MINUTES[4]
    assert ahead.words[0].startswith("Heat one at ")
    assert "It lies between coupon " in ahead.words[1]
    assert ahead.bits > 0.1


def test_what_it_expects_is_what_comes_of_it_on_average() -> None:
    """The expected width after, against the widths after each score that may come, fitted anew."""
    rows = [(2, None, None), (3, None, None), (4, None, None), (5, None, None), (5, None, None), (5, None, None)]
    given, scores = coupons(MINUTES), scored(rows)
    ahead = next_trial(oven_bed(), CELSIUS, given, scores, within=1.3)
    more = (*given, Coupon(7, ahead.celsius, ahead.seconds, given[0].dose.__class__(0.0, ahead.dose, ahead.dose)))
    widths = []
    for last in range(1, 6):
        known = belief("density", marks_of(more, {**scores, 7: Scores(last)}, "density")).known
        widths.append(known.interval[1] / known.interval[0] if known.interval else 8.0)
    assert min(widths) <= ahead.widths["low"][1] <= max(widths)
    assert ahead.widths["low"][1] < ahead.widths["low"][0]


@pytest.mark.parametrize(
    ("rows", "below", "words"),
    [([(5, 5, 5)] * 6, True, "It gets less than any so far"), ([(1, 5, 5)] * 6, False, "It gets more than any so far")],
)
def test_all_good_or_all_bad_goes_on_beyond(rows: list[tuple[int, int, int]], below: bool, words: str) -> None:
    ahead = next_trial(oven_bed(), CELSIUS, coupons(MINUTES), scored([(row[0], None, None) for row in rows]))
    assert (ahead.dose < MINUTES[0]) if below else (ahead.dose > MINUTES[-1])
    assert words in " ".join(ahead.words)


def test_a_contradiction_is_settled_first() -> None:
    rows = [(5, 5, 5), (5, 5, 5), (4, 5, 5), (2, 4, 5), (1, 3, 5), (1, 1, 5)]
    ahead = next_trial(oven_bed(), CELSIUS, coupons(MINUTES), scored(rows))
    assert ahead.dose == MINUTES[0]
    assert "contradict each other in density" in ahead.words[1]


def test_enough_is_called_enough() -> None:
    minutes = [0.3 * 1.16**step for step in range(24)]
    rows = [(2 if one < 1.0 else 5, 5 if one < 4.0 else 2, 5) for one in minutes]
    ahead = next_trial(oven_bed(), CELSIUS, coupons(minutes), scored(rows), within=2.5)
    assert ahead.words[0] == "Both bounds are known within the ratio of 2.5 that was wanted: no more is needed."


def test_without_scores_nothing_is_proposed() -> None:
    with pytest.raises(WrapwrightError, match="no coupon of this trial is scored yet"):
        next_trial(oven_bed(), CELSIUS, coupons(MINUTES), {})
