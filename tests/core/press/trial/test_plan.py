"""Which coupons a plan has, and that it keeps what it says of itself."""

from __future__ import annotations

import numpy as np
import pytest
from tests.core.press.trial.beds import oven_bed
from tests.core.press.trial.worlds import coupons, score, scored

from wrapwright.core.press.trial.fit import found_in
from wrapwright.core.press.trial.one_by_one import fewest_one_by_one
from wrapwright.core.press.trial.plan import Expected, designed, fewest, heats_for_strip, spread_doses, weigh
from wrapwright.core.press.trial.reckoning import reckoned

EXPECTED = Expected(0.8, 4.0)


def test_doses_are_spread_evenly_and_temperatures_taken_in_turn() -> None:
    settings = designed(oven_bed(), (185.0, 195.0, 205.0), EXPECTED, 6)
    assert [celsius for celsius, _ in settings[:3]] == [185.0, 195.0, 205.0]
    got = [one.dose.mid for one in reckoned(oven_bed(), settings)]
    assert got == pytest.approx(spread_doses(EXPECTED, 6), rel=0.15)  # within the rounding of the times
    assert got == sorted(got)
    assert all(seconds % 5.0 == 0.0 for _, seconds in settings)


def test_heats_of_a_strip_add_up_to_the_doses() -> None:
    bed = oven_bed()
    got = [one.dose.mid for one in reckoned(bed, heats_for_strip(bed, 195.0, EXPECTED, 6), "strip")]
    assert got[::-1] == pytest.approx(spread_doses(EXPECTED, 6), rel=0.15)


def test_a_narrower_wish_takes_more_coupons_and_the_same_wish_the_same() -> None:
    wide, narrow = fewest(EXPECTED, within=2.5)[0], fewest(EXPECTED, within=2.1)[0]
    assert 4 <= wide.pieces < narrow.pieces <= 24
    assert narrow.sure >= 0.8
    again, rows = fewest.__wrapped__(EXPECTED, within=2.5)
    assert again == wide
    assert next(one for one in rows if one.pieces == wide.pieces - 1).sure < 0.8  # one fewer does not do


def test_choosing_one_by_one_takes_fewer() -> None:
    assert fewest_one_by_one(EXPECTED, within=2.0).pieces < fewest(EXPECTED, within=2.0)[0].pieces


def test_what_a_plan_says_of_itself_comes_true() -> None:
    """Fits of other windows than those it was weighed against, by the whole fit: the share within its two errors."""
    doses = spread_doses(EXPECTED, 14)
    said = weigh(np.log10(doses), EXPECTED, 2.0).sure
    rng, trials, good = np.random.default_rng(11), 20, 0
    for _ in range(trials):
        low, high = np.log10(0.8) + rng.uniform(-0.25, 0.25), np.log10(4.0) + rng.uniform(-0.15, 0.35)
        bounds = (low, max(high, low + 0.15), max(high, low + 0.15) + rng.uniform(-0.1, 0.4))
        gap, scatter = 10.0 ** rng.uniform(-1.2, -0.6), 10.0 ** rng.uniform(-1.3, -0.8)
        rows = []
        for x in np.log10(doses):
            away = np.array([x - bounds[0], bounds[1] - x, bounds[2] - x]) + scatter * rng.standard_normal(3)
            rows.append(tuple(score(float(one), gap) for one in away))
        window = found_in(coupons(doses), scored(rows)).window
        good += all(bound is not None and bound[1] / bound[0] <= 2.0 for bound in (window.low, window.high))
    assert good / trials == pytest.approx(said, abs=2.0 * np.sqrt(said * (1.0 - said) * (1.0 / trials + 1.0 / 200.0)))
