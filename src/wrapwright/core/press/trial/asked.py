"""What may be asked of a trial, and the sentence for what may not."""

from __future__ import annotations

import math
from collections.abc import Iterable

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.heat_words import celsius_range_words, celsius_words, seconds_words
from wrapwright.core.press.trial.values import BEST, QUALITIES, Scores

COOLEST_C, HOTTEST_C = 150.0, 230.0  # no dye moves below; no coating of the trade is sold for more
SHORTEST_S, LONGEST_S = 15.0, 3600.0
FEWEST, MOST = 4, 24  # coupons of a plan
MOST_HEATS = 8  # of one blank, on a strip: each more ages its coating
MOST_PLACES = 24
NARROWEST, WIDEST = 1.1, 4.0  # wanted ratio of an interval's ends


def settings_asked(celsius: Iterable[float], seconds: Iterable[float] = ()) -> None:
    """Refuse temperatures and times that no trial can have.

    Raises:
        WrapwrightError: unusable, with all that is wrong; Fahrenheit meant as Celsius is asked about.
    """
    wrong = [problem for one in celsius if (problem := wrong_celsius(one))]
    wrong += [problem for one in seconds if (problem := wrong_seconds(one))]
    raise_all(wrong)


def wrong_celsius(celsius: float) -> WrapwrightError | None:
    """Return what is wrong with a set temperature, None when nothing is."""
    if math.isfinite(celsius) and COOLEST_C <= celsius <= HOTTEST_C:
        return None
    meant = (celsius - 32.0) / 1.8
    if COOLEST_C <= meant <= HOTTEST_C:
        return unusable(
            f"{celsius:g} °C is hotter than any coating takes, {celsius_words(HOTTEST_C)}; was {celsius:g} °F meant,"
            f" which is {meant:.0f} °C?",
            remedy=f'Write "{celsius:g} F" or "{meant:.0f} C".',
            where="celsius",
        )
    return unusable(
        f"{celsius_words(celsius)} cannot be tried: a trial takes {celsius_range_words((COOLEST_C, HOTTEST_C))}.",
        remedy='Write, for example, "195 C" or "383 F".',
        where="celsius",
    )


def wrong_seconds(seconds: float) -> WrapwrightError | None:
    """Return what is wrong with a dwell, None when nothing is."""
    if math.isfinite(seconds) and SHORTEST_S <= seconds <= LONGEST_S:
        return None
    return unusable(
        f"a dwell of {_time(seconds)} cannot be tried; a trial takes {SHORTEST_S:g} s to 1 h.",
        remedy='Write, for example, "5 min" or "90 s".',
        where="dwell",
    )


def _time(seconds: float) -> str:
    return seconds_words(seconds) if math.isfinite(seconds) and seconds >= 0 else f"{seconds:g} s"


def count_asked(count: int, kind: str) -> None:
    """Refuse a number of pieces that makes no trial.

    Raises:
        WrapwrightError: unusable.
    """
    if kind == "coupons":
        low, high, what = FEWEST, MOST, "coupons"
    elif kind == "strip":
        low, high, what = FEWEST, MOST_HEATS, "parts, each with a heat of its own on the same blank,"
    else:
        low, high, what = 2, MOST_PLACES, "positions"
    if low <= count <= high:
        return
    if count <= 0:
        message = f"a trial without {what.split(',', maxsplit=1)[0]} tells nothing; {low} to {high} can be planned."
    else:
        message = f"{count} {what} cannot be planned; {low} to {high} can."
    raise unusable(message, remedy=f"Give a number from {low} to {high}.", where="pieces")


def scores_asked(number: int, scores: Scores, numbers: Iterable[int]) -> None:
    """Refuse scores for a coupon that the trial does not have, and scores outside 1 to 5.

    Raises:
        WrapwrightError: unusable, with all that is wrong.
    """
    there = sorted(numbers)
    if not there:
        raise unusable("this trial has no coupons to score.", remedy="Plan one with coupons.", where="coupon")
    if number not in there:
        message = f"this trial has no coupon {number}; its numbers are {there[0]} to {there[-1]}."
        raise unusable(message, remedy="Read the number that is printed on it.", where="coupon")
    raise_all(
        [
            unusable(
                f"a score of {score} for {quality} cannot be: scores are 1 (worst) to {BEST} (best).",
                remedy=f"Give 1 to {BEST}.",
                where=quality,
            )
            for quality in QUALITIES
            if (score := scores.of(quality)) is not None and not 1 <= score <= BEST
        ]
    )


def wish_asked(ratio: float, sure: float) -> None:
    """Refuse a certainty that no trial can give.

    Raises:
        WrapwrightError: unusable.
    """
    if not (math.isfinite(ratio) and NARROWEST <= ratio <= WIDEST):
        message = f"a bound within a ratio of {ratio:g} cannot be wanted; {NARROWEST:g} to {WIDEST:g} can."
        raise unusable(message, remedy="1.6 is usual: from 2 to 3.2 min, say.", where="within")
    if not (math.isfinite(sure) and 0.5 <= sure <= 0.95):
        message = f"a certainty of {sure * 100:g} % cannot be wanted; 50 to 95 % can."
        raise unusable(message, remedy="80 % is usual.", where="sure")
