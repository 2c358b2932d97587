"""The rows of heaters."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, exists, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.rows.press.values import HeaterRow, Table
from wrapwright.outside.store.schema import EVIDENCE, HEATERS, HEATS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


def heater_rows(connection: Connection, *, retired: bool = False) -> tuple[HeaterRow, ...]:
    """Return all heaters, by name; those retired only when they are asked for."""
    asked = select(HEATERS).order_by(HEATERS.c.folded)
    asked = asked if retired else asked.where(HEATERS.c.retired == 0)
    return tuple(_heater(row) for row in connection.execute(asked))


def heater_kept(connection: Connection, *, id: int = 0, name: str = "") -> HeaterRow:  # noqa: A002
    """Return a heater by number or, when that is 0, by name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    same = HEATERS.c.id == id if id else HEATERS.c.folded == folded(name)
    row = connection.execute(select(HEATERS).where(same)).first()
    if row is None:
        called = f"with the number {id}" if id else f'called "{name}"'
        message = f"There is no heater {called}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the heaters to see what there is.")
    return _heater(row)


def put_heater_row(
    connection: Connection,
    name: str,
    kind: str,
    given: Table,
    circuit: int,
    now: datetime,
    *,
    own: int = 0,
) -> int:
    """Write down a heater, a new one or (`own`) in the place of one that stands; return its number.

    What calibrating found stays with it, unless its kind becomes another.

    Raises:
        WrapwrightError: refused, when another heater has the name, or while it heats.
    """
    _free(connection, name, own)
    values: dict[str, Any] = {"name": name, "folded": folded(name), "kind": kind}
    values |= {"circuit": circuit or None, "changed": now}
    if not own:
        first = {**values, "content": {"given": dict(given), "found": {}}, "busy": 0, "retired": 0}
        made = connection.execute(insert(HEATERS).values(**first)).inserted_primary_key
        return int(made[0]) if made else 0
    before = heater_kept(connection, id=own)
    _idle(before)
    found = before.content.get("found", {}) if before.kind == kind else {}
    content = {"given": dict(given), "found": found}
    connection.execute(update(HEATERS).where(HEATERS.c.id == own).values(**values, content=content))
    return own


def put_found_row(connection: Connection, id: int, found: Mapping[str, Any], now: datetime) -> None:  # noqa: A002
    """Put what calibrating found in place of what it had found before.

    Raises:
        WrapwrightError: missing, when there is no such heater.
    """
    before = heater_kept(connection, id=id or -1)
    content = {**before.content, "found": dict(found)}
    connection.execute(update(HEATERS).where(HEATERS.c.id == id).values(content=content, changed=now))


def take_heater_row(connection: Connection, id: int, heat: int) -> None:  # noqa: A002
    """Mark a heater as heating; the check and the mark are one statement, so that of two stations one has it.

    Raises:
        WrapwrightError: refused, when something is heated in it or it is retired; missing, when there is none.
    """
    idle = (HEATERS.c.id == id) & (HEATERS.c.busy == 0) & (HEATERS.c.retired == 0)
    if connection.execute(update(HEATERS).where(idle).values(busy=heat)).rowcount:
        return
    kept = heater_kept(connection, id=id or -1)
    if kept.retired:
        raise WrapwrightError(Kind.REFUSED, f"{kept.name} is retired.", remedy="Restore it, or take another heater.")
    _idle(kept)


def free_heater_row(connection: Connection, id: int, heat: int) -> None:  # noqa: A002
    """Mark a heater as idle, if it is that heat that held it."""
    held = (HEATERS.c.id == id) & (HEATERS.c.busy == heat)
    connection.execute(update(HEATERS).where(held).values(busy=0))


def retire_heater_row(connection: Connection, id: int) -> bool:  # noqa: A002
    """Take a heater out of what is offered; return True when it was removed whole, since nothing ever used it.

    Raises:
        WrapwrightError: refused, while it heats.
    """
    _idle(heater_kept(connection, id=id or -1))
    heated = select(HEATS.c.id).where(HEATS.c.heater == id)
    known = select(EVIDENCE.c.id).where(EVIDENCE.c.heater == id)
    if any(connection.execute(select(exists(one))).scalar() for one in (heated, known)):
        connection.execute(update(HEATERS).where(HEATERS.c.id == id).values(retired=1))
        return False
    connection.execute(delete(HEATERS).where(HEATERS.c.id == id))
    return True


def restore_heater_row(connection: Connection, id: int) -> None:  # noqa: A002
    """Offer a retired heater again."""
    connection.execute(update(HEATERS).where(HEATERS.c.id == id).values(retired=0))


def _idle(heater: HeaterRow) -> None:
    if heater.busy:
        message = f"{heater.name} is heating (heat {heater.busy}); nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Wait until that heat has ended, or end it first.")


def _free(connection: Connection, name: str, own: int) -> None:
    taken = select(HEATERS.c.name, HEATERS.c.retired).where(HEATERS.c.folded == folded(name), HEATERS.c.id != own)
    other = connection.execute(taken).first()
    if other is not None:
        state = "a retired heater" if other.retired else "a heater"
        remedy = "Restore that one, or choose another name." if other.retired else "Choose another name."
        message = f'There is {state} called "{other.name}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where="name")


def _heater(row: Row[Any]) -> HeaterRow:
    return HeaterRow(
        row.id, row.name, row.kind, row.content, row.circuit or 0, row.busy, bool(row.retired), row.changed
    )
