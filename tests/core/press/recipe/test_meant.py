"""What a typed figure can be meant as."""

from __future__ import annotations

import pytest

from wrapwright.core.press.recipe.meant import Choice, Meant, meant_celsius, meant_seconds


def test_what_is_clear_is_read() -> None:
    assert meant_celsius("374-401 F") == Meant(pytest.approx(190), pytest.approx(205), "190–205 °C (374–401 °F)")
    assert meant_seconds("4-7 min") == Meant(240, 420, "4–7 min")
    assert meant_celsius("195 C", single=True).words == "195 °C (383 °F)"
    assert meant_seconds("2 min", single=True).low == 120


@pytest.mark.parametrize(
    ("typed", "choices"),
    [
        ("195", ["195 C"]),
        ("383", ["383 F"]),
        ("383 C", ["383 F"]),
        ("383°C", ["383 F"]),
        ("195 F", ["195 C"]),
        ("190-205", ["190-205 C"]),
        ("374 C to 401 C", ["374 to 401 F"]),
        ("240", ["240 C"]),
        ("900", []),
        ("hot", []),
    ],
)
def test_only_what_can_be_meant_is_offered(typed: str, choices: list[str]) -> None:
    found = meant_celsius(typed)
    assert (found.low, [one.text for one in found.choices]) == (None, choices)
    assert found.question


def test_minutes_or_seconds_are_both_offered() -> None:
    assert meant_seconds("90").choices == (Choice("90 min", "1 h 30 min"), Choice("90 s", "1 min 30 s"))
    assert meant_seconds("soon").choices == ()
    assert meant_celsius("383", single=True).choices == (Choice("383 F", "195 °C (383 °F)"),)
