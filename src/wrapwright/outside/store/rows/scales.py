"""The rows of measured scales."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.scale.entries import Lengths, ScaleEntry
from wrapwright.outside.store.schema import SCALES

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


def scale_rows(connection: Connection, setup: int) -> tuple[ScaleEntry, ...]:
    """Return the measurements of a set-up's scale, the newest day first, of one day the last kept first."""
    found = select(SCALES).where(SCALES.c.setup == setup).order_by(SCALES.c.day.desc(), SCALES.c.id.desc())
    return tuple(_entry(row) for row in connection.execute(found))


def add_scale_row(connection: Connection, setup: int, entry: ScaleEntry, now: datetime) -> int:
    """Write down a measurement of a set-up's scale; return its number."""
    lengths = entry.lengths
    values = {
        "setup": setup,
        "day": entry.day.isoformat(),
        "paper": entry.paper,
        "asked_across": lengths.asked_mm[0],
        "asked_along": lengths.asked_mm[1],
        "measured_across": lengths.measured_mm[0],
        "measured_along": lengths.measured_mm[1],
        "division": lengths.division_mm,
        "note": entry.note,
        "added": now,
    }
    made = connection.execute(insert(SCALES).values(**values)).inserted_primary_key
    return int(made[0]) if made else 0


def remove_scale_row(connection: Connection, setup: int, entry: int) -> None:
    """Remove a measurement.

    Raises:
        WrapwrightError: missing, when the set-up has none of that number.
    """
    gone = connection.execute(delete(SCALES).where(SCALES.c.id == entry, SCALES.c.setup == setup)).rowcount
    if not gone:
        message = f"This set-up has no measurement with the number {entry}."
        raise WrapwrightError(Kind.MISSING, message, remedy="Look at its measurements again.")


def _entry(row: Row[Any]) -> ScaleEntry:
    asked = (row.asked_across, row.asked_along)
    read = (row.measured_across, row.measured_along)
    return ScaleEntry(row.id, date.fromisoformat(row.day), row.paper, Lengths(asked, read, row.division), row.note)
