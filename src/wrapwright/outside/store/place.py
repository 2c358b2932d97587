"""The workshop's store in a data folder: one transaction a change, a sentence for whatever keeps it out of reach."""

from __future__ import annotations

import contextlib
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine
    from sqlalchemy.exc import SQLAlchemyError

FILE = "store.sqlite3"
# Folders of the data folder that hold one folder for each design, and for each making, by its number.
DESIGNS, MADE = "designs", "made"


class Store:
    """The store of one data folder; nothing is made or opened before something is first read or written.

    Attributes:
        folder: the data folder; the store's own file and all kept files lie below it.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lock = threading.Lock()
        self._engine: Engine | None = None

    @property
    def file(self) -> Path:
        """The file of the tables."""
        return self.folder / FILE

    def exists(self) -> bool:
        """Return whether there is a store already."""
        return self.file.is_file()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees one state of the store and changes nothing.

        Raises:
            WrapwrightError: unreachable when it is locked, damaged or not there to be opened; set-up when it is newer
                than this program.
        """
        engine = self._opened()
        with _told(self.file), engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give the one connection that may write; what it did stands when the block ends well, else nothing of it.

        Raises:
            WrapwrightError: as for `reading`; refused when the change would clash with what stands.
        """
        engine = self._opened()
        with _told(self.file), engine.connect().execution_options(writes=True) as connection, connection.begin():
            yield connection

    def shorten(self) -> None:
        """Bring the store's file up to date, so that what was removed is in no other file either; best effort."""
        engine = self._opened()
        with contextlib.suppress(WrapwrightError), _told(self.file), engine.connect() as connection:
            connection.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")

    def close(self) -> None:
        """Let go of the file; the next use opens it again."""
        with self._lock:
            if self._engine is not None:
                self._engine.dispose()
                self._engine = None
                self._at_end.detach()

    def _opened(self) -> Engine:
        with self._lock:
            if self._engine is None:
                from wrapwright.outside.store.opening import open_engine

                with _told(self.file):
                    self._engine = open_engine(self.file)
                self._at_end = weakref.finalize(self, self._engine.dispose)
            return self._engine


@contextmanager
def _told(file: Path) -> Iterator[None]:
    """Turn what the database says into a sentence with its kind."""
    try:
        yield
    except WrapwrightError:
        raise
    except Exception as error:
        with contextlib.suppress(ImportError):
            from sqlalchemy.exc import SQLAlchemyError

            if isinstance(error, SQLAlchemyError):
                raise _sentence(error, file) from error
        raise


def _sentence(error: SQLAlchemyError, file: Path) -> WrapwrightError:
    from sqlalchemy.exc import DatabaseError, IntegrityError

    said = str(getattr(error, "orig", "") or error)
    where = str(file)
    if isinstance(error, IntegrityError):
        message = "The change clashes with what another has just stored; nothing was changed."
        return WrapwrightError(Kind.REFUSED, message, remedy="Look at it again, then repeat it.", where=where)
    for mark, (message, remedy) in _SENTENCES.items():
        if mark in said:
            return WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=where)
    if isinstance(error, DatabaseError):
        message = f"The store cannot be used: {' '.join(said.split())[:200]}."
        return WrapwrightError(
            Kind.UNREACHABLE, message, remedy="Look at the disk and the folder's rights.", where=where
        )
    message = (
        f"The store was asked for something it cannot do ({type(error).__name__}: {' '.join(said.split())[:200]})."
    )
    return WrapwrightError(Kind.FAULT, message, where=where)


_SENTENCES = {
    "locked": ("The store is held by another program for longer than 10 s.", "Close the other program and try again."),
    "busy": ("The store is held by another program for longer than 10 s.", "Close the other program and try again."),
    "unable to open": (
        "The store cannot be opened.",
        "Look at the data folder and its rights, or set WRAPWRIGHT_DATA.",
    ),
    "readonly": ("The store may not be written.", "Look at the rights of the data folder, or set WRAPWRIGHT_DATA."),
    "read-only": ("The store may not be written.", "Look at the rights of the data folder, or set WRAPWRIGHT_DATA."),
    "not a database": ("The store's file is damaged or not a store.", "Put the last back-up in its place."),
    "malformed": ("The store's file is damaged.", "Put the last back-up in its place."),
    "disk is full": ("The disk is full; nothing was changed.", "Make room and try again."),
    "disk I/O error": ("The disk cannot be read or written.", "Look after the disk, and at the last back-up."),
}
