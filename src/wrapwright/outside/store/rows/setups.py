"""The rows of set-ups."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.records import SetupKept
from wrapwright.outside.store.rows.files import remove_profile_row
from wrapwright.outside.store.schema import SETUPS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


def setup_rows(connection: Connection) -> tuple[SetupKept, ...]:
    """Return all set-ups, by name."""
    return tuple(_setup(row) for row in connection.execute(select(SETUPS).order_by(SETUPS.c.folded)))


def setup_kept(connection: Connection, *, id: int = 0, name: str = "") -> SetupKept:  # noqa: A002
    """Return the set-up with that number, or of that name when the number is 0.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    same = SETUPS.c.id == id if id else SETUPS.c.folded == folded(name)
    row = connection.execute(select(SETUPS).where(same)).first()
    if row is None:
        called = f"with the number {id}" if id else f'called "{name}"'
        message = f"There is no set-up {called}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the set-ups to see what there is.")
    return _setup(row)


def put_setup_row(
    connection: Connection,
    name: str,
    tables: tuple[Mapping[str, Any], Mapping[str, Any]],
    profile: str,
    now: datetime,
    *,
    own: int = 0,
) -> int:
    """Write down a set-up, a new one or (`own`) in the place of one that stands; return its number.

    `tables` are its [sheet] and [colour]; a profile that no set-up has any more is forgotten.

    Raises:
        WrapwrightError: refused, when the name is another's.
    """
    taken = select(SETUPS.c.name).where(SETUPS.c.folded == folded(name), SETUPS.c.id != own)
    other = connection.execute(taken).scalar()
    if other is not None:
        message = f'There is a set-up called "{other}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")
    sheet, colour = tables
    values: dict[str, Any] = {"name": name, "folded": folded(name), "sheet": dict(sheet), "colour": dict(colour)}
    values |= {"profile": profile or None, "added": now}
    if not own:
        made = connection.execute(insert(SETUPS).values(**values)).inserted_primary_key
        return int(made[0]) if made else 0
    before = setup_kept(connection, id=own).profile_sha256
    connection.execute(update(SETUPS).where(SETUPS.c.id == own).values(**values))
    _forget(connection, before)
    return own


def remove_setup_row(connection: Connection, setup: SetupKept) -> None:
    """Remove a set-up; a profile that no set-up has any more is forgotten."""
    connection.execute(delete(SETUPS).where(SETUPS.c.id == setup.id))
    _forget(connection, setup.profile_sha256)


def _forget(connection: Connection, profile: str) -> None:
    still = select(SETUPS.c.id).where(SETUPS.c.profile == profile)
    if profile and connection.execute(still).first() is None:
        remove_profile_row(connection, profile)


def _setup(row: Row[Any]) -> SetupKept:
    return SetupKept(row.id, row.name, row.sheet, row.colour, row.profile or "", row.added)
