"""Heaters: the workshop's ovens and presses, with what was entered and what calibrating found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.values import Heater
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.outside.store.rows.press.values import HeaterRow


@dataclass(frozen=True)
class ListHeaters:
    """All heaters; `retired`: those too that are no longer offered."""

    retired: bool = False


@dataclass(frozen=True)
class ShowHeater:
    """One heater, by its number or (number 0) its name."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class KeepHeater:
    """A heater, a new one or (`id`) changed.

    Attributes:
        name: unique, whatever the case of its letters.
        kind: oven, mug-press or flat-press.
        power_w: rated electrical power.
        capacity: pieces that it holds.
        circuit: number of the circuit it is on, 0 for none.
        more: further figures that are known, by the names of `core.press.values.Heater`; the rest are estimates.
        id: of the heater that is changed, 0 for a new one.
    """

    name: str
    kind: str
    power_w: float
    capacity: int = 1
    circuit: int = 0
    more: Mapping[str, Any] = field(default_factory=dict)
    id: int = 0


@dataclass(frozen=True)
class RetireHeater:
    """Take a heater out of what is offered."""

    id: int


@dataclass(frozen=True)
class RestoreHeater:
    """Offer a retired heater again."""

    id: int


@dataclass(frozen=True)
class HeaterKept:
    """A heater and how it stands.

    Attributes:
        id, name: of the heater; 0 for one to start from that is not the workshop's own.
        heater: its figures, with what calibrating found last.
        rated_w: rated electrical power.
        circuit, circuit_name: what it is on; 0 and "" for none.
        busy: the heat that runs in it, 0 for none.
        retired: no longer offered.
        calibrated: whether something was found by calibrating.
        given, found: what was entered and what was found.
        changed: when it last was; None for one to start from.
    """

    id: int
    name: str
    heater: Heater
    rated_w: float
    circuit: int = 0
    circuit_name: str = ""
    busy: int = 0
    retired: bool = False
    calibrated: bool = False
    given: Mapping[str, Any] = field(default_factory=dict)
    found: Mapping[str, Any] = field(default_factory=dict)
    changed: datetime | None = None


def heater_named(name: str, bench: Bench) -> HeaterKept:
    """Return the heater of that name: the workshop's own, or one of those to start from.

    Raises:
        WrapwrightError: missing, with the names there are.
    """
    from wrapwright.outside.store.naming import folded

    known = (*list_heaters(ListHeaters(retired=True), bench, Watch()), *_starters())
    for one in known:
        if folded(one.name) == folded(name):
            return one
    listed = ", ".join(one.name for one in known if not one.retired)
    raise WrapwrightError(Kind.MISSING, f'There is no heater called "{name}".', remedy=f"There are {listed}.")


def list_heaters(request: ListHeaters, bench: Bench, watch: Watch) -> tuple[HeaterKept, ...]:
    """Return the workshop's heaters, by name; none where there is no store yet."""
    del watch
    if bench.store is None or not bench.store.exists():
        return ()
    with bench.store.reading() as connection:
        return heaters_of(connection, retired=request.retired)


def heaters_of(connection: Connection, *, retired: bool = False) -> tuple[HeaterKept, ...]:
    """Return the workshop's heaters as one transaction sees them."""
    from wrapwright.outside.store.rows.press.circuits import circuit_rows
    from wrapwright.outside.store.rows.press.heaters import heater_rows

    circuits = {one.id: one.name for one in circuit_rows(connection)}
    return tuple(_kept(row, circuits) for row in heater_rows(connection, retired=retired))


def show_heater(request: ShowHeater, bench: Bench, watch: Watch) -> HeaterKept:
    """Return one heater.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    with bench.kept().reading() as connection:
        return heater_of(connection, id=request.id, name=request.name)


def heater_of(connection: Connection, *, id: int = 0, name: str = "") -> HeaterKept:  # noqa: A002
    """Return one heater as a transaction sees it, by number or, when that is 0, by name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    from wrapwright.outside.store.rows.press.circuits import circuit_rows
    from wrapwright.outside.store.rows.press.heaters import heater_kept

    circuits = {one.id: one.name for one in circuit_rows(connection)}
    return _kept(heater_kept(connection, id=id, name=name), circuits)


def keep_heater(request: KeepHeater, bench: Bench, watch: Watch) -> HeaterKept:
    """Return the heater as it is kept.

    Raises:
        WrapwrightError: unusable, with all that is wrong with its figures; refused when the name is taken or it is
            heating; missing when there is none of that number, or no such circuit.
    """
    del watch
    from wrapwright.core.press.recipe.heater import read_heater
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.press.circuits import circuit_kept
    from wrapwright.outside.store.rows.press.heaters import put_heater_row

    name = named(request.name, what="heater")
    row = {"kind": request.kind, "power_w": request.power_w, "capacity": request.capacity, **request.more}
    kind, given = read_heater(row)
    with bench.kept().writing() as connection:
        if request.circuit:
            circuit_kept(connection, id=request.circuit)
        made = put_heater_row(connection, name, kind, given, request.circuit, bench.clock(), own=request.id)
        return heater_of(connection, id=made)


def put_found(heater: int, found: Mapping[str, Any], bench: Bench) -> HeaterKept:
    """Return the heater with what calibrating found in place of what it had found before.

    `found` holds figures by the names of `core.press.values.Heater` (film as low, used, high) and whatever else is to
    be kept beside them; empty: as if it had never been calibrated.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    from wrapwright.outside.store.rows.press.heaters import put_found_row

    with bench.kept().writing() as connection:
        put_found_row(connection, heater, found, bench.clock())
        return heater_of(connection, id=heater)


def retire_heater(request: RetireHeater, bench: Bench, watch: Watch) -> tuple[str, bool]:
    """Return the heater's name and whether it was removed whole: only when nothing was ever heated or found in it.

    Raises:
        WrapwrightError: refused, while it heats; missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.press.heaters import heater_kept, retire_heater_row

    with bench.kept().writing() as connection:
        name = heater_kept(connection, id=request.id or -1).name
        return name, retire_heater_row(connection, request.id)


def restore_heater(request: RestoreHeater, bench: Bench, watch: Watch) -> HeaterKept:
    """Return the heater, which is offered again.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.press.heaters import restore_heater_row

    with bench.kept().writing() as connection:
        restore_heater_row(connection, request.id)
        return heater_of(connection, id=request.id or -1)


def _kept(row: HeaterRow, circuits: Mapping[int, str]) -> HeaterKept:
    from wrapwright.core.press.recipe.heater import heater_from

    given, found = row.content.get("given", {}), row.content.get("found", {})
    return HeaterKept(
        row.id,
        row.name,
        heater_from(row.name, row.kind, given, found),
        float(given["power_w"]),
        row.circuit,
        circuits.get(row.circuit, ""),
        row.busy,
        row.retired,
        bool(found),
        given,
        found,
        row.changed,
    )


def _starters() -> tuple[HeaterKept, ...]:
    from wrapwright.core.press.recipe.heater import starters

    return tuple(HeaterKept(0, one.name, replace(one), one.power_w) for one in starters())
