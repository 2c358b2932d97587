"""What a circuit bears."""

from __future__ import annotations

import pytest

from wrapwright.core.press.run.circuit import CircuitLoad, overload_words


def test_volts_times_amps_and_the_customary_share() -> None:
    """15 A at 120 V bear 1800 W, of which 1440 W run long (80 %, from memory; local codes first)."""
    circuit = CircuitLoad("Bench left", 120.0, 15.0, 0.0)
    assert (circuit.breaker_w, circuit.limit_w) == (1800.0, pytest.approx(1440.0))


@pytest.mark.parametrize(
    ("running", "more", "fits"), [(0, 1440, True), (0, 1441, False), (1000, 440, True), (1000, 500, False)]
)
def test_rated_powers_add_up(running: float, more: float, fits: bool) -> None:
    words = overload_words(CircuitLoad("Bench left", 120.0, 15.0, running), "Oven", more, ["Press"] if running else [])
    assert (words == "") == fits


def test_the_sentence_names_who_runs_and_every_figure() -> None:
    words = overload_words(CircuitLoad("Bench left", 120.0, 15.0, 1400.0), "Mug press", 350.0, ["Small oven"])
    assert words == (
        "Mug press (350 W) beside Small oven makes 1750 W on Bench left; its breaker of 15 A at 120 V bears 1800 W, of"
        " which 1440 W (80 %) are for loads that run long."
    )
