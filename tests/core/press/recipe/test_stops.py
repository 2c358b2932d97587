"""The limits that stop a heat, each with its figure, its source and what to do."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.press.recipe.stops import limits_told, stops, upper_bounds
from wrapwright.core.press.recipe.values import COMMON, DYE_TRANSFER, Limits, Recipe
from wrapwright.core.press.values import Dose, Window
from wrapwright.data.recipes import recipes

STEEL, VACUUM, CERAMIC = (recipes()[at] for at in range(3))


def _ruled(found: tuple[Finding, ...], severity: Severity = Severity.ERROR) -> list[str]:
    return [one.rule for one in found if one.severity is severity]


@pytest.mark.parametrize("recipe", recipes(), ids=lambda one: one.name)
def test_the_shipped_ranges_are_not_stopped(recipe: Recipe) -> None:
    for celsius, seconds in zip(recipe.celsius, recipe.seconds, strict=True):
        assert stops(recipe, celsius, seconds) == ()


def test_below_dye_transfer_it_stops() -> None:
    # 170-220 C: vapour transfer printing, textile glossary, textileindonesia.com/kb/transfer-printing.
    assert DYE_TRANSFER.value == 170
    assert stops(STEEL, 170, 300) == ()
    (found,) = stops(STEEL, 169.5, 300)
    assert (found.rule, found.severity, found.limit) == ("heat-cold", Severity.ERROR, 170)
    assert "169.5 °C (337 °F)" in found.message
    assert _ruled(stops(STEEL, 180, 300, offset_k=-12)) == ["heat-cold"]


def test_above_the_coating_or_the_sleeve_it_stops() -> None:
    assert _ruled(stops(STEEL, 211, 300)) == ["heat-coating"]
    tender = replace(STEEL, limits=Limits(sleeve_c=200, sleeve_source="its box"))
    (found,) = stops(tender, 201, 300)
    assert found.rule == "heat-sleeve"
    assert "200 °C (392 °F) (its box)" in found.message
    assert stops(replace(tender, hold="tape"), 201, 300) == ()


def test_vacuum_ware_stops_above_its_makers_limit_or_205() -> None:
    assert stops(VACUUM, 205, 300) == ()
    (found,) = stops(VACUUM, 205.5, 300)
    assert (found.rule, found.severity, found.limit) == ("heat-vacuum", Severity.ERROR, 205)
    assert COMMON in found.message
    made = replace(VACUUM, limits=Limits(maker_c=190, maker_source="maker's sheet"))
    assert _ruled(stops(made, 191, 300)) == ["heat-maker"]
    double = replace(STEEL, wall=replace(STEEL.wall, double=True))
    assert _ruled(stops(double, 206, 300)) == ["heat-vacuum"]


def test_an_oven_that_may_be_hotter_than_the_limit_is_told() -> None:
    (found,) = stops(VACUUM, 195, 300, offset_half_k=15)
    assert (found.rule, found.severity) == ("heat-vacuum", Severity.WARNING)
    assert "15 °C (27 °F) more" in found.message
    assert stops(VACUUM, 195, 300, offset_half_k=3) == ()
    (found,) = stops(VACUUM, 200, 300, offset_k=8, offset_half_k=3)
    assert (found.severity, found.figure) == (Severity.ERROR, 208)


@pytest.mark.parametrize(("seconds", "words"), [(0, "0 s"), (36_000, "10 h"), (-60, "-1")])
def test_a_dwell_of_nought_or_ten_hours_stops(seconds: float, words: str) -> None:
    (found,) = stops(CERAMIC, 195, seconds)
    assert (found.rule, found.severity) == ("heat-dwell", Severity.ERROR)
    assert words in found.message or seconds < 0


def test_past_the_over_bake_bound_in_time_it_stops() -> None:
    bound = replace(CERAMIC, limits=Limits(over_bake_s=1080, over_bake_source="own trials"))
    assert stops(bound, 195, 1080) == ()
    (found,) = stops(bound, 195, 1081)
    assert (found.rule, found.limit) == ("heat-long", 1080)
    assert "18 min (own trials)" in found.message


def test_past_the_over_bake_bound_in_dose_it_stops() -> None:
    dose, known = Dose(3, 5, 8), Window(high=(4.0, 4.5), source="accepted trials")
    assert stops(CERAMIC, 195, 900, dose=dose) == ()  # not known yet
    assert _ruled(stops(CERAMIC, 195, 900, dose=dose, window=known)) == ["heat-long"]
    wide = Window(high=(6.0, 7.0), source="accepted trials")
    assert _ruled(stops(CERAMIC, 195, 900, dose=dose, window=wide), Severity.WARNING) == ["heat-long"]
    assert stops(CERAMIC, 195, 900, dose=dose, window=Window(high=(9.0, 9.5))) == ()
    own = replace(CERAMIC, limits=Limits(over_bake=4.0, over_bake_source="own trials"))
    assert _ruled(stops(own, 195, 900, dose=dose, window=Window(high=(9.0, 9.5)))) == ["heat-long"]


def test_every_limit_is_told_with_its_source() -> None:
    for recipe in recipes():
        told = limits_told(recipe)
        assert len(told) == len(upper_bounds(recipe)) + 1
        assert all(source for _, _, source in told)
        assert told[-1][:2] == ("over-bake bound", "not known yet")
    known = replace(STEEL, limits=Limits(over_bake=4.5, over_bake_s=540, over_bake_source="own trials"))
    assert [row[1:] for row in limits_told(known)[-2:]] == [
        ("9 min", "own trials"),
        ("4.5 min at 195 °C (383 °F)", "own trials"),
    ]
