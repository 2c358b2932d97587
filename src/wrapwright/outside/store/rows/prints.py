"""The rows of printers, and of what was sent to them."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.records import PrinterKept, PrintKept, PrintState
from wrapwright.outside.store.schema import PRINTERS, PRINTS, SETUPS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row

_SHOWN = 200  # rows of a list


def printer_rows(connection: Connection) -> tuple[PrinterKept, ...]:
    """Return the printer or folder of every set-up that has one, by the set-up's name."""
    found = select(PRINTERS, SETUPS.c.name).join(SETUPS).order_by(SETUPS.c.folded)
    return tuple(_printer(row) for row in connection.execute(found))


def printer_of(connection: Connection, setup: int) -> PrinterKept | None:
    """Return the printer or folder of a set-up, None where it has none."""
    found = select(PRINTERS, SETUPS.c.name).join(SETUPS).where(PRINTERS.c.setup == setup)
    row = connection.execute(found).first()
    return None if row is None else _printer(row)


def put_printer_row(connection: Connection, printer: PrinterKept) -> None:
    """Write down where a set-up's sheets go, in place of what stood there; nowhere: the row goes."""
    connection.execute(delete(PRINTERS).where(PRINTERS.c.setup == printer.setup))
    if printer.address or printer.folder:
        values = {key: getattr(printer, key) for key in ("setup", "address", "certificate", "folder", "pattern")}
        connection.execute(insert(PRINTERS).values(**values))


def add_print_row(connection: Connection, sent: PrintKept) -> int:
    """Write down what is about to be sent, before anything is; return its number."""
    values = {key: getattr(sent, key) for key in PRINTS.c.keys() if key != "id"}  # noqa: SIM118 (columns, no dict)
    made = connection.execute(insert(PRINTS).values(**values)).inserted_primary_key
    return int(made[0]) if made else 0


def change_print_row(
    connection: Connection,
    id: int,  # noqa: A002
    state: PrintState,
    words: str,
    *,
    job: int = 0,
    ended: datetime | None = None,
) -> None:
    """Write down how far a print is; a job's number, once there, stays."""
    values: dict[str, Any] = {"state": state, "words": words, "ended": ended} | ({"job": job} if job else {})
    connection.execute(update(PRINTS).where(PRINTS.c.id == id).values(**values))


def print_kept(connection: Connection, id: int) -> PrintKept:  # noqa: A002
    """Return one print.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    row = connection.execute(select(PRINTS).where(PRINTS.c.id == id)).first()
    if row is None:
        message = f"Nothing was printed under the number {id}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the prints to see what there is.")
    return _print(row)


def print_rows(connection: Connection, *, sha256: str = "") -> tuple[PrintKept, ...]:
    """Return what was sent, the newest first and at most 200; with `sha256` only that of one file."""
    found = select(PRINTS).order_by(PRINTS.c.id.desc()).limit(_SHOWN)
    found = found.where(PRINTS.c.sha256 == sha256) if sha256 else found
    return tuple(_print(row) for row in connection.execute(found))


def unsettled_row(connection: Connection, sha256: str, target: str) -> PrintKept | None:
    """Return the newest print of a file there whose end was never heard of, None where there is none."""
    found = select(PRINTS).where(PRINTS.c.sha256 == sha256, PRINTS.c.target == target, PRINTS.c.ended.is_(None))
    row = connection.execute(found.order_by(PRINTS.c.id.desc())).first()
    return None if row is None else _print(row)


def _printer(row: Row[Any]) -> PrinterKept:
    return PrinterKept(row.setup, row.name, row.address, row.certificate, row.folder, row.pattern)


def _print(row: Row[Any]) -> PrintKept:
    return PrintKept(**{key: getattr(row, key) for key in PRINTS.c.keys()})  # noqa: SIM118 (columns, no dict)
