"""A recipe known to be good bounds the offset through the dose: against the dose itself, at its ends."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.dose.dose import equivalent_minutes
from wrapwright.core.press.fit.without.known import KnownGood, bounded
from wrapwright.core.press.heat.known import material_named, starter_heater
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.values import Load, Range, Wall

LOAD = Load(Wall(material_named("steel"), 0.5, 0.043), 1, (), 200.0)
OVEN = starter_heater("oven")
SURE = replace(OVEN, film=Range(30.0, 30.0, 30.0))


def dose(offset_k: float) -> float:
    ran = warm_up(replace(SURE, offset_k=offset_k), LOAD, until_s=360.0)
    return float(equivalent_minutes(ran.times_s, ran.coating_c[0]))


def test_the_bounds_are_where_the_dose_leaves_the_window() -> None:
    found = bounded(SURE, KnownGood(LOAD, 360.0, (dose(-6.0), dose(9.0)), "accepted trials"))
    assert (found.low_k, found.high_k) == (pytest.approx(-6.0, abs=0.6), pytest.approx(9.0, abs=0.6))
    assert found.minutes == pytest.approx(dose(0.0), rel=0.01)
    assert found.tells
    assert (found.found().offset_k, found.found().offset_half_k) == (
        pytest.approx(1.5, abs=0.6),
        pytest.approx(7.5, abs=0.6),
    )


def test_an_unknown_film_takes_most_of_it_away() -> None:
    window = (dose(-6.0), dose(9.0))
    sure, unsure = (bounded(one, KnownGood(LOAD, 360.0, window, "")) for one in (SURE, OVEN))
    assert unsure.high_k - unsure.low_k > 1.5 * (sure.high_k - sure.low_k)
    assert "only through the dose" in unsure.words[1]


def test_what_tells_nothing_changes_nothing() -> None:
    wide = bounded(SURE, KnownGood(LOAD, 360.0, (0.001, 500.0), ""))
    assert (wide.open_low, wide.open_high, wide.tells, wide.found().offset_k) == (False, True, False, None) or (
        wide.open_low,
        wide.tells,
        wide.found().offset_k,
    ) == (True, False, None)
    assert any("so its figures stay" in one for one in wide.words)


def test_what_no_offset_explains_is_refused() -> None:
    with pytest.raises(WrapwrightError, match="no offset within 40 °C"):
        bounded(SURE, KnownGood(LOAD, 360.0, (400.0, 500.0), ""))
    with pytest.raises(WrapwrightError, match="is no window"):
        bounded(SURE, KnownGood(LOAD, 360.0, (5.0, 2.0), ""))
