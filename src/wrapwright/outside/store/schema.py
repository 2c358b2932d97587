"""The tables of the store; texts, whole numbers and references alone, so that any SQL database can hold them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import REAL, Column, ForeignKey, Index, Integer, MetaData, Table, Text
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator

# The migrations in order; the last is what this program reads and writes.
FORMS = ("0001", "0002", "0003", "0004", "0005", "0006", "0007")


class Moment(TypeDecorator[datetime]):
    """A time, kept as UTC in ISO 8601 with microseconds, so that it sorts as text."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Return the text of a time."""
        return None if value is None else value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """Return the time of a text."""
        return None if value is None else datetime.fromisoformat(value)


class Plain(TypeDecorator[Any]):
    """A table of plain values, kept as JSON (RFC 8259); keys stay in their order."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Mapping[str, Any] | list[Any] | None, dialect: Dialect) -> str | None:
        """Return the text of a table."""
        return None if value is None else json.dumps(value, ensure_ascii=False, allow_nan=False)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Return the table of a text."""
        return None if value is None else json.loads(value)


METADATA = MetaData()
_STRICT: dict[str, Any] = {"sqlite_strict": True}
_COUNTED: dict[str, Any] = {"sqlite_autoincrement": True, **_STRICT}  # a number is never given twice


def _id() -> Column[int]:
    return Column("id", Integer, primary_key=True, autoincrement=True)


