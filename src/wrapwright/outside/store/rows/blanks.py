"""The rows of the shelf: blanks and the versions of their readings."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.records import BlankKept
from wrapwright.outside.store.schema import BLANK_VERSIONS, BLANKS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row, Select

Plain = Mapping[str, Any]


def newest_blanks(connection: Connection) -> tuple[BlankKept, ...]:
    """Return the newest version of every blank, by name."""
    asked = _versions().where(BLANK_VERSIONS.c.version == BLANKS.c.newest).order_by(BLANKS.c.folded)
    return tuple(_blank(row) for row in connection.execute(asked))


def blank_kept(connection: Connection, *, id: int = 0, name: str = "", version: int = 0) -> BlankKept:  # noqa: A002
    """Return one version (0 = the newest) of the blank with that number, or of that name when the number is 0.

    Raises:
        WrapwrightError: missing, when there is no such blank or version.
    """
    same = BLANKS.c.id == id if id else BLANKS.c.folded == folded(name)
    wanted = BLANK_VERSIONS.c.version == (version or BLANKS.c.newest)
    row = connection.execute(_versions().where(same, wanted)).first()
    if row is None:
        called = f'called "{name}"' if not id else f"with the number {id}"
        what = f"version {version} of a blank {called}" if version else f"blank {called}"
        raise WrapwrightError(Kind.MISSING, f"The shelf has no {what}.", remedy="List the blanks to see what there is.")
    return _blank(row)


def add_blank_row(connection: Connection, name: str, readings: Plain, wrap: Plain, now: datetime) -> int:
    """Return the number of the new blank.

    Raises:
        WrapwrightError: refused, when the name is taken.
    """
    _free(connection, name, 0)
    values = {"name": name, "folded": folded(name), "newest": 1}
    made = connection.execute(insert(BLANKS).values(**values)).inserted_primary_key
    blank = int(made[0]) if made else 0
    first = {"blank": blank, "version": 1, "readings": dict(readings), "wrap": dict(wrap), "added": now}
    connection.execute(insert(BLANK_VERSIONS).values(**first))
    return blank


def change_blank_row(
    connection: Connection, old: BlankKept, name: str, readings: Plain, wrap: Plain, now: datetime
) -> None:
    """Add a version to a blank, and give it a name.

    Raises:
        WrapwrightError: refused, when another blank has the name.
    """
    _free(connection, name, old.id)
    version = old.newest + 1
    if (dict(old.table), dict(old.wrap)) == (dict(readings), dict(wrap)):
        version = old.newest  # a new name alone is no new version
    else:
        values = {"blank": old.id, "version": version, "readings": dict(readings), "wrap": dict(wrap), "added": now}
        connection.execute(insert(BLANK_VERSIONS).values(**values))
    changed = update(BLANKS).where(BLANKS.c.id == old.id).values(name=name, folded=folded(name), newest=version)
    connection.execute(changed)


def remove_blank_row(connection: Connection, blank: int) -> None:
    """Remove a blank with all its versions."""
    connection.execute(delete(BLANKS).where(BLANKS.c.id == blank))


def _free(connection: Connection, name: str, own: int) -> None:
    taken = select(BLANKS.c.name).where(BLANKS.c.folded == folded(name), BLANKS.c.id != own)
    other = connection.execute(taken).scalar()
    if other is not None:
        message = f'The shelf has a blank called "{other}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")


def _versions() -> Select[Any]:
    return select(BLANKS, BLANK_VERSIONS).join(BLANK_VERSIONS, BLANK_VERSIONS.c.blank == BLANKS.c.id)


def _blank(row: Row[Any]) -> BlankKept:
    return BlankKept(row.id, row.name, row.version, row.newest, row.readings, row.wrap, row.added)
