"""The rows of evidence: what was given, what was found in it, and when."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.schema import EVIDENCE

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row

Table = Mapping[str, Any]


@dataclass(frozen=True)
class EvidenceRow:
    """One piece of evidence about a heater.

    Attributes:
        id: its number.
        heater: number of the heater.
        kind: log, readings, recipe or map.
        day: when it was gathered.
        given: what was put in.
        found: what it says: `figures` that go into the heater, `estimates`, `untold`, `words`.
        note: the user's own words.
        added: when it was written down.
    """

    id: int
    heater: int
    kind: str
    day: date
    given: Table
    found: Table
    note: str
    added: datetime


def evidence_rows(connection: Connection, heater: int) -> tuple[EvidenceRow, ...]:
    """Return the evidence about a heater: the newest day first, of one day the last kept first."""
    asked = select(EVIDENCE).where(EVIDENCE.c.heater == heater).order_by(EVIDENCE.c.day.desc(), EVIDENCE.c.id.desc())
    return tuple(_evidence(row) for row in connection.execute(asked))


def evidence_kept(connection: Connection, heater: int, id: int) -> EvidenceRow:  # noqa: A002
    """Return one piece of evidence about a heater.

    Raises:
        WrapwrightError: missing, when the heater has none of that number.
    """
    asked = select(EVIDENCE).where(EVIDENCE.c.id == id, EVIDENCE.c.heater == heater)
    row = connection.execute(asked).first()
    if row is None:
        raise _none(id)
    return _evidence(row)


def add_evidence_row(connection: Connection, row: EvidenceRow) -> int:
    """Write down a piece of evidence; return its number."""
    values = {
        "heater": row.heater,
        "kind": row.kind,
        "day": row.day.isoformat(),
        "given": dict(row.given),
        "found": dict(row.found),
        "note": row.note,
        "added": row.added,
    }
    made = connection.execute(insert(EVIDENCE).values(**values)).inserted_primary_key
    return int(made[0]) if made else 0


def drop_evidence_row(connection: Connection, heater: int, id: int) -> None:  # noqa: A002
    """Remove a piece of evidence.

    Raises:
        WrapwrightError: missing, when the heater has none of that number.
    """
    if not connection.execute(delete(EVIDENCE).where(EVIDENCE.c.id == id, EVIDENCE.c.heater == heater)).rowcount:
        raise _none(id)


def _none(id: int) -> WrapwrightError:  # noqa: A002
    message = f"This heater has no evidence with the number {id}."
    return WrapwrightError(Kind.MISSING, message, remedy="Look at its evidence again.")


def _evidence(row: Row[Any]) -> EvidenceRow:
    return EvidenceRow(
        row.id, row.heater, row.kind, date.fromisoformat(row.day), row.given, row.found, row.note, row.added
    )