BLANKS = Table(
    "blanks",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("newest", Integer, nullable=False),
    **_COUNTED,
)
BLANK_VERSIONS = Table(
    "blank_versions",
    METADATA,
    Column("blank", ForeignKey("blanks.id", ondelete="CASCADE"), primary_key=True),
    Column("version", Integer, primary_key=True, autoincrement=False),
    Column("readings", Plain, nullable=False),
    Column("wrap", Plain, nullable=False),
    Column("added", Moment, nullable=False),
    **_STRICT,
)
FILES = Table(
    "files",
    METADATA,
    Column("sha256", Text, primary_key=True),
    Column("bytes", Integer, nullable=False),
    Column("added", Moment, nullable=False),
    **_STRICT,
)
PICTURES = Table(
    "pictures",
    METADATA,
    Column("sha256", ForeignKey("files.sha256"), primary_key=True),
    Column("name", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("width_px", Integer, nullable=False),
    Column("height_px", Integer, nullable=False),
    Column("added", Moment, nullable=False),
    **_STRICT,
)
PROFILES = Table(
    "profiles",
    METADATA,
    Column("sha256", ForeignKey("files.sha256"), primary_key=True),
    Column("name", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("added", Moment, nullable=False),
    **_STRICT,
)
FONTS = Table(
    "fonts",
    METADATA,
    Column("file", Text, primary_key=True),
    Column("family", Text, nullable=False),
    Column("style", Text, nullable=False),
    Column("weight", Integer, nullable=False),
    Column("sha256", Text, nullable=False),
    Column("added", Moment, nullable=False),
    **_STRICT,
)
SETUPS = Table(
    "setups",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("sheet", Plain, nullable=False),
    Column("colour", Plain, nullable=False),
    Column("profile", ForeignKey("profiles.sha256")),
    Column("added", Moment, nullable=False),
    **_COUNTED,
)
DESIGNS = Table(
    "designs",
    METADATA,
    _id(),
    Column("newest", Integer, nullable=False),  # the revision that is shown
    Column("last", Integer, nullable=False),  # the highest number given so far
    # Of what it was started from: kept when that blank is taken off the shelf, so no reference.
    Column("blank", Integer, nullable=False),
    Column("blank_version", Integer, nullable=False),
    **_COUNTED,
)
REVISIONS = Table(
    "revisions",
    METADATA,
    Column("design", ForeignKey("designs.id", ondelete="CASCADE"), primary_key=True),
    Column("revision", Integer, primary_key=True, autoincrement=False),
    Column("before", Integer),  # the revision it was made from: where undo goes
    Column("after", Integer),  # the last revision made from it: where redo goes
    Column("title", Text, nullable=False),
    Column("document", Plain, nullable=False),
    Column("saved", Moment, nullable=False),
    **_STRICT,
)
DESIGN_FILES = Table(
    "design_files",
    METADATA,
    Column("design", ForeignKey("designs.id", ondelete="CASCADE"), primary_key=True),
    Column("folded", Text, primary_key=True),  # some systems take names of two cases for one
    Column("name", Text, nullable=False),
    Column("sha256", ForeignKey("files.sha256"), nullable=False),
    **_STRICT,
)
LISTS = Table(
    "lists",
    METADATA,
    Column("design", ForeignKey("designs.id", ondelete="CASCADE"), primary_key=True),
    Column("name", Text, nullable=False),  # of the table's file
    Column("sha256", ForeignKey("files.sha256"), nullable=False),
    Column("mapping", Plain, nullable=False),  # [names] of a job file, without its file
    Column("revision", Integer, nullable=False),  # of table and mapping
    Column("decided", Integer, nullable=False),  # counts up with every decision
    Column("changed", Moment, nullable=False),
    **_STRICT,
)
LIST_DECISIONS = Table(
    "list_decisions",
    METADATA,
    Column("design", ForeignKey("lists.design", ondelete="CASCADE"), primary_key=True),
    Column("row", Integer, primary_key=True, autoincrement=False),
    Column("content", Plain, nullable=False),
    **_STRICT,
)
LIST_SIGNED = Table(
    "list_signed",
    METADATA,
    Column("design", ForeignKey("lists.design", ondelete="CASCADE"), primary_key=True),
    Column("sha256", ForeignKey("files.sha256"), nullable=False),  # of the sign-off: who, when, and a digest a row
    Column("signed", Moment, nullable=False),
    **_STRICT,
)
MADE = Table(
    "made",
    METADATA,
    _id(),
    Column("design", ForeignKey("designs.id", ondelete="SET NULL")),
    Column("revision", Integer, nullable=False),
    Column("title", Text, nullable=False),
    Column("output", Text, nullable=False),
    Column("accept", Plain, nullable=False),
    Column("state", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("share", REAL, nullable=False),
    Column("asked", Moment, nullable=False),
    Column("ended", Moment),
    Column("report", Plain, nullable=False),
    Column("error", Plain, nullable=False),
    Column("files", Plain, nullable=False),
    Column("tray", Plain, nullable=False, server_default="{}"),  # what was printed together; then there is no design
    Column("names", Plain, nullable=False, server_default="{}"),  # how its list of names was made; {} for one piece
    **_COUNTED,
)
PEOPLE = Table(
    "people",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("password", Text, nullable=False),
    Column("added", Moment, nullable=False),
    **_COUNTED,
)
SESSIONS = Table(
    "sessions",
    METADATA,
    Column("token", Text, primary_key=True),
    Column("person", ForeignKey("people.id", ondelete="CASCADE"), nullable=False),
    Column("expires", Moment, nullable=False),
    **_STRICT,
)
PRINTERS = Table(
    "printers",
    METADATA,
    Column("setup", ForeignKey("setups.id", ondelete="CASCADE"), primary_key=True),
    Column("address", Text, nullable=False),  # ipp:// or ipps://, "" for a watched folder
    Column("certificate", Text, nullable=False),  # SHA-256 of the certificate it showed first, "" for none
    Column("folder", Text, nullable=False),
    Column("pattern", Text, nullable=False),  # how files in the folder are called
    **_STRICT,
)
PRINTS = Table(
    "prints",
    METADATA,
    _id(),
    Column("sha256", Text, nullable=False),  # of the file
    Column("title", Text, nullable=False),
    Column("target", Text, nullable=False),  # the printer's address or the folder
    Column("name", Text, nullable=False),  # the job's own name, by which it is found again
    Column("job", Integer, nullable=False),  # the printer's number, 0 while it has given none
    Column("copies", Integer, nullable=False),
    Column("state", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("asked", Moment, nullable=False),
    Column("ended", Moment),
    **_COUNTED,
)
SCALES = Table(
    "scales",
    METADATA,
    _id(),
    Column("setup", ForeignKey("setups.id", ondelete="CASCADE"), nullable=False),
    Column("day", Text, nullable=False),
    Column("paper", Text, nullable=False),
    Column("asked_across", REAL, nullable=False),  # lengths in mm
    Column("asked_along", REAL, nullable=False),
    Column("measured_across", REAL, nullable=False),
    Column("measured_along", REAL, nullable=False),
    Column("division", REAL, nullable=False),  # of the rule
    Column("note", Text, nullable=False),
    Column("added", Moment, nullable=False),
    **_COUNTED,
)
TRAYS = Table(
    "trays",
    METADATA,
    _id(),
    Column("document", Plain, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("changed", Moment, nullable=False),
    **_COUNTED,
)
RECIPES = Table(
    "recipes",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("newest", Integer, nullable=False),
    Column("retired", Integer, nullable=False),  # 1: no longer offered; what used it still finds it
    **_COUNTED,
)
RECIPE_VERSIONS = Table(
    "recipe_versions",
    METADATA,
    Column("recipe", ForeignKey("recipes.id", ondelete="CASCADE"), primary_key=True),
    Column("version", Integer, primary_key=True, autoincrement=False),
    Column("content", Plain, nullable=False),
    Column("used", Integer, nullable=False),  # 1: something was heated with it; it never changes again
    Column("added", Moment, nullable=False),
    **_STRICT,
)
CIRCUITS = Table(
    "circuits",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("volts", REAL, nullable=False),
    Column("amps", REAL, nullable=False),  # of its breaker
    **_COUNTED,
)
HEATERS = Table(
    "heaters",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("kind", Text, nullable=False),
    Column("content", Plain, nullable=False),  # its figures
    Column("circuit", ForeignKey("circuits.id", ondelete="SET NULL")),
    Column("busy", Integer, nullable=False),  # the heat that runs in it, 0 for none
    Column("retired", Integer, nullable=False),
    Column("changed", Moment, nullable=False),
    **_COUNTED,
)
EVIDENCE = Table(
    "evidence",
    METADATA,
    _id(),
    Column("heater", ForeignKey("heaters.id", ondelete="CASCADE"), nullable=False),
    Column("kind", Text, nullable=False),  # log, readings, recipe or map
    Column("day", Text, nullable=False),
    Column("given", Plain, nullable=False),
    Column("found", Plain, nullable=False),
    Column("note", Text, nullable=False),
    Column("added", Moment, nullable=False),
    **_COUNTED,
)
TRIALS = Table(
    "trials",
    METADATA,
    _id(),
    Column("name", Text, nullable=False),
    Column("folded", Text, nullable=False, unique=True),
    Column("recipe", Integer, nullable=False),  # 0 for none
    Column("plan", Plain, nullable=False),
    Column("scores", Plain, nullable=False),
    Column("found", Plain, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("changed", Moment, nullable=False),
    **_COUNTED,
)
HEATS = Table(
    "heats",
    METADATA,
    _id(),
    Column("heater", ForeignKey("heaters.id", ondelete="SET NULL")),
    Column("recipe", Integer, nullable=False),  # kept when that recipe goes, so no reference; 0 for a shipped one
    Column("recipe_version", Integer, nullable=False),
    Column("state", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("plan", Plain, nullable=False),
    Column("started", Moment, nullable=False),
    Column("ended", Moment),
    Column("found", Plain, nullable=False),  # what happened: dose, curve, faults
    **_COUNTED,
)
HEAT_EVENTS = Table(
    "heat_events",
    METADATA,
    Column("heat", ForeignKey("heats.id", ondelete="CASCADE"), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("kind", Text, nullable=False),
    Column("key", Text, nullable=False),  # given by the sender: the same event sent twice stands once
    Column("at", Moment, nullable=False),
    Column("content", Plain, nullable=False),
    **_STRICT,
)
HEAT_PIECES = Table(
    "heat_pieces",
    METADATA,
    Column("heat", ForeignKey("heats.id", ondelete="CASCADE"), primary_key=True),
    Column("place", Integer, primary_key=True, autoincrement=False),
    Column("piece", Text, nullable=False),  # its number as scanned or typed, "" for none
    Column("result", Text, nullable=False),  # "", good, or a fault
    Column("note", Text, nullable=False),
    Column("looked", Moment),
    **_STRICT,
)
Index("design_files_sha256", DESIGN_FILES.c.sha256)
Index("evidence_heater", EVIDENCE.c.heater)
Index("heat_events_key", HEAT_EVENTS.c.heat, HEAT_EVENTS.c.key, unique=True)
Index("heat_pieces_piece", HEAT_PIECES.c.piece)
Index("heats_heater", HEATS.c.heater)
Index("list_signed_sha256", LIST_SIGNED.c.sha256)
Index("lists_sha256", LISTS.c.sha256)
Index("made_design", MADE.c.design)
Index("prints_sha256", PRINTS.c.sha256)
Index("scales_setup", SCALES.c.setup)
Index("sessions_person", SESSIONS.c.person)
