"""The rows of heats: their plans, their events, their pieces, and which heater one has for itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any, Literal

from sqlalchemy import Text, cast, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.run.values import Event, Stamp
from wrapwright.outside.store.schema import HEAT_EVENTS, HEAT_PIECES, HEATERS, HEATS, MADE

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row

HeatRunState = Literal["running", "looking", "ended"]
SHOWN = 200  # rows of a list


@dataclass(frozen=True)
class PieceHeated:
    """A piece in a heat: its place from 1, its number as scanned or typed, its result ("", good or a fault)."""

    place: int
    piece: str = ""
    result: str = ""
    note: str = ""
    looked: datetime | None = None


@dataclass(frozen=True)
class HeatKept:
    """A heat.

    Attributes:
        id: of the heat.
        heater: its heater's number, 0 when that has been removed since.
        recipe, recipe_version: what it was heated by; 0 for a shipped one.
        state: running: it has its heater for itself; looking: taken out; ended.
        revision: grows by one with everything that is written to it.
        plan: what was planned.
        started, ended: times; ended None while it runs.
        found: what happened, once it has ended.
        events: what happened, in order.
        pieces: what is in it, by place.
    """

    id: int
    heater: int
    recipe: int
    recipe_version: int
    state: HeatRunState
    revision: int
    plan: Mapping[str, Any]
    started: datetime
    ended: datetime | None
    found: Mapping[str, Any]
    events: tuple[Event, ...] = ()
    pieces: tuple[PieceHeated, ...] = field(default=())


def heat_kept(connection: Connection, heat: int) -> HeatKept:
    """Return one heat with its events and pieces.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    row = connection.execute(select(HEATS).where(HEATS.c.id == heat)).first()
    if row is None:
        raise WrapwrightError(
            Kind.MISSING, f"There is no heat {heat}.", remedy="List the heats: wrapwright press heats list."
        )
    return _whole(connection, [row])[0]


def heat_rows(
    connection: Connection, *, heater: int = 0, piece: str = "", open_only: bool = False, most: int = SHOWN
) -> tuple[HeatKept, ...]:
    """Return heats, the newest first: of one heater, with one piece, or those that have not ended."""
    asked = select(HEATS).order_by(HEATS.c.id.desc()).limit(most)
    if heater:
        asked = asked.where(HEATS.c.heater == heater)
    if piece:
        held = select(HEAT_PIECES.c.heat).where(HEAT_PIECES.c.piece == piece)
        asked = asked.where(HEATS.c.id.in_(held))
    if open_only:
        asked = asked.where(HEATS.c.state != "ended")
    return _whole(connection, list(connection.execute(asked)))


def add_heat_row(
    connection: Connection, heater: int, recipe: tuple[int, int], plan: Mapping[str, Any], first: Event,
    pieces: Sequence[str],
) -> int:  # fmt: skip
    """Return the number of a new heat; its heater has to be taken for it in the same transaction."""
    values = {"heater": heater, "recipe": recipe[0], "recipe_version": recipe[1], "state": "running", "revision": 1}
    values |= {"plan": dict(plan), "started": first.at, "ended": None, "found": {}}
    made = connection.execute(insert(HEATS).values(**values)).inserted_primary_key
    heat = int(made[0]) if made else 0
    _insert_event(connection, heat, first)
    for place, piece in enumerate(pieces, 1):
        row = {"heat": heat, "place": place, "piece": piece, "result": "", "note": "", "looked": None}
        connection.execute(insert(HEAT_PIECES).values(**row))
    return heat


def add_event_row(connection: Connection, heat: int, event: Event) -> None:
    """Write down what happened; the heat's revision grows by one."""
    _insert_event(connection, heat, event)
    touch_heat_row(connection, heat)


def touch_heat_row(connection: Connection, heat: int) -> None:
    """Let the heat's revision grow by one."""
    connection.execute(update(HEATS).where(HEATS.c.id == heat).values(revision=HEATS.c.revision + 1))


def change_heat_state(
    connection: Connection, heat: int, state: HeatRunState, *, ended: datetime | None = None,
    found: Mapping[str, Any] | None = None,
) -> None:  # fmt: skip
    """Write down how far a heat is; unless it runs its heater is free for the next."""
    values: dict[str, Any] = {"state": state, "ended": ended} | ({} if found is None else {"found": dict(found)})
    connection.execute(update(HEATS).where(HEATS.c.id == heat).values(**values))
    if state != "running":
        connection.execute(update(HEATERS).where(HEATERS.c.busy == heat).values(busy=0))


def change_heat_found(connection: Connection, heat: int, found: Mapping[str, Any]) -> None:
    """Write down what was found of a heat, in place of what stood there."""
    connection.execute(update(HEATS).where(HEATS.c.id == heat).values(found=dict(found)))


def put_look_row(connection: Connection, heat: int, look: PieceHeated) -> None:
    """Write down what became of a piece.

    Raises:
        WrapwrightError: missing, when the heat has no such place.
    """
    values = {"piece": look.piece, "result": look.result, "note": look.note, "looked": look.looked}
    where = (HEAT_PIECES.c.heat == heat, HEAT_PIECES.c.place == look.place)
    if not connection.execute(update(HEAT_PIECES).where(*where).values(**values)).rowcount:
        count = len(connection.execute(select(HEAT_PIECES.c.place).where(HEAT_PIECES.c.heat == heat)).all())
        held = "1 piece" if count == 1 else f"{count} pieces"
        message = f"Heat {heat} has {held}, so there is no place {look.place}."
        raise WrapwrightError(Kind.MISSING, message, remedy=f"Give a place from 1 to {count}.")
    touch_heat_row(connection, heat)


