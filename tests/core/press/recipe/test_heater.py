"""A heater's figures: found before entered, entered before estimated."""

from __future__ import annotations

from typing import Any

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.press.recipe.heater import KINDS, heater_from, read_heater, starter_of, starters
from wrapwright.core.press.values import UNCALIBRATED_K, Range

OVEN = {"kind": "oven", "power_w": 1500, "capacity": 4}


def test_there_is_one_to_start_from_of_every_kind() -> None:
    assert {one.kind for one in starters()} == set(KINDS)
    # Baik and others, J. Food Sci. 64(4) 688: 20 to 48 W/m2K at 186-225 C.
    assert (starter_of("oven").film.low, starter_of("oven").film.high) == (20, 48)
    assert starter_of("oven").offset_half_k == UNCALIBRATED_K == 15


def test_what_is_entered_goes_before_an_estimate_and_what_is_found_before_both() -> None:
    kind, given = read_heater({**OVEN, "power_w": 1800, "band_k": 8})
    assert given == {"power_w": 1800.0, "band_k": 8.0, "capacity": 4}
    entered = heater_from("Left", kind, given, {})
    assert (entered.name, entered.power_w, entered.band_k, entered.capacity) == ("Left", 1800, 8, 4)
    assert entered.own_j_k == starter_of("oven").own_j_k
    assert entered.source.startswith("entered; the rest ")
    found = {"offset_k": -9.5, "offset_half_k": 2.0, "own_j_k": 4200, "film": [27, 31, 35], "map": {"top": 3}}
    calibrated = heater_from("Left", kind, given, found)
    assert (calibrated.offset_k, calibrated.offset_half_k, calibrated.own_j_k) == (-9.5, 2.0, 4200)
    assert (calibrated.film, calibrated.band_k) == (Range(27, 31, 35), 8)
    assert "calibrated" in calibrated.source


REFUSED: list[tuple[dict[str, Any], str, str]] = [
    ({"power_w": 0}, "power_w", "0 W cannot be"),
    ({"power_w": -1500}, "power_w", "-1500 W cannot be"),
    ({"power_w": None}, "power_w", "missing"),
    ({"power_w": "much"}, "power_w", "no number"),
    ({"power_w": 10**400}, "power_w", "no number"),
    ({"power_w": float("nan")}, "power_w", "no number"),
    ({"capacity": 0}, "capacity", "0 pieces"),
    ({"capacity": 1.5}, "capacity", "1.5 pieces"),
    ({"kind": "ovem"}, "kind", 'Is "oven" meant?'),
    ({"mass": 3}, "mass", "no part of a heater"),
    ({"own_j_k": -3}, "own_j_k", "cannot be"),
    ({"film": [48, 30, 20]}, "film", "low over used to high"),
    ({"film": [0, 30, 48]}, "film", "1 to 5000"),
]


@pytest.mark.parametrize(("change", "where", "said"), REFUSED)
def test_figures_that_cannot_be(change: dict[str, Any], where: str, said: str) -> None:
    with pytest.raises(WrapwrightError) as found:
        read_heater({**OVEN, **change})
    assert found.value.where == where
    assert said in f"{found.value.message} {found.value.remedy}"


def test_everything_wrong_is_told_together() -> None:
    with pytest.raises(SeveralProblemsError) as found:
        read_heater({"kind": "kiln", "power_w": -1, "capacity": 0})
    assert [one.where for one in found.value.problems] == ["kind", "power_w", "capacity"]
