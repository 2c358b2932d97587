"""The rows of lists of names: a design's table and mapping, what was decided about its rows, who signed it off."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.values import Decision
from wrapwright.outside.store.records import ListKept
from wrapwright.outside.store.schema import LIST_DECISIONS, LIST_SIGNED, LISTS

if TYPE_CHECKING:
    from sqlalchemy import Connection

_AT_ONCE = 500  # rows named in one statement; SQLite takes 999 values at least


def list_row(connection: Connection, design: int) -> ListKept | None:
    """Return a design's list, or None."""
    row = connection.execute(select(LISTS).where(LISTS.c.design == design)).first()
    if row is None:
        return None
    return ListKept(row.design, row.name, row.sha256, row.mapping, row.revision, row.decided)


def list_kept(connection: Connection, design: int) -> ListKept:
    """Return a design's list.

    Raises:
        WrapwrightError: missing, when it has none.
    """
    found = list_row(connection, design)
    if found is None:
        message = f"Design {design} has no list of names."
        raise WrapwrightError(Kind.MISSING, message, remedy="Bring a table on its screen of names.")
    return found


def put_list_row(
    connection: Connection, design: int, file: tuple[str, str], mapping: Mapping[str, Any], now: datetime
) -> ListKept:
    """Return the list written down, in the place of an earlier one, whose decisions stay; `file` is (name, SHA-256)."""
    old = list_row(connection, design)
    values = {"name": file[0], "sha256": file[1], "mapping": dict(mapping), "changed": now}
    if old is None:
        connection.execute(insert(LISTS).values(design=design, revision=1, decided=0, **values))
    else:
        same = LISTS.c.design == design
        connection.execute(update(LISTS).where(same).values(revision=old.revision + 1, **values))
    return list_kept(connection, design)


def refuse_stale_list(kept: ListKept, base: int) -> None:
    """Raise, kind refused, when a change does not rest on the newest table and mapping."""
    if kept.revision != base:
        message = f"The list has been changed in another window meanwhile: it is at revision {kept.revision}."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Load the page again.", where="revision")


def remove_list_row(connection: Connection, design: int) -> None:
    """Remove a design's list and all that was decided about it."""
    connection.execute(delete(LISTS).where(LISTS.c.design == design))


def decision_rows(connection: Connection, design: int) -> dict[int, Decision]:
    """Return what was decided about a list's rows, by row number."""
    asked = select(LIST_DECISIONS.c.row, LIST_DECISIONS.c.content).where(LIST_DECISIONS.c.design == design)
    return {row.row: _decision(row.row, row.content) for row in connection.execute(asked.order_by("row"))}


def put_decision_rows(connection: Connection, design: int, decisions: Iterable[Decision], gone: Iterable[int]) -> int:
    """Return the list's new count of decisions, once these stand in the place of those about the same rows.

    Those about the rows in `gone` are removed.
    """
    kept, lost = list(decisions), list(gone)
    numbers = [*(one.row for one in kept), *lost]
    for first in range(0, len(numbers), _AT_ONCE):
        named = LIST_DECISIONS.c.row.in_(numbers[first : first + _AT_ONCE])
        connection.execute(delete(LIST_DECISIONS).where(LIST_DECISIONS.c.design == design, named))
    if kept:
        values = [{"design": design, "row": one.row, "content": _content(one)} for one in kept]
        connection.execute(insert(LIST_DECISIONS), values)
    connection.execute(update(LISTS).where(LISTS.c.design == design).values(decided=LISTS.c.decided + 1))
    return list_kept(connection, design).decided


def signed_row(connection: Connection, design: int) -> str | None:
    """Return the SHA-256 of the file that says who signed a design's list off, None when nobody has."""
    asked = select(LIST_SIGNED.c.sha256).where(LIST_SIGNED.c.design == design)
    found: str | None = connection.execute(asked).scalar()
    return found


def put_signed_row(connection: Connection, design: int, sha256: str, now: datetime) -> None:
    """Write down that a design's list was signed off, in the place of an earlier time."""
    connection.execute(delete(LIST_SIGNED).where(LIST_SIGNED.c.design == design))
    connection.execute(insert(LIST_SIGNED).values(design=design, sha256=sha256, signed=now))


def _content(one: Decision) -> dict[str, Any]:
    return {
        "digest": one.digest,
        "choice": one.choice,
        "cells": dict(sorted(one.cells.items())),
        "accepted": sorted(one.accepted),
    }


def _decision(row: int, content: Mapping[str, Any]) -> Decision:
    accepted = frozenset(content["accepted"])
    return Decision(row, content["digest"], content["choice"], dict(content["cells"]), accepted)