def last_stamp(connection: Connection) -> tuple[Stamp, bool] | None:
    """Return the moment of the newest event of all heats that have not ended, and whether any of them still runs."""
    open_heats = select(HEATS.c.id).where(HEATS.c.state != "ended")
    asked = select(HEAT_EVENTS).where(HEAT_EVENTS.c.heat.in_(open_heats)).order_by(HEAT_EVENTS.c.at.desc()).limit(1)
    row = connection.execute(asked).first()
    if row is None:
        return None
    runs = connection.execute(select(HEATS.c.id).where(HEATS.c.state == "running").limit(1)).first()
    return _event(row).stamp, runs is not None


def event_of_key(connection: Connection, key: str, *, heat: int = 0) -> tuple[int, Event] | None:
    """Return the heat and its event with this key; None where it has not come before. 0: of any heat's start."""
    asked = select(HEAT_EVENTS).where(HEAT_EVENTS.c.key == key)
    asked = asked.where(HEAT_EVENTS.c.heat == heat) if heat else asked.where(HEAT_EVENTS.c.number == 1)
    row = connection.execute(asked.order_by(HEAT_EVENTS.c.heat.desc())).first()
    return None if row is None else (row.heat, _event(row))


def making_with_code(connection: Connection, code: str) -> tuple[int, Mapping[str, Any], Mapping[str, Any]] | None:
    """Return the newest making on whose sheets a piece has this code: its number, report and tray; None for none."""
    marked = cast(MADE.c.report, Text).contains(f'"code": "{code}"', autoescape=True)
    asked = select(MADE.c.id, MADE.c.report, MADE.c.tray).where(MADE.c.state == "done", marked)
    row = connection.execute(asked.order_by(MADE.c.id.desc()).limit(1)).first()
    return None if row is None else (row.id, row.report, row.tray)


def making_numbered(connection: Connection, made: int) -> tuple[int, Mapping[str, Any], Mapping[str, Any]] | None:
    """Return a making that is done by its number: the number, report and tray; None for none."""
    asked = select(MADE.c.id, MADE.c.report, MADE.c.tray).where(MADE.c.state == "done", MADE.c.id == made)
    row = connection.execute(asked).first()
    return None if row is None else (row.id, row.report, row.tray)


def looked_results(connection: Connection, heater: int, *, but: int, most: int = 20) -> tuple[str, ...]:
    """Return the results of the pieces of a heater that were looked at last, those of one heat left out."""
    asked = (
        select(HEAT_PIECES.c.result)
        .join(HEATS, HEATS.c.id == HEAT_PIECES.c.heat)
        .where(HEATS.c.heater == heater, HEATS.c.id != but, HEAT_PIECES.c.result != "")
        .order_by(HEAT_PIECES.c.looked.desc())
        .limit(most)
    )
    return tuple(str(row.result) for row in connection.execute(asked))


def _insert_event(connection: Connection, heat: int, event: Event) -> None:
    content = {"boot": event.stamp.boot, "ticks": event.stamp.ticks}
    content |= {key: value for key in ("seconds", "celsius") if (value := getattr(event, key)) is not None}
    row = {"heat": heat, "number": event.number, "kind": event.kind, "key": event.key, "at": event.at}
    connection.execute(insert(HEAT_EVENTS).values(**row, content=content))


def _event(row: Row[Any]) -> Event:
    content = row.content
    stamp = Stamp(row.at, str(content.get("boot", "")), float(content.get("ticks", 0.0)))
    return Event(row.number, row.kind, stamp, row.key, content.get("seconds"), content.get("celsius"))


def _whole(connection: Connection, rows: Sequence[Row[Any]]) -> tuple[HeatKept, ...]:
    """Return heats with their events and pieces, read at once."""
    numbers = [row.id for row in rows]
    events: dict[int, list[Event]] = {number: [] for number in numbers}
    pieces: dict[int, list[PieceHeated]] = {number: [] for number in numbers}
    asked = select(HEAT_EVENTS).where(HEAT_EVENTS.c.heat.in_(numbers)).order_by(HEAT_EVENTS.c.number)
    for row in connection.execute(asked):
        events[row.heat].append(_event(row))
    held = select(HEAT_PIECES).where(HEAT_PIECES.c.heat.in_(numbers)).order_by(HEAT_PIECES.c.place)
    for row in connection.execute(held):
        pieces[row.heat].append(PieceHeated(row.place, row.piece, row.result, row.note, row.looked))
    return tuple(_heat(row, tuple(events[row.id]), tuple(pieces[row.id])) for row in rows)


def _heat(row: Row[Any], events: tuple[Event, ...], pieces: tuple[PieceHeated, ...]) -> HeatKept:
    return HeatKept(
        id=row.id,
        heater=row.heater or 0,
        recipe=row.recipe,
        recipe_version=row.recipe_version,
        state=row.state,
        revision=row.revision,
        plan=row.plan,
        started=row.started,
        ended=row.ended,
        found=row.found,
        events=events,
        pieces=pieces,
    )
