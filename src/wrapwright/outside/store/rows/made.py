"""The rows of what was made: asked for, begun, told of, ended."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.records import DesignKept, FileMade, MadeKept, State
from wrapwright.outside.store.schema import MADE

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row

RUNNING: tuple[State, ...] = ("waiting", "making")


def made_rows(
    connection: Connection, design: int = 0, *, states: Sequence[State] = (), before: int = 0, most: int = 0
) -> tuple[MadeKept, ...]:
    """Return makings, the newest first.

    Args:
        connection: to the store.
        design: only those of this design; 0 for all.
        states: only those in one of these; all when there is none.
        before: only those with a lower number; 0 for all.
        most: no more than so many; 0 for all.
    """
    asked = select(MADE).order_by(MADE.c.id.desc())
    if design:
        asked = asked.where(MADE.c.design == design)
    if states:
        asked = asked.where(MADE.c.state.in_(states))
    if before:
        asked = asked.where(MADE.c.id < before)
    if most:
        asked = asked.limit(most)
    return tuple(_made(row) for row in connection.execute(asked))


def made_kept(connection: Connection, made: int) -> MadeKept:
    """Return one making.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    row = connection.execute(select(MADE).where(MADE.c.id == made)).first()
    if row is None:
        raise WrapwrightError(Kind.MISSING, f"Nothing made has the number {made}.")
    return _made(row)


def add_made_row(
    connection: Connection, design: DesignKept, output: str, accept: Sequence[str], now: datetime
) -> MadeKept:
    """Return a new making of one revision, waiting."""
    what = {"design": design.id, "revision": design.revision, "title": design.title, "output": output}
    return _waiting(connection, what, accept, now)


def add_tray_made_row(
    connection: Connection, title: str, tray: Mapping[str, Any], accept: Sequence[str], now: datetime
) -> MadeKept:
    """Return a new making of designs that are printed together, waiting."""
    what = {"design": None, "revision": 0, "title": title, "output": "pdf", "tray": dict(tray)}
    return _waiting(connection, what, accept, now)


def add_names_made_row(
    connection: Connection, design: DesignKept, names: Mapping[str, Any], accept: Sequence[str], now: datetime
) -> MadeKept:
    """Return a new making of a design's list of names, waiting; `names` says how."""
    what = {"design": design.id, "revision": design.revision, "title": design.title, "output": "pdf"}
    return _waiting(connection, {**what, "names": dict(names)}, accept, now)


def _waiting(connection: Connection, what: Mapping[str, Any], accept: Sequence[str], now: datetime) -> MadeKept:
    values = {**what, "accept": list(accept), "state": "waiting", "words": "", "share": 0.0}
    values |= {"asked": now, "report": {}, "error": {}, "files": []}
    made = connection.execute(insert(MADE).values(**values)).inserted_primary_key
    return made_kept(connection, int(made[0]) if made else 0)


def tell_row(connection: Connection, made: int, state: State, words: str, share: float) -> None:
    """Write down how far a making is."""
    connection.execute(update(MADE).where(MADE.c.id == made).values(state=state, words=words, share=share))


def end_row(
    connection: Connection,
    made: int,
    state: State,
    now: datetime,
    *,
    report: Mapping[str, Any],
    error: Mapping[str, Any],
    files: Sequence[FileMade],
) -> None:
    """Write down how a making has ended and what it left."""
    values = {"state": state, "words": "", "share": 1.0 if state == "done" else 0.0, "ended": now}
    left = {"report": dict(report), "error": dict(error), "files": [asdict(one) for one in files]}
    connection.execute(update(MADE).where(MADE.c.id == made).values(**values, **left))


def remove_made_row(connection: Connection, made: int) -> None:
    """Forget a making."""
    connection.execute(delete(MADE).where(MADE.c.id == made))


def _made(row: Row[Any]) -> MadeKept:
    return MadeKept(
        id=row.id,
        design=row.design or 0,
        revision=row.revision,
        title=row.title,
        output=row.output,
        accept=tuple(row.accept),
        state=row.state,
        words=row.words,
        share=row.share,
        asked=row.asked,
        ended=row.ended,
        report=row.report,
        error=row.error,
        files=tuple(FileMade(**one) for one in row.files),
        tray=row.tray,
        names=row.names,
    )
