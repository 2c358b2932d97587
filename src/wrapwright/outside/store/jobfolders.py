"""The job folder of a design, data/designs/ID/: its files under the names that its documents use."""

from __future__ import annotations

import contextlib
import filecmp
import os
import secrets
import shutil
from collections.abc import Iterable
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.contents import content_file, remove_file, remove_folder, sync_folder
from wrapwright.outside.store.place import DESIGNS, Store
from wrapwright.outside.system.files import replace


def job_folder(store: Store, design: int) -> Path:
    """Return the job folder of a design; there is none while the design has no files."""
    return store.folder / DESIGNS / str(design)


def fill(store: Store, design: int, files: Iterable[tuple[str, str]], *, anew: bool = False) -> None:
    """Put (name, SHA-256) of kept files into a design's job folder where they are missing or of another size.

    With `anew` what stands there is looked at byte by byte.

    Raises:
        WrapwrightError: unreachable when the folder cannot be written or a kept file is gone.
    """
    folder = job_folder(store, design)
    for name, sha256 in files:
        source, target = content_file(store, sha256), folder / name
        try:
            size = source.stat().st_size
            if target.is_file() and target.stat().st_size == size and not (anew and _differ(source, target)):
                continue
            target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            remove_file(target)  # one that may only be read cannot be renamed over everywhere
            _linked(source, target)
            sync_folder(target.parent)
        except OSError as error:
            message = f"The file {name} of this design cannot be brought: {error.strerror or error}."
            remedy = "Look at the data folder, or put the last back-up in its place."
            raise WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=str(folder)) from error


def clear(store: Store, design: int) -> None:
    """Remove a design's job folder."""
    remove_folder(job_folder(store, design))


def _differ(source: Path, target: Path) -> bool:
    return not target.samefile(source) and not filecmp.cmp(source, target, shallow=False)


def _linked(source: Path, target: Path) -> None:
    """Make `target` another name of the source's content; a copy where the file system has no such links."""
    aside = target.with_name(f".wrapwright-{secrets.token_hex(8)}")
    try:
        try:
            os.link(source, aside)
        except (OSError, NotImplementedError):
            with source.open("rb") as read, aside.open("xb") as write:
                shutil.copyfileobj(read, write)
                write.flush()
                os.fsync(write.fileno())
        replace(aside, target)
    finally:
        with contextlib.suppress(OSError):
            if aside.exists():
                remove_file(aside)
