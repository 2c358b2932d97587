"""What a circuit bears: the rated powers of the heaters on it that run, against its breaker."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

CONTINUOUS = 0.8  # of the breaker, for loads that run for hours. From memory; local codes come first


@dataclass(frozen=True)
class CircuitLoad:
    """A circuit's load.

    Attributes:
        name: of the circuit.
        volts, amps: of its breaker.
        load_w: rated power of what runs on it.
    """

    name: str
    volts: float
    amps: float
    load_w: float

    @property
    def breaker_w(self) -> float:
        """What the breaker lets through."""
        return self.volts * self.amps

    @property
    def limit_w(self) -> float:
        """What it is used for: CONTINUOUS of the breaker."""
        return CONTINUOUS * self.breaker_w


def overload_words(circuit: CircuitLoad, name: str, rated_w: float, running: Sequence[str]) -> str:
    """Return why a heater cannot be switched on as well, "" where it can.

    Args:
        circuit: with what runs on it already.
        name: of the heater.
        rated_w: its rated power.
        running: names of the heaters that run.
    """
    total = circuit.load_w + rated_w
    if total <= circuit.limit_w:
        return ""
    beside = f" beside {' and '.join(running)}" if running else ""
    return (
        f"{name} ({rated_w:.0f} W){beside} makes {total:.0f} W on {circuit.name}; its breaker of {circuit.amps:g} A at"
        f" {circuit.volts:g} V bears {circuit.breaker_w:.0f} W, of which {circuit.limit_w:.0f} W (80 %) are for loads"
        " that run long."
    )


OVERLOAD_REMEDY = (
    "Wait until the other has ended, or use a heater on another circuit. (80 %: from memory; local codes come first.)"
)
