"""What a circuit bears."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import Kind
from wrapwright.core.press.run.circuit import CircuitLoad, overload


@pytest.mark.parametrize(
    ("running", "more", "fits"), [(0, 1800, True), (0, 1801, False), (1000, 800, True), (1000, 801, False)]
)
def test_rated_powers_add_up(running: float, more: float, fits: bool) -> None:
    """15 A at 120 V is 1800 W: a heating element is a resistance, its power voltage times current (Joule's law)."""
    wrong = overload(CircuitLoad("Bench left", 120.0, 15.0, running), "Oven", more, ["Press"] if running else [])
    assert (wrong is None) == fits


def test_the_sentence_names_who_runs_and_every_figure() -> None:
    wrong = overload(CircuitLoad("Bench left", 120.0, 15.0, 1500.0), "Mug press", 350.0, ["Small oven"])
    assert wrong is not None
    assert wrong.kind is Kind.REFUSED
    assert wrong.message == (
        "Mug press (350 W) beside Small oven makes 1850 W on Bench left, which carries less: 15 A at 120 V is 1800 W."
    )
    assert "Wait until the other has ended" in wrong.remedy


def test_a_heater_too_strong_by_itself_is_not_told_to_wait() -> None:
    wrong = overload(CircuitLoad("Bench left", 120.0, 10.0, 0.0), "Big oven", 1700.0, [])
    assert wrong is not None
    assert wrong.message == (
        "Big oven is rated 1700 W, and its circuit Bench left carries less: 10 A at 120 V is 1200 W."
    )
    assert "Wait" not in wrong.remedy
