"""Drift: a trend through three entries or more, held against what reading leaves open."""

from __future__ import annotations

import math
from datetime import date

import numpy as np
import pytest

from wrapwright.core.sheet.scale.drift import drift_words, same_paper, trends
from wrapwright.core.sheet.scale.entries import Lengths, ScaleEntry

ASKED = (200.0, 250.0)


def entries(*rows: tuple[str, float, float], paper: str = "Letter") -> tuple[ScaleEntry, ...]:
    return tuple(
        ScaleEntry(at, date.fromisoformat(day), paper, Lengths(ASKED, (200.0 * across, 250.0 * along)))
        for at, (day, across, along) in enumerate(rows, start=1)
    )


def test_the_trend_is_the_weighted_least_squares_line() -> None:
    """numpy's polyfit is the witness: its slope, and its unscaled covariance for the entries' own uncertainties."""
    kept = entries(
        ("2026-01-01", 1.000, 1.001),
        ("2026-01-31", 1.002, 1.000),
        ("2026-04-01", 1.003, 1.0015),
        ("2026-04-11", 1.006, 1.0),
    )
    days = [float(one.day.toordinal()) for one in kept]
    span = days[-1] - days[0]
    for axis, found in enumerate(trends(kept)):
        sigma = kept[0].lengths.error[axis] / math.sqrt(3.0)
        scales = [one.lengths.scale[axis] for one in kept]
        middle = np.array(days) - np.mean(days)
        fitted, spread = np.polyfit(middle, scales, 1, w=np.full(4, 1.0 / sigma), cov="unscaled")
        assert found.change == pytest.approx(float(fitted[0]) * span)
        assert found.doubt == pytest.approx(2.0 * math.sqrt(float(spread[0, 0])) * span)


def test_drift_is_told_and_so_is_none() -> None:
    steady = entries(("2026-01-01", 1.001, 1.0), ("2026-02-01", 1.002, 1.0), ("2026-03-01", 1.0005, 1.0))
    assert not any(one.drifts for one in trends(steady))
    assert "No drift over 3 measurements from 2026-01-01 to 2026-03-01" in drift_words(steady)[0]
    grown = entries(("2026-01-01", 0.996, 1.0), ("2026-02-01", 0.999, 1.0), ("2026-03-01", 1.002, 1.0))
    assert [one.drifts for one in trends(grown)] == [True, False]
    first = drift_words(grown)[0]
    assert first.startswith("Drift across: the printer prints 0.60 % longer")
    assert "on a wrap of 240 mm that is 1.4 mm" in first
    shrunk = entries(("2026-01-01", 1.0, 1.004), ("2026-02-01", 1.0, 1.0), ("2026-03-01", 1.0, 0.996))
    assert "Drift along: the printer prints 0.80 % shorter" in drift_words(shrunk)[0]


def test_three_are_needed_and_of_one_paper() -> None:
    two = entries(("2026-01-01", 0.99, 1.0), ("2026-02-01", 1.01, 1.0))
    assert trends(two) == ()
    assert "2 so far" in drift_words(two)[0]
    assert "none yet" in drift_words(())[0]
    other = entries(("2025-01-01", 0.98, 1.0), paper="A4")
    assert same_paper((*other, *two)) == two
    assert trends((*other, *two)) == ()


def test_entries_of_one_day_count_in_their_order() -> None:
    kept = entries(("2026-01-01", 0.996, 1.0), ("2026-01-01", 0.999, 1.0), ("2026-01-01", 1.002, 1.0))
    assert trends(kept)[0].change == pytest.approx(0.006)
