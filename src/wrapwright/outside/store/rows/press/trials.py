"""The rows of trials: what was planned, what was scored, what was accepted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.schema import TRIALS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


@dataclass(frozen=True)
class TrialRow:
    """A trial as the store holds it.

    Attributes:
        id, name: of the trial.
        recipe: number of the workshop's recipe it is for; 0 for a shipped one or none, whose name is in the plan.
        plan: its kind, heater, wall and coupons.
        scores: by the coupons' numbers, as texts.
        found: the accepted window, empty while none is.
        revision: counted up with every change.
        changed: when it last was.
    """

    id: int
    name: str
    recipe: int
    plan: Mapping[str, Any]
    scores: Mapping[str, Any]
    found: Mapping[str, Any]
    revision: int
    changed: datetime


def trial_rows(connection: Connection) -> tuple[TrialRow, ...]:
    """Return all trials, the last changed first."""
    found = select(TRIALS).order_by(TRIALS.c.changed.desc(), TRIALS.c.id.desc())
    return tuple(_trial(row) for row in connection.execute(found))


def trial_kept(connection: Connection, *, id: int = 0, name: str = "") -> TrialRow:  # noqa: A002
    """Return a trial by number or, when that is 0, by name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    same = TRIALS.c.id == id if id else TRIALS.c.folded == folded(name)
    row = connection.execute(select(TRIALS).where(same)).first()
    if row is None:
        called = f"with the number {id}" if id else f'called "{name}"'
        message = f"There is no trial {called}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the trials to see what there is.")
    return _trial(row)


def add_trial_row(connection: Connection, name: str, recipe: int, plan: Mapping[str, Any], now: datetime) -> int:
    """Write down a new trial; return its number.

    Raises:
        WrapwrightError: refused, when another has the name.
    """
    other = connection.execute(select(TRIALS.c.name).where(TRIALS.c.folded == folded(name))).scalar()
    if other is not None:
        message = f'There is a trial called "{other}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")
    values: dict[str, Any] = {"name": name, "folded": folded(name), "recipe": recipe, "plan": dict(plan)}
    values |= {"scores": {}, "found": {}, "revision": 1, "changed": now}
    made = connection.execute(insert(TRIALS).values(**values)).inserted_primary_key
    return int(made[0]) if made else 0


def change_trial_row(
    connection: Connection, trial: TrialRow, now: datetime, *, seen: int = 0, **values: Mapping[str, Any]
) -> None:  # fmt: skip
    """Put new tables (plan, scores, found) in place of a trial's old ones, and count its revision up.

    Args:
        connection: a writing one.
        trial: as it was read in this transaction.
        now: the time.
        seen: revision that the change was made from; 0 for whichever stands.
        values: tables by their names.

    Raises:
        WrapwrightError: refused, when it was changed since it was seen.
    """
    if seen and seen != trial.revision:
        message = f'"{trial.name}" was changed meanwhile (it is at revision {trial.revision}, yours was {seen}).'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Look at it again, then make the change once more.")
    kept = {name: dict(table) for name, table in values.items()}
    change = update(TRIALS).where(TRIALS.c.id == trial.id)
    connection.execute(change.values(**kept, revision=trial.revision + 1, changed=now))


def remove_trial_row(connection: Connection, trial: TrialRow) -> None:
    """Remove a trial with its scores."""
    connection.execute(delete(TRIALS).where(TRIALS.c.id == trial.id))


def _trial(row: Row[Any]) -> TrialRow:
    return TrialRow(row.id, row.name, row.recipe, row.plan, row.scores, row.found, row.revision, row.changed)
