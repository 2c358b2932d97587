"""What became of a heat's pieces."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, cast

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.press.run.faults.ranking import ranked
from wrapwright.core.press.run.faults.values import FAULTS, Fault, Ranked
from wrapwright.core.press.run.starting import refused
from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import GOOD, Event
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.run.evidence import evidence_of
from wrapwright.jobs.press.run.happening import key_of, settle
from wrapwright.jobs.press.run.keeping import planned
from wrapwright.jobs.press.run.live.moments import moment
from wrapwright.jobs.press.run.showing import piece_of
from wrapwright.jobs.press.run.telling import told
from wrapwright.jobs.press.run.values import HeatTold, TellLook

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.outside.store.rows.press.heats import HeatKept, PieceHeated

LONGEST_NOTE = 500
RESULTS = (GOOD, *FAULTS)


def tell_look(request: TellLook, bench: Bench, watch: Watch) -> HeatTold:
    """Return the heat with what became of a piece; once all have been looked at it has ended. A look can be mended.

    Raises:
        WrapwrightError: missing for no such heat or place; refused while the piece is in the heater or cooling;
            unusable for a result that there is not, or too long a note.
    """
    del watch
    from wrapwright.outside.store.rows.press.heats import PieceHeated, heat_kept, put_look_row

    result, note = _result(request.result), _note(request.note)
    with bench.kept().writing() as connection:
        kept = heat_kept(connection, request.id)
        now, words = moment(connection, bench)
        state = state_of(planned(kept).plan, kept.events, now.at)
        if state.out is None:
            raise refused(f"Heat {kept.id} has nothing to be looked at yet.", "Take the pieces out first.")
        before = next((one for one in kept.pieces if one.place == request.place), PieceHeated(request.place))
        piece = before.piece if request.piece is None else piece_of(request.piece)
        look = PieceHeated(request.place, piece, result, note, now.at)
        put_look_row(connection, kept.id, look)
        _causes(connection, kept, look, bench)
        kept = heat_kept(connection, kept.id)
        if state.phase != "ended" and all(one.result for one in kept.pieces):
            _end(connection, kept, bench)
        return told(heat_kept(connection, kept.id), now.at, bench, (words,) if words else ())


def _end(connection: Connection, kept: HeatKept, bench: Bench) -> None:
    from wrapwright.outside.store.rows.press.heats import add_event_row

    stamp, _ = moment(connection, bench)
    add_event_row(connection, kept.id, Event(kept.events[-1].number + 1, "ended", stamp, key_of("")))
    settle(connection, kept.id, bench)


def _causes(connection: Connection, kept: HeatKept, look: PieceHeated, bench: Bench) -> None:
    """Keep the likely causes of a fault with the heat, as its evidence stands now."""
    from wrapwright.outside.store.rows.press.heats import change_heat_found

    found: tuple[Ranked, ...] = () if look.result in ("", GOOD) else _ranked(connection, kept, look, bench)
    causes = {**kept.found.get("causes", {}), str(look.place): [_row(one) for one in found]}
    change_heat_found(connection, kept.id, {**kept.found, "causes": causes})


def _ranked(connection: Connection, kept: HeatKept, look: PieceHeated, bench: Bench) -> tuple[Ranked, ...]:
    return ranked(cast("Fault", look.result), evidence_of(connection, kept, look, bench))


def _row(one: Ranked) -> dict[str, object]:
    return {**asdict(one), "because": list(one.because)}


def _result(given: str) -> str:
    plain = "-".join(given.lower().split())
    if plain in RESULTS:
        return plain
    raise _unknown(given)


def _unknown(given: str) -> WrapwrightError:
    near = nearest(given, RESULTS)
    meant = f'Is "{near}" meant? ' if near else ""
    message = f'"{given[:60]}" is no result of a piece.'
    return unusable(message, remedy=f"{meant}There are {', '.join(RESULTS)}.", where="result")


def _note(given: str) -> str:
    plain = " ".join(given.split())
    if len(plain) > LONGEST_NOTE:
        message = f"The note has {len(plain)} characters; the limit is {LONGEST_NOTE}."
        raise unusable(message, remedy="Shorten it.", where="note")
    return plain
