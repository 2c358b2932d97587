"""What cannot be tried is refused in one sentence each."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.press.trial.asked import count_asked, scores_asked, settings_asked, wish_asked
from wrapwright.core.press.trial.values import Scores


def test_fahrenheit_typed_as_celsius_is_asked_about() -> None:
    with pytest.raises(WrapwrightError, match="was 383 °F meant, which is 195 °C\\?") as problem:
        settings_asked((383.0,))
    assert problem.value.remedy == 'Write "383 F" or "195 C".'


@pytest.mark.parametrize("celsius", [20.0, 149.0, 231.0, 600.0, float("nan")])
def test_other_temperatures_are_refused(celsius: float) -> None:
    with pytest.raises(WrapwrightError, match="cannot be tried: a trial takes 150–230 °C"):
        settings_asked((celsius,))


@pytest.mark.parametrize(("seconds", "said"), [(0.0, "0 s"), (36000.0, "10 h"), (-5.0, "-5 s"), (14.0, "14 s")])
def test_dwells_of_nothing_and_of_half_a_day_are_refused(seconds: float, said: str) -> None:
    with pytest.raises(WrapwrightError, match=f"a dwell of {said} cannot be tried; a trial takes 15 s to 1 h"):
        settings_asked((), (seconds,))


def test_all_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(SeveralProblemsError) as problem:
        settings_asked((383.0, 195.0), (0.0, 300.0, 36000.0))
    assert [one.where for one in problem.value.problems] == ["celsius", "dwell", "dwell"]


@pytest.mark.parametrize(
    ("count", "kind", "said"),
    [
        (0, "coupons", "a trial without coupons tells nothing; 4 to 24 can be planned"),
        (25, "coupons", "25 coupons cannot be planned; 4 to 24 can"),
        (9, "strip", "9 parts, each with a heat of its own on the same blank, cannot be planned; 4 to 8 can"),
        (1, "positions", "1 positions cannot be planned; 2 to 24 can"),
    ],
)
def test_numbers_that_make_no_trial(count: int, kind: str, said: str) -> None:
    with pytest.raises(WrapwrightError, match=said):
        count_asked(count, kind)


def test_scores_are_from_one_to_five_for_coupons_there_are() -> None:
    with pytest.raises(SeveralProblemsError) as problem:
        scores_asked(1, Scores(6, 0, 5), range(1, 5))
    assert [one.where for one in problem.value.problems] == ["density", "sharpness"]
    assert "a score of 6 for density cannot be: scores are 1 (worst) to 5 (best)" in str(problem.value)
    with pytest.raises(WrapwrightError, match="this trial has no coupon 9; its numbers are 1 to 4"):
        scores_asked(9, Scores(3), range(1, 5))
    with pytest.raises(WrapwrightError, match="this trial has no coupons to score"):
        scores_asked(1, Scores(3), ())
    scores_asked(4, Scores(1, None, 5), range(1, 5))


def test_certainty_that_cannot_be_had() -> None:
    with pytest.raises(WrapwrightError, match="a bound within a ratio of 1 cannot be wanted"):
        wish_asked(1.0, 0.8)
    with pytest.raises(WrapwrightError, match="a certainty of 100 % cannot be wanted"):
        wish_asked(2.0, 1.0)
    wish_asked(1.6, 0.9)
