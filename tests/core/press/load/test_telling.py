"""Times in words."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.press.load.telling import (
    dwell_words,
    minutes,
    minutes_words,
    pieces_words,
    rounded_s,
    span_words,
)
from wrapwright.core.press.load.values import Span


@pytest.mark.parametrize(
    ("seconds", "timer", "words"),
    [
        (92.4, 90, "90 s (1.5 min)"),
        (1.0, 5, "5 s (0.1 min)"),
        (120.0, 120, "2 min"),
        (237.4, 235, "235 s (3.9 min)"),
        (314.0, 300, "5 min"),
        (316.0, 330, "5.5 min"),
        (3599.0, 3600, "60 min"),
        (math.inf, math.inf, "over 60 min"),
    ],
)
def test_a_timer_is_set_to_five_seconds_then_to_half_a_minute(seconds, timer, words):
    assert rounded_s(seconds) == timer
    assert minutes_words(seconds) == words


def test_what_lies_past_an_hour_is_over_it():
    assert minutes(3700.0) == "over 60"
    assert span_words(2100.0, math.inf) == "35 to over 60 min"
    assert dwell_words(Span(2100.0, math.inf, math.inf)) == "over 60 min"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(222.0, 508.0, "3.7–8.5 min"), (150.0, 240.0, "150–240 s"), (301.0, 299.0, "5 min"), (60.0, 120.0, "60–120 s")],
)
def test_spans(low, high, words):
    assert span_words(low, high) == words


def test_a_dwell_with_its_band():
    assert dwell_words(Span(222.0, 314.0, 508.0)) == "about 5 min, band 3.7–8.5 min"
    assert (pieces_words(1), pieces_words(4)) == ("1 piece", "4 pieces")
