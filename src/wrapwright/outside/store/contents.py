"""Files kept once each under the SHA-256 of their content, in data/pictures/ab/; and forgetting what nothing needs."""

from __future__ import annotations

import contextlib
import hashlib
import os
import secrets
import shutil
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.store import place
from wrapwright.outside.store.place import Store
from wrapwright.outside.system.files import replace

if TYPE_CHECKING:
    from sqlalchemy import Connection

FOLDER = "pictures"
COMING = ".coming-"
_BLOCK = 1 << 20
_DAY_S = 86_400.0


@dataclass(frozen=True)
class Staged:
    """A file brought beside its place, safely on the disk, its content hashed."""

    file: Path
    sha256: str
    bytes: int


def content_file(store: Store, sha256: str) -> Path:
    """Return where the content of that hash lies."""
    return store.folder / FOLDER / sha256[:2] / sha256


@contextmanager
def staged(store: Store, file: Path, *, move: bool = False) -> Iterator[Staged]:
    """Give a file brought beside its place; it is gone after the block unless `settle` took it.

    Args:
        store: where it will be kept.
        file: the file.
        move: use the file itself up; else it is left alone.

    Raises:
        WrapwrightError: unusable when it cannot be read, unreachable when the store's folder cannot be written.
    """
    home = store.folder / FOLDER
    aside = home / f"{COMING}{secrets.token_hex(8)}"
    try:
        with _written(home):
            home.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not (move and _moved(file, aside)):
            _copied(file, aside)
            if move:
                file.unlink(missing_ok=True)
        with _written(home), aside.open("r+b") as stream:
            digest = hashlib.file_digest(stream, "sha256")
            os.fsync(stream.fileno())
            size = os.fstat(stream.fileno()).st_size
        yield Staged(aside, digest.hexdigest(), size)
    finally:
        with contextlib.suppress(OSError):
            aside.unlink(missing_ok=True)


def settle(store: Store, connection: Connection, staged: Staged, now: datetime) -> None:
    """Put a staged file in its place and write it down; the same content is kept once.

    Only inside a writing transaction: what `tidy` removes, it removes in one too, so that neither undoes the other.
    """
    from sqlalchemy import insert, select

    from wrapwright.outside.store.schema import FILES

    target = content_file(store, staged.sha256)
    if not (target.is_file() and target.stat().st_size == staged.bytes):
        with _written(target.parent):
            fresh = not target.parent.exists()
            target.parent.mkdir(mode=0o700, exist_ok=True)
            remove_file(target)  # one that was cut short, and may only be read
            staged.file.chmod(stat.S_IREAD | stat.S_IRGRP)  # its content is its name: nothing may change it
            replace(staged.file, target)
            for folder in (target.parent, target.parent.parent, store.folder) if fresh else (target.parent,):
                sync_folder(folder)
    known = connection.execute(select(FILES.c.sha256).where(FILES.c.sha256 == staged.sha256)).first()
    if known is None:
        connection.execute(insert(FILES).values(sha256=staged.sha256, bytes=staged.bytes, added=now))


def tidy(store: Store) -> tuple[str, ...]:
    """Remove every file that nothing refers to any more, and return their hashes.

    The folders of designs and makings that are no longer there go too: one may have been filled again while its design
    was removed, or have outlived a loss of power. What a run that was cut short left beside its place goes a day later
    at the earliest.
    """
    from sqlalchemy import delete, select

    from wrapwright.outside.store.schema import (
        DESIGN_FILES,
        DESIGNS,
        FILES,
        LIST_SIGNED,
        LISTS,
        MADE,
        PICTURES,
        PROFILES,
    )

    used = [select(table.c.sha256) for table in (PICTURES, PROFILES, DESIGN_FILES, LISTS, LIST_SIGNED)]
    with store.writing() as connection:
        unused = delete(FILES).where(*(FILES.c.sha256.not_in(one) for one in used)).returning(FILES.c.sha256)
        gone = tuple(sorted(connection.execute(unused).scalars()))
    with store.writing() as connection:  # holds off whoever brings the same content again
        known = set(connection.execute(select(FILES.c.sha256)).scalars())
        for file in (store.folder / FOLDER).glob("*/*"):
            if file.name not in known:
                remove_file(file)
        for home, table in ((place.DESIGNS, DESIGNS), (place.MADE, MADE)):
            _strays(store.folder / home, {str(one) for one in connection.execute(select(table.c.id)).scalars()})
        _sweep(store.folder / FOLDER)
    store.shorten()
    return gone


def _strays(home: Path, known: set[str]) -> None:
    """Remove the numbered folders that belong to nothing that is known."""
    for folder in home.glob("[0-9]*"):
        if folder.name.isdecimal() and folder.name not in known:
            remove_folder(folder)


def _sweep(home: Path) -> None:
    before = time.time() - _DAY_S
    for file in home.glob(f"{COMING}*"):
        with contextlib.suppress(OSError):
            if file.stat().st_mtime < before:
                remove_file(file)


def remove_file(file: Path) -> None:
    """Remove a file, one that may only be read too; one that another program holds is left for the next time."""
    with contextlib.suppress(OSError):
        try:
            file.unlink(missing_ok=True)
        except PermissionError:  # Windows removes nothing that may only be read
            file.chmod(stat.S_IREAD | stat.S_IWRITE)
            file.unlink(missing_ok=True)


def remove_folder(folder: Path) -> None:
    """Remove a folder with all it holds; what another program holds is left."""
    if not folder.is_dir() or folder.is_symlink():
        return
    for one in list(folder.rglob("*")):
        if not one.is_dir() or one.is_symlink():
            remove_file(one)
    shutil.rmtree(folder, ignore_errors=True)


def sync_files(folder: Path) -> None:
    """Make what lies in a folder safe against power loss, before it is written down as being there."""
    for file in folder.iterdir():
        with contextlib.suppress(OSError), file.open("r+b") as stream:
            os.fsync(stream.fileno())
    sync_folder(folder)
    sync_folder(folder.parent)


def sync_folder(folder: Path) -> None:
    """Make a folder's own entries safe against power loss, where the system lets a folder be synced."""
    with contextlib.suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def _moved(file: Path, aside: Path) -> bool:
    """Return whether the file could be renamed into place: not from another disk, and not where that is forbidden."""
    try:
        file.rename(aside)
    except OSError:
        return False
    return True


def _copied(file: Path, aside: Path) -> None:
    try:
        source = file.open("rb")
    except OSError as error:
        message = f"The file cannot be opened: {error.strerror or error}."
        raise unusable(message, remedy="Check its name and its rights.", where=str(file)) from error
    with source, _written(aside.parent), aside.open("xb") as target:
        shutil.copyfileobj(source, target, _BLOCK)


@contextmanager
def _written(folder: Path) -> Iterator[None]:
    """Turn what keeps a folder from being written into a sentence."""
    try:
        yield
    except OSError as error:
        message = f"The store's folder cannot be written: {error.strerror or error}; nothing was changed."
        remedy = "Make room there, or look at its rights."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=str(folder)) from error
