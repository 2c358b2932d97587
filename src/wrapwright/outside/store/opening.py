"""Opening the store: its settings for safety, and bringing an older one up to this program's form."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, inspect, text

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.schema import FORMS

BUSY_MS = 10_000
LEAST_SQLITE = (3, 37, 0)  # the first with STRICT tables
MIGRATIONS = Path(__file__).parent / "migrations"


def open_engine(file: Path) -> Engine:
    """Return the engine of a store's file, made when it is missing and brought up to date when it is older.

    Raises:
        WrapwrightError: set-up when the store is of a newer program, or this system's SQLite is too old; unreachable
            when the folder cannot be made.
    """
    if sqlite3.sqlite_version_info < LEAST_SQLITE:
        message = f"The store needs SQLite {'.'.join(map(str, LEAST_SQLITE[:2]))}; here is {sqlite3.sqlite_version}."
        raise WrapwrightError(Kind.SETUP, message, remedy="Install a newer Python.")
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        message = f"The data folder cannot be made: {error.strerror or error}."
        raise WrapwrightError(
            Kind.UNREACHABLE, message, remedy="Set WRAPWRIGHT_DATA.", where=str(file.parent)
        ) from error
    # As many connections as there are threads that ask: who waits, waits for the file, not for us.
    engine = create_engine(URL.create("sqlite", database=str(file)), max_overflow=-1)
    event.listen(engine, "connect", _settle)
    event.listen(engine, "begin", _begin)
    try:
        with engine.connect() as connection:
            form = _form(connection, file)
        if form != FORMS[-1]:
            _migrate(engine, file)
    except BaseException:
        engine.dispose()
        raise
    return engine


def _settle(connection: Any, _record: object) -> None:
    """Set a new SQLite connection: safe against power loss, waiting instead of failing, references kept."""
    connection.isolation_level = None  # the driver's own BEGIN comes too late and never says IMMEDIATE
    cursor = connection.cursor()
    for words in (f"busy_timeout = {BUSY_MS}", "journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        cursor.execute(f"PRAGMA {words}")
    cursor.execute("PRAGMA secure_delete = ON")  # what was removed is not left to be read in the file
    cursor.close()


def _begin(connection: Connection) -> None:
    """Begin as a writer at once where it will write: two writers must wait for each other, not fail half-way."""
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _form(connection: Connection, file: Path) -> str:
    """Return the form the store is in, "" for an empty one."""
    if not inspect(connection).has_table("alembic_version"):
        return ""
    form = str(connection.execute(text("SELECT version_num FROM alembic_version")).scalar() or "")
    if form and form not in FORMS:
        raise WrapwrightError(
            Kind.SETUP,
            f"The store has form {form}, made by a newer wrapwright; this one knows forms up to {FORMS[-1]}.",
            remedy="Install the newer version again; nothing was changed.",
            where=str(file),
        )
    return form


def _migrate(engine: Engine, file: Path) -> None:
    """Bring the store to the newest form in one transaction; a second process waits here and finds it done."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        if _form(connection, file) == FORMS[-1]:
            return
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
