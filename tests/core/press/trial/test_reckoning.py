"""The doses of coupons: those of the heat they get, summed where a strip gets several."""

from __future__ import annotations

import math

import pytest
from tests.core.press.trial.beds import oven_bed

from wrapwright.core.press.dose.band import dose_band
from wrapwright.core.press.trial.reckoning import course, reckoned


def test_a_coupon_gets_the_dose_of_its_heat() -> None:
    bed = oven_bed()
    one, other = reckoned(bed, [(195.0, 300.0), (205.0, 200.0)])
    assert (one.number, other.number) == (1, 2)
    assert one.dose.mid == pytest.approx(dose_band(bed.heater, bed.load(195.0), 300.0).dose.mid, rel=2e-3)
    assert other.dose.mid == pytest.approx(dose_band(bed.heater, bed.load(205.0), 200.0).dose.mid, rel=2e-3)
    assert one.dose.low < one.dose.mid < one.dose.high
    assert one.bare is None


def test_a_part_of_a_strip_gets_its_own_heat_and_all_later_ones() -> None:
    bed, heats = oven_bed(), [(195.0, 400.0), (195.0, 300.0), (195.0, 240.0)]
    alone = [one.dose.mid for one in reckoned(bed, heats)]
    strip = reckoned(bed, heats, "strip")
    assert [one.dose.mid for one in strip] == pytest.approx([sum(alone), sum(alone[1:]), alone[2]])
    assert [one.bare for one in strip] == pytest.approx([sum(alone)] * 3)  # it went through all


def test_doubt_that_all_share_is_none_of_a_coupons_own() -> None:
    """At one temperature a wrong activation energy moves all doses alike; at two it moves them apart."""
    alike = reckoned(oven_bed(), [(195.0, 1200.0), (195.0, 1260.0)])
    apart = reckoned(oven_bed(), [(180.0, 1200.0), (210.0, 1200.0)])
    assert max(one.doubt for one in alike) < 0.006
    assert min(one.doubt for one in apart) > 0.03


def test_a_course_is_read_both_ways() -> None:
    one = course(oven_bed(), 195.0, 1200.0)
    assert one.at(one.seconds_for(3.0)) == pytest.approx(3.0, rel=1e-3)
    assert math.isinf(one.seconds_for(1000.0))
