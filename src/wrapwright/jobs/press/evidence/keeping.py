"""Evidence kept, shown and dropped; what the newest of it tells stands in the heater's figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.heat_words import celsius_words, shift_words, step_words
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.values import LONGEST_NOTE, About, DropEvidence, Known, ShowEvidence

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.jobs.press.kept.heaters import HeaterKept
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow

# Figures that belong together come from one piece of evidence.
_GROUPS = (("offset_k", "offset_half_k"), ("film",), ("own_j_k",))


def show_evidence(request: ShowEvidence, bench: Bench, watch: Watch) -> Known:
    """Return what is known of a heater, and from what.

    Raises:
        WrapwrightError: missing, when there is no such heater.
    """
    del watch
    with bench.kept().reading() as connection:
        return _known(connection, _heater(connection, request.heater_id, request.heater))


def drop_evidence(request: DropEvidence, bench: Bench, watch: Watch) -> Known:
    """Return what is known of a heater without one piece of evidence.

    Raises:
        WrapwrightError: missing, for no such heater or evidence.
    """
    del watch
    from wrapwright.outside.store.rows.press.evidence import drop_evidence_row

    with bench.kept().writing() as connection:
        heater = _heater(connection, request.heater_id or -1, "")
        drop_evidence_row(connection, heater.id, request.evidence)
        return _in_use(connection, heater, bench)


def keep_evidence(
    about: About, kind: str, given: Mapping[str, Any], found: Mapping[str, Any], bench: Bench
) -> tuple[int, Known]:
    """Return the number of a new piece of evidence, and what is known of its heater with it.

    Raises:
        WrapwrightError: missing for no such heater; unusable for a day to come or a note that is too long.
    """
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow, add_evidence_row

    now = bench.clock()
    day, note = _day(about.day, now.astimezone().date()), _note(about.note)
    with bench.kept().writing() as connection:
        heater = _heater(connection, about.heater_id, about.heater)
        number = add_evidence_row(connection, EvidenceRow(0, heater.id, kind, day, given, found, note, now))
        return number, _in_use(connection, heater, bench)


def heater_about(about: About, bench: Bench) -> HeaterKept | None:
    """Return the heater that evidence is about, None where none is named.

    Raises:
        WrapwrightError: missing for no such heater; refused for one to start from, of which nothing can be kept.
    """
    from wrapwright.jobs.press.kept.heaters import ShowHeater, heater_named, show_heater

    if about.heater_id:
        return show_heater(ShowHeater(about.heater_id), bench, Watch())
    if not about.heater.strip():
        return None
    kept = heater_named(about.heater, bench)
    if kept.id == 0 and about.keep:
        message = f"{kept.name} is a heater to start from, not one of the workshop's own; nothing can be kept of it."
        remedy = f'Add yours first: wrapwright press heater add NAME --kind {kept.heater.kind} --power "1500 W"'
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where="heater")
    return kept


def figures_from(evidence: Sequence[EvidenceRow]) -> tuple[dict[str, Any], dict[str, int]]:
    """Return the newest figures of all evidence (newest first), and the number of the evidence each comes from.

    A recipe known to be good only bounds the offset; it stands where nothing was measured.
    """
    figures: dict[str, Any] = {}
    sources: dict[str, int] = {}
    measured = [one for one in evidence if one.kind != "recipe"]
    for row in (*measured, *(one for one in evidence if one.kind == "recipe")):
        told = row.found.get("figures", {})
        for group in _GROUPS:
            if group[0] not in figures and all(name in told for name in group):
                figures |= {name: told[name] for name in group}
                sources |= dict.fromkeys(group, row.id)
    return figures, sources


def _heater(connection: Connection, number: int, name: str) -> HeaterKept:
    from wrapwright.jobs.press.kept.heaters import heater_of

    return heater_of(connection, id=number, name=name)


def _in_use(connection: Connection, heater: HeaterKept, bench: Bench) -> Known:
    """Write the newest figures into the heater."""
    from wrapwright.outside.store.rows.press.evidence import evidence_rows
    from wrapwright.outside.store.rows.press.heaters import put_found_row

    evidence = evidence_rows(connection, heater.id)
    figures, sources = figures_from(evidence)
    found = {**figures, "source": _source(evidence, sources), "sources": sources} if figures else {}
    put_found_row(connection, heater.id, found, bench.clock())
    return _known(connection, _heater(connection, heater.id, ""))


def _known(connection: Connection, heater: HeaterKept) -> Known:
    from wrapwright.outside.store.rows.press.evidence import evidence_rows

    evidence = evidence_rows(connection, heater.id)
    _, sources = figures_from(evidence)
    return Known(heater, evidence, sources, _words(heater, evidence, sources))


def _words(heater: HeaterKept, evidence: Sequence[EvidenceRow], sources: Mapping[str, int]) -> tuple[str, ...]:
    figures = heater.heater
    said = []
    if "offset_k" in sources:
        row = next(one for one in evidence if one.id == sources["offset_k"])
        said.append(
            f"Offset {shift_words(figures.offset_k)}, known to {step_words(figures.offset_half_k)} ({_called(row)}): "
            f"set to {celsius_words(200.0)} it is about {celsius_words(round(200.0 + figures.offset_k))}."
        )
    else:
        said.append(
            f"The offset is not known: {step_words(figures.offset_half_k)} are let in either way, by far the "
            "largest doubt of a dose. Three readings of an oven thermometer make it smaller."
        )
    if "film" in sources:
        row = next(one for one in evidence if one.id == sources["film"])
        film = figures.film
        said.append(f"Film coefficient {film.mid:.0f} W/m²K, {film.low:.0f} to {film.high:.0f} ({_called(row)}).")
    else:
        said.append("The film coefficient is an estimate; a log of a blank's wall in it tells it.")
    return tuple(said)


def _source(evidence: Sequence[EvidenceRow], sources: Mapping[str, int]) -> str:
    used = [one for one in evidence if one.id in set(sources.values())]
    return "; ".join(_called(one) for one in used)


_NAMES = {"log": "log", "readings": "readings", "recipe": "a recipe known to be good", "map": "map"}


def _called(row: EvidenceRow) -> str:
    return f"{_NAMES.get(row.kind, row.kind)} of {row.day.isoformat()}"


def _day(day: date | None, today: date) -> date:
    # A day more: what is today here may be tomorrow where the user is.
    if day is not None and day > today + timedelta(days=1):
        raise unusable(f"{day} is still to come; today is {today}.", remedy="Give the day of measuring.", where="date")
    return day or today


def _note(note: str) -> str:
    plain = " ".join(note.split())
    if len(plain) > LONGEST_NOTE:
        message = f"the note has {len(plain)} characters; the limit is {LONGEST_NOTE}."
        raise unusable(message, remedy="Shorten it.", where="note")
    return plain
