"""Windows that are known are found again, with the chance that is said; what scores do not tell is not said."""

from __future__ import annotations

import numpy as np
import pytest
from tests.core.press.trial.worlds import coupon, coupons, marks, score, scored

from wrapwright.core.press.trial.fit import belief, found_in, marks_of
from wrapwright.core.press.trial.model import grid, quantiles
from wrapwright.core.press.trial.values import Mark, Scores

LADDER = np.geomspace(0.33, 25.0, 9)


def _world(rng: np.random.Generator) -> tuple[float, float, float]:
    return rng.uniform(0.0, 0.9), rng.uniform(0.06, 0.3), rng.uniform(0.04, 0.2)


@pytest.mark.parametrize("rising", [True, False])
def test_intervals_cover_as_often_as_they_say(rising: bool) -> None:
    """80 trials of 9 coupons with fixed seeds: 90 and 95 % within two and a half standard errors of a count."""
    rng, over = np.random.default_rng(20260502), grid(-2.0, 2.5, 0.05)
    told, held90, held95, trials = 0, 0, 0, 80
    for _ in range(trials):
        bound, gap, scatter = _world(rng)
        given = marks(np.log10(LADDER), bound, gap, scatter, rng, rising=rising)
        one = belief("density" if rising else "sharpness", given, over)
        if one.known.interval is None:
            continue
        told += 1
        held90 += one.known.interval[0] <= 10.0**bound <= one.known.interval[1]
        low, high = quantiles(over.places, one.bound, (0.025, 0.975))
        held95 += low <= bound <= high
    assert told >= 0.95 * trials
    for held, share in ((held90, 0.90), (held95, 0.95)):
        assert held / told >= share - 2.5 * np.sqrt(share * (1.0 - share) / told)
    assert held90 / told <= 0.97  # nor are they so wide that they say nothing


def test_the_upper_bound_is_the_first_of_two_and_covers() -> None:
    rng = np.random.default_rng(7)
    held = told = 0
    for _ in range(20):
        blur, gap, scatter = _world(rng)
        yellow = blur + rng.uniform(-0.1, 0.3)
        rows = [
            (
                None,
                score(blur - x + scatter * rng.standard_normal(), gap),
                score(yellow - x + scatter * rng.standard_normal(), gap),
            )
            for x in np.log10(LADDER)
        ]
        high = found_in(coupons(LADDER), scored(rows)).window.high
        if high is not None:
            told += 1
            held += high[0] <= 10.0 ** min(blur, yellow) <= high[1]
    assert told >= 18
    assert held / told >= 0.90 - 2.5 * np.sqrt(0.09 / told)


def test_more_coupons_tell_more() -> None:
    widths = []
    for count in (6, 24):
        rng = np.random.default_rng(4)
        one = belief("density", marks(np.linspace(-0.5, 1.2, count), 0.4, 0.15, 0.1, rng, rising=True))
        assert one.known.interval is not None
        widths.append(one.known.interval[1] / one.known.interval[0])
    assert widths[0] > 1.3 * widths[1]


def test_a_clear_window_with_its_words() -> None:
    rows = [(2, 5, 5), (3, 5, 5), (4, 5, 5), (5, 4, 5), (5, 2, 4), (5, 1, 2)]
    found = found_in(coupons((0.33, 0.63, 1.47, 3.3, 7.4, 16.0)), scored(rows), "6 scored coupons")
    assert found.window.low is not None
    assert found.window.high is not None
    assert 0.4 < found.window.low[0] < found.window.low[1] < 1.6
    assert 2.5 < found.window.high[0] < found.window.high[1] < 7.4
    assert found.window.source == "6 scored coupons"
    assert found.chance is not None
    assert found.chance > 0.99
    assert found.words[0].startswith("From ")
    assert found.words[1].startswith("Density: accepted from ")
    assert "nine chances in ten" in found.words[1]


@pytest.mark.parametrize(
    ("rows", "density", "sharpness", "words"),
    [
        ([(5, 5, 5)] * 5, "all-good", "all-good", "even at the least dose, 0.50 min; the bound lies below it"),
        ([(1, 1, 1)] * 5, "all-bad", "all-bad", "even at the highest dose, 8.00 min; the bound lies above it"),
        ([(None, None, None)] * 5, "not-scored", "not-scored", "not scored"),
        (
            [(5, 1, 3), (4, 2, 3), (3, 3, 3), (2, 4, 3), (1, 5, 3)],
            "contradictory",
            "contradictory",
            "each other",
        ),
        ([(1, 4, 5), (None,) * 3, (None,) * 3, (None,) * 3, (5, 3, 5)], "too-few", "too-few", "too few scores"),
    ],
)
def test_what_the_scores_do_not_tell_is_not_known_yet(
    rows: list[tuple[int | None, int | None, int | None]], density: str, sharpness: str, words: str
) -> None:
    found = found_in(coupons((0.5, 1.0, 2.0, 4.0, 8.0)), scored(rows))
    assert [found.known[0].state, found.known[1].state] == [density, sharpness]
    assert (found.window.low, found.window.high, found.window.source) == (None, None, "not known yet")
    assert found.words[0] == "The window is not known yet."
    assert words in found.known[0].words


def test_scores_that_contradict_name_the_pair() -> None:
    found = found_in(
        coupons((0.5, 1.0, 2.0, 4.0, 8.0)), scored([(5, 5, 5), (4, 5, 5), (3, 5, 5), (2, 5, 5), (1, 5, 5)])
    )
    assert found.known[0].clashes[0] == (1, 5)
    assert "Coupon 1 got less heat than 5 and scores better" in found.known[0].words


def test_one_slip_widens_the_interval_and_is_named() -> None:
    minutes, clean = np.geomspace(0.5, 16.0, 10), [(1, 5, 5), (2, 5, 5), (2, 5, 5), (3, 5, 5), *[(5, 5, 5)] * 6]
    slipped = [*clean[:8], (2, 5, 5), clean[9]]
    whole, slip = (found_in(coupons(minutes), scored(rows)) for rows in (clean, slipped))
    assert whole.window.low is not None
    assert slip.window.low is not None
    assert slip.window.low[1] / slip.window.low[0] > whole.window.low[1] / whole.window.low[0]
    assert any("Coupons 5 and 9 run against each other in density" in one for one in slip.words)


def test_a_closed_window_is_called_one() -> None:
    rows = [(1, 5, 5), (1, 4, 4), (2, 3, 3), (2, 2, 2), (4, 1, 1), (5, 1, 1)]
    found = found_in(coupons((0.33, 0.63, 1.47, 3.3, 7.4, 16.0)), scored(rows))
    assert found.chance is not None
    assert found.chance < 0.01
    assert "no dose does both" in found.words[0]


def test_bare_coating_of_a_strip_counts_once_and_for_its_own_dose() -> None:
    strip = tuple(coupon(number, minutes, bare=14.0) for number, minutes in ((1, 14.0), (2, 6.0), (3, 2.0)))
    scores = {number: Scores(3, 3, 2) for number in (1, 2, 3)}
    assert [one.number for one in marks_of(strip, scores, "density")] == [1, 2, 3]
    assert marks_of(strip, scores, "yellowing") == (Mark(1, float(np.log10(14.0)), 2, 2, 0.0),)
