"""What a circuit bears: the rated powers of the heaters on it that run, against its breaker."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.recipe.circuit import limit_w


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
    def limit_w(self) -> float:
        """What it carries."""
        return limit_w(self.volts, self.amps)


def overload(circuit: CircuitLoad, name: str, rated_w: float, running: Sequence[str]) -> WrapwrightError | None:
    """Return why a heater cannot be switched on as well, None where it can.

    Args:
        circuit: with what runs on it already.
        name: of the heater.
        rated_w: its rated power.
        running: names of the heaters that run.
    """
    total = circuit.load_w + rated_w
    if total <= circuit.limit_w:
        return None
    figures = f"{circuit.amps:g} A at {circuit.volts:g} V is {circuit.limit_w:.0f} W"
    if rated_w > circuit.limit_w:
        message = f"{name} is rated {rated_w:.0f} W, and its circuit {circuit.name} carries less: {figures}."
        remedy = "Use another heater. If a figure was entered wrongly, change the heater or the circuit."
    else:
        message = (
            f"{name} ({rated_w:.0f} W) beside {' and '.join(running)} makes {total:.0f} W on {circuit.name}, which"
            f" carries less: {figures}."
        )
        remedy = "Wait until the other has ended, or use a heater on another circuit."
    return WrapwrightError(Kind.REFUSED, message, remedy=remedy, where="heater")
