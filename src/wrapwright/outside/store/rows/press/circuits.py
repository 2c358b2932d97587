"""The rows of circuits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.rows.press.values import CircuitRow
from wrapwright.outside.store.schema import CIRCUITS, HEATERS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


def circuit_rows(connection: Connection) -> tuple[CircuitRow, ...]:
    """Return all circuits, by name."""
    return tuple(_circuit(row) for row in connection.execute(select(CIRCUITS).order_by(CIRCUITS.c.folded)))


def circuit_kept(connection: Connection, *, id: int = 0, name: str = "") -> CircuitRow:  # noqa: A002
    """Return a circuit by number or, when that is 0, by name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    same = CIRCUITS.c.id == id if id else CIRCUITS.c.folded == folded(name)
    row = connection.execute(select(CIRCUITS).where(same)).first()
    if row is None:
        called = f"with the number {id}" if id else f'called "{name}"'
        message = f"There is no circuit {called}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the circuits to see what there is.")
    return _circuit(row)


def put_circuit_row(connection: Connection, name: str, volts: float, amps: float, *, own: int = 0) -> int:
    """Write down a circuit, a new one or (`own`) in the place of one that stands; return its number.

    Raises:
        WrapwrightError: refused, when another circuit has the name.
    """
    taken = select(CIRCUITS.c.name).where(CIRCUITS.c.folded == folded(name), CIRCUITS.c.id != own)
    other = connection.execute(taken).scalar()
    if other is not None:
        message = f'There is a circuit called "{other}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")
    values: dict[str, Any] = {"name": name, "folded": folded(name), "volts": volts, "amps": amps}
    if own:
        connection.execute(update(CIRCUITS).where(CIRCUITS.c.id == own).values(**values))
        return own
    made = connection.execute(insert(CIRCUITS).values(**values)).inserted_primary_key
    return int(made[0]) if made else 0


def remove_circuit_row(connection: Connection, circuit: CircuitRow) -> None:
    """Remove a circuit.

    Raises:
        WrapwrightError: refused, while a heater hangs on it.
    """
    on_it = select(HEATERS.c.name).where(HEATERS.c.circuit == circuit.id, HEATERS.c.retired == 0)
    names = [str(row.name) for row in connection.execute(on_it.order_by(HEATERS.c.folded))]
    if names:
        message = f"{', '.join(names)} {'is' if len(names) == 1 else 'are'} on the circuit {circuit.name}."
        them = "it" if len(names) == 1 else "them"
        raise WrapwrightError(Kind.REFUSED, message, remedy=f"Put {them} on another circuit first.")
    connection.execute(delete(CIRCUITS).where(CIRCUITS.c.id == circuit.id))


def _circuit(row: Row[Any]) -> CircuitRow:
    return CircuitRow(row.id, row.name, row.volts, row.amps)
