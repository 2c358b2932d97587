"""A set-up's scale: what was measured on its targets, kept entry by entry, the newest in use."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import SetupKept

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.core.sheet.scale.entries import ScaleEntry

LONGEST_NOTE = 200


@dataclass(frozen=True)
class ShowScales:
    """The measurements of one set-up, by its number or (number 0) its name."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class KeepScale:
    """A target measured.

    Attributes:
        id, name: of the set-up, as in ShowScales.
        measured_mm: across and along, as the rule read them.
        asked_mm: what the target said; None: the target of the set-up's own paper and margins.
        division_mm: smallest division that was read.
        day: when it was measured; None: today.
        note: the user's own words.
    """

    measured_mm: tuple[float, float]
    id: int = 0
    name: str = ""
    asked_mm: tuple[float, float] | None = None
    division_mm: float = 0.5
    day: date | None = None
    note: str = ""


@dataclass(frozen=True)
class DropScale:
    """Remove one measurement of a set-up; the newest of those that stay is in use."""

    id: int
    entry: int


@dataclass(frozen=True)
class Scales:
    """A set-up and what was measured of its scale.

    Attributes:
        setup: the set-up as it is kept.
        entries: the newest first.
        asked_mm: what its target asks, across and along; None when its paper is too small for one.
        words: a sentence for the newest entry, and what there is to say of drift.
    """

    setup: SetupKept
    entries: tuple[ScaleEntry, ...]
    asked_mm: tuple[float, float] | None
    words: tuple[str, ...]


def show_scales(request: ShowScales, bench: Bench, watch: Watch) -> Scales:
    """Return what was measured of a set-up's scale.

    Raises:
        WrapwrightError: missing, when there is no such set-up.
    """
    del watch
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().reading() as connection:
        return _scales(connection, setup_kept(connection, id=request.id, name=request.name))


def keep_scale(request: KeepScale, bench: Bench, watch: Watch) -> Scales:
    """Return the set-up's measurements with the new one; the set-up prints with the newest from now on.

    Raises:
        WrapwrightError: missing for no such set-up; unusable for lengths more than 3 % off what was asked, a day to
            come, or a note that is too long.
    """
    del watch
    from wrapwright.core.sheet.scale.entries import Lengths, ScaleEntry, measured
    from wrapwright.core.sheet.scale.target import target_on
    from wrapwright.outside.store.rows.scales import add_scale_row
    from wrapwright.outside.store.rows.setups import setup_kept

    now = bench.clock()
    with bench.kept().writing() as connection:
        setup = setup_kept(connection, id=request.id, name=request.name)
        sheet = sheet_request(setup.sheet)
        asked = request.asked_mm or target_on(sheet).asked_mm
        lengths = measured(Lengths(asked, request.measured_mm, request.division_mm))
        day, note = _day(request.day, now.astimezone().date()), _note(request.note)
        add_scale_row(connection, setup.id, ScaleEntry(0, day, sheet.paper, lengths, note), now)
        return _in_use(connection, setup, bench)


def drop_scale(request: DropScale, bench: Bench, watch: Watch) -> Scales:
    """Return the set-up's measurements without one of them; with none left it is not calibrated.

    Raises:
        WrapwrightError: missing, for no such set-up or measurement.
    """
    del watch
    from wrapwright.outside.store.rows.scales import remove_scale_row
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().writing() as connection:
        setup = setup_kept(connection, id=request.id or -1)
        remove_scale_row(connection, setup.id, request.entry)
        return _in_use(connection, setup, bench)


def sheet_request(table: Any) -> SheetRequest:
    """Return what a set-up's [sheet] asks of the sheet.

    Raises:
        WrapwrightError: unusable, with all that is wrong in it.
    """
    from pathlib import Path

    from wrapwright.outside.jobfile.reading import read_document

    blank = {"kind": "straight", "girth": "230 mm", "wall": "100 mm"}  # any will do: only the sheet is looked at
    document = {"format": 1, "blank": blank, "sheet": dict(table)}
    return read_document(document, folder=Path(), stem="set-up", absent={}).sheet


def _in_use(connection: Connection, setup: SetupKept, bench: Bench) -> Scales:
    """Write the newest measurement on the paper in use into the set-up's own [sheet]."""
    from wrapwright.outside.store.rows.scales import scale_rows
    from wrapwright.outside.store.rows.setups import put_setup_row, setup_kept

    paper = sheet_request(setup.sheet).paper
    newest = next((one for one in scale_rows(connection, setup.id) if one.paper == paper), None)
    sheet = {key: value for key, value in setup.sheet.items() if not key.startswith("scale")}
    if newest is not None:
        sheet |= {
            "scale": [round(one, 6) for one in newest.lengths.scale],
            "scale_error": [round(one, 6) for one in newest.lengths.error],
            "scale_date": newest.day.isoformat(),
        }
    put_setup_row(connection, setup.name, (sheet, setup.colour), setup.profile_sha256, bench.clock(), own=setup.id)
    return _scales(connection, setup_kept(connection, id=setup.id))


def _scales(connection: Connection, setup: SetupKept) -> Scales:
    from wrapwright.core.base.errors import WrapwrightError
    from wrapwright.core.sheet.scale.drift import drift_words
    from wrapwright.core.sheet.scale.target import target_on
    from wrapwright.outside.store.rows.scales import scale_rows

    entries = scale_rows(connection, setup.id)
    try:
        asked = target_on(sheet_request(setup.sheet)).asked_mm
    except WrapwrightError:
        asked = None
    return Scales(setup, entries, asked, (*_newest_words(setup), *(drift_words(entries) if entries else ())))


def _newest_words(setup: SetupKept) -> tuple[str, ...]:
    from wrapwright.core.sheet.scale.entries import scale_words

    scale = setup.sheet.get("scale")
    if scale is None:
        return ("Never calibrated: sheets count on 1, and the overlap allows for half a per cent.",)
    across, along = (scale_words(float(one)) for one in scale)
    when = setup.sheet.get("scale_date")
    since = f"measured on {when}" if when else "typed in by hand, no day known"
    return (f"In use: across {float(scale[0]):.4f} ({across}), along {float(scale[1]):.4f} ({along}), {since}.",)


def _day(day: date | None, today: date) -> date:
    from datetime import timedelta

    from wrapwright.core.base.errors import unusable

    # A day more: what is today here may be tomorrow where the user is.
    if day is not None and day > today + timedelta(days=1):
        raise unusable(f"{day} is still to come; today is {today}.", remedy="Give the day of measuring.", where="date")
    return day or today


def _note(note: str) -> str:
    from wrapwright.core.base.errors import unusable

    plain = " ".join(note.split())
    if len(plain) > LONGEST_NOTE:
        message = f"the note has {len(plain)} characters; the limit is {LONGEST_NOTE}."
        raise unusable(message, remedy="Shorten it.", where="note")
    return plain
