"""The rows of the tray: the designs that are to be printed together. A workshop has one."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.records import TrayKept
from wrapwright.outside.store.schema import TRAYS

if TYPE_CHECKING:
    from sqlalchemy import Connection

ONLY = 1


def tray_kept(connection: Connection) -> TrayKept:
    """Return the tray; revision 0 and an empty document before the first is kept."""
    row = connection.execute(select(TRAYS).where(TRAYS.c.id == ONLY)).first()
    return TrayKept({}, 0) if row is None else TrayKept(row.document, row.revision)


def keep_tray_row(connection: Connection, document: Mapping[str, Any], base: int, now: datetime) -> TrayKept:
    """Return the tray as it is kept now.

    Raises:
        WrapwrightError: refused when `base` is not its revision: another window was quicker.
    """
    kept = tray_kept(connection)
    if base != kept.revision:
        message = f"The tray has been changed in another window meanwhile: it is at revision {kept.revision}."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Load the page again.")
    values = {"document": dict(document), "revision": base + 1, "changed": now}
    if base == 0:
        connection.execute(insert(TRAYS).values(id=ONLY, **values))
    else:
        connection.execute(update(TRAYS).where(TRAYS.c.id == ONLY).values(**values))
    return tray_kept(connection)
