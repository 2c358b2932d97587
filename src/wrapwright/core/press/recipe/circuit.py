"""What a circuit carries against what hangs on it."""

from __future__ import annotations

from collections.abc import Mapping


def limit_w(volts: float, amps: float) -> float:
    """Return what a circuit carries in W: its voltage times what its breaker carries (power factor 1: heaters)."""
    return volts * amps


def load_words(circuit: str, powers_w: Mapping[str, float], limit: float) -> str:
    """Return what there is to say of the rated powers (W, by heater) on a circuit; "" when all may be on at once."""
    load = sum(powers_w.values())
    if load <= limit:
        return ""
    alone = [name for name, power in powers_w.items() if power > limit]
    if alone:
        are = "is" if len(alone) == 1 else "are each"
        return f"{' and '.join(alone)} {are} rated above what {circuit} carries, {limit:.0f} W: not on this circuit."
    return (
        f"Together {' and '.join(powers_w)} are rated {load:.0f} W, {load - limit:.0f} W above what {circuit} carries "
        f"({limit:.0f} W): never all at once."
    )
