"""Circuits: what their breakers carry, and what hangs on them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from sqlalchemy import Connection

_VOLTS = (12.0, 480.0)
_AMPS = (1.0, 400.0)


@dataclass(frozen=True)
class ListCircuits:
    """All circuits."""


@dataclass(frozen=True)
class KeepCircuit:
    """A circuit, a new one or (`id`) changed: its voltage, and what its breaker carries in amperes."""

    name: str
    volts: float
    amps: float
    id: int = 0


@dataclass(frozen=True)
class RemoveCircuit:
    """Remove a circuit that nothing is on, by its number or (number 0) its name."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class CircuitKept:
    """A circuit with what hangs on it.

    Attributes:
        id, name: of the circuit.
        volts, amps: its voltage and what its breaker carries.
        limit_w: both multiplied.
        heaters: names of the heaters on it.
        rated_w: sum of their rated powers: the load when all of them are on.
        load_w: sum of the rated powers of those that heat now.
        words: what there is to say of that load; "" for nothing.
    """

    id: int
    name: str
    volts: float
    amps: float
    limit_w: float
    heaters: tuple[str, ...] = ()
    rated_w: float = 0.0
    load_w: float = 0.0
    words: str = ""


def list_circuits(request: ListCircuits, bench: Bench, watch: Watch) -> tuple[CircuitKept, ...]:
    """Return all circuits with their load, by name; none where there is no store yet."""
    del request, watch
    if bench.store is None or not bench.store.exists():
        return ()
    with bench.store.reading() as connection:
        return circuits_of(connection)


def circuit_named(name: str, bench: Bench, watch: Watch) -> CircuitKept:
    """Return the circuit of that name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.press.circuits import circuit_kept

    with bench.kept().reading() as connection:
        row = circuit_kept(connection, name=name)
        return next(one for one in circuits_of(connection) if one.id == row.id)


def circuits_of(connection: Connection) -> tuple[CircuitKept, ...]:
    """Return all circuits with their load as one transaction sees them."""
    from wrapwright.core.press.recipe.circuit import limit_w, load_words
    from wrapwright.outside.store.rows.press.circuits import circuit_rows
    from wrapwright.outside.store.rows.press.heaters import heater_rows

    heaters = heater_rows(connection)
    found = []
    for row in circuit_rows(connection):
        on_it = [one for one in heaters if one.circuit == row.id]
        powers = {one.name: float(one.content["given"]["power_w"]) for one in on_it}
        load = sum(powers[one.name] for one in on_it if one.busy)
        limit, rated = limit_w(row.volts, row.amps), sum(powers.values())
        words = load_words(row.name, powers, limit)
        found.append(
            CircuitKept(row.id, row.name, row.volts, row.amps, limit, tuple(powers), rated, load, words),
        )
    return tuple(found)


def keep_circuit(request: KeepCircuit, bench: Bench, watch: Watch) -> CircuitKept:
    """Return the circuit as it is kept.

    Raises:
        WrapwrightError: unusable for figures that cannot be; refused when the name is taken; missing when there is
            none of that number.
    """
    del watch
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.press.circuits import circuit_kept, put_circuit_row

    name = named(request.name, what="circuit")
    raise_all([*_within("volts", request.volts, _VOLTS, "V"), *_within("amps", request.amps, _AMPS, "A")])
    with bench.kept().writing() as connection:
        if request.id:
            circuit_kept(connection, id=request.id)
        made = put_circuit_row(connection, name, request.volts, request.amps, own=request.id)
        return next(one for one in circuits_of(connection) if one.id == made)


def remove_circuit(request: RemoveCircuit, bench: Bench, watch: Watch) -> str:
    """Return the name of the circuit that was removed.

    Raises:
        WrapwrightError: refused, while a heater is on it; missing, when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.press.circuits import circuit_kept, remove_circuit_row

    with bench.kept().writing() as connection:
        row = circuit_kept(connection, id=request.id, name=request.name)
        remove_circuit_row(connection, row)
        return row.name


def _within(key: str, value: float, ends: tuple[float, float], unit: str) -> list[WrapwrightError]:
    low, high = ends
    if low <= value <= high:
        return []
    message = f"{value:g} {unit} is not between {low:g} and {high:g} {unit}."
    return [unusable(message, remedy="Read it off the breaker's label.", where=key)]
