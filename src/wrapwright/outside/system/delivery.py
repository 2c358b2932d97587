"""Handing over finished files: all of them or none, and nothing of others replaced."""

from __future__ import annotations

import contextlib
import errno
import json
import os
import secrets
import shutil
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.faults import FULL
from wrapwright.outside.system.files import replace

REPORT = "report.json"
_OURS = ".wrapwright-" + "[0-9a-f]" * 16
_LEFT_S = 7 * 86_400.0  # no making lasts so long
_KEPT = ".kept"
_UNWRITTEN = FULL | {errno.EROFS, errno.EIO}


@contextmanager
def delivery(folder: Path, *, force: bool = False) -> Iterator[Path]:
    """Give an empty work folder beside `folder`; when the block ends well, its files are handed over.

    On any error `folder` is exactly as it was, and the work folder is gone in every case.

    Args:
        folder: where the files go; made when missing (its parents too).
        force: replace files of the same names, and remove those that the folder's earlier report names.

    Raises:
        WrapwrightError: kind refused when something would be overwritten without force (before the work, too, when the
            folder holds an earlier report), unusable when the folder cannot be made or written, or its disk is full.
    """
    folder = folder.resolve()
    _refuse_early(folder, force=force)
    made = _make_parents(folder.parent)
    try:
        work = _work_folder(folder)
        try:
            with _sentences(folder):
                yield work
            _hand_over(work, folder, force=force)
            made = []
        finally:
            shutil.rmtree(work, ignore_errors=True)
    finally:
        for parent in made:
            with contextlib.suppress(OSError):  # not empty: another program uses it by now
                parent.rmdir()


@contextmanager
def _sentences(folder: Path) -> Iterator[None]:
    """Turn a disk that is full, or a folder that may not be written any more, into a sentence."""
    try:
        yield
    except OSError as error:
        if error.errno not in _UNWRITTEN:
            raise
        remedy = "Free some room there, or choose another folder."
        message = f"The files cannot be written: {error.strerror}; nothing was changed."
        raise unusable(message, remedy=remedy, where=str(folder)) from error


def _refuse_early(folder: Path, *, force: bool) -> None:
    if folder.exists() and not folder.is_dir():
        raise _no_folder(folder)
    if not force and (folder / REPORT).exists():
        raise _refusal(folder, [REPORT])


def _no_folder(file: Path) -> WrapwrightError:
    return unusable("This is a file; a folder is needed.", remedy="Name a folder.", where=str(file))


def _shut(what: str, folder: Path, error: OSError) -> WrapwrightError:
    remedy = "Name another folder, one that you may write to."
    return unusable(f"The folder cannot be {what}: {error.strerror}.", remedy=remedy, where=str(folder))


def standing_in(folder: Path, names: Sequence[str], *, force: bool) -> list[str]:
    """Return those of the names that the folder holds already and that may be replaced.

    Raises:
        WrapwrightError: refused, when there are any and force was not given, or when one is itself a folder.
    """
    standing = [name for name in names if os.path.lexists(folder / name)]
    in_the_way = [name for name in standing if not force or (folder / name).is_dir()]
    if in_the_way:
        raise _refusal(folder, in_the_way)
    return standing


def _refusal(folder: Path, names: list[str]) -> WrapwrightError:
    listed = ", ".join(names)
    message = f"The folder already holds {listed}; nothing was changed."
    return WrapwrightError(Kind.REFUSED, message, remedy="Choose another folder, or add --force.", where=str(folder))


def _make_parents(parent: Path) -> list[Path]:
    """Return the folders that were made, innermost first."""
    missing = [one for one in (parent, *parent.parents) if not one.exists()]
    standing = next((one for one in (parent, *parent.parents) if one not in missing), parent)
    if standing.exists() and not standing.is_dir():
        raise _no_folder(standing)
    try:
        parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        for one in missing:
            with contextlib.suppress(OSError):
                one.rmdir()
        raise _shut("made", parent, error) from error
    return missing


def _work_folder(folder: Path) -> Path:
    # Beside the folder, so that handing over is renaming within one file system; inside it where it is another one
    # (a mounted folder) or where nothing may be written beside it.
    beside = folder.parent
    if folder.is_dir() and (folder.stat().st_dev != beside.stat().st_dev or not os.access(beside, os.W_OK)):
        beside = folder
    # Made with the rights of any new folder, for it may become the folder itself; temporary folders are private.
    _tidy(beside)
    work = beside / f".wrapwright-{secrets.token_hex(8)}"
    try:
        work.mkdir()
        return work
    except OSError as error:
        raise _shut("written", folder.parent, error) from error


def _tidy(beside: Path) -> None:
    """Remove the work folders that killed runs left a week ago; one that holds earlier files of the user's stays."""
    before = time.time() - _LEFT_S
    with contextlib.suppress(OSError):
        for one in beside.glob(_OURS):
            ours = one.is_dir() and not one.is_symlink() and not os.path.lexists(one / _KEPT)
            if ours and one.stat().st_mtime < before:
                shutil.rmtree(one, ignore_errors=True)


def _hand_over(work: Path, folder: Path, *, force: bool) -> None:
    new = sorted(one.name for one in work.iterdir())
    if not folder.exists():
        try:
            work.rename(folder)
        except OSError as error:
            raise _shut("made", folder, error) from error
        return
    standing = standing_in(folder, new, force=force)
    earlier = [name for name in _named_before(folder) if name not in new] if force else []
    _swap(work, folder, new, [*standing, *earlier])


def _named_before(folder: Path) -> list[str]:
    """Return the plain files in the folder that its earlier report names as its own."""
    try:
        report: Any = json.loads((folder / REPORT).read_text(encoding="utf-8"))
        named = [entry["path"] for entry in report["files"]] if isinstance(report, Mapping) else []
    except (OSError, ValueError, KeyError, TypeError):
        return []
    return [
        name
        for name in named
        if isinstance(name, str) and name == Path(name).name and (folder / name).is_file() and not name.startswith(".")
    ]


def _swap(work: Path, folder: Path, new: list[str], old: list[str]) -> None:
    """Move the old files out and the new ones in; on any error, both back."""
    kept = work / _KEPT
    out: list[str] = []
    brought: list[str] = []
    try:
        kept.mkdir()
        for name in old:
            replace(folder / name, kept / name)
            out.append(name)
        for name in new:
            replace(work / name, folder / name)
            brought.append(name)
    except BaseException as error:
        for name in brought:
            replace(folder / name, work / name)
        for name in out:
            replace(kept / name, folder / name)
        if isinstance(error, OSError):
            message = f"The files cannot be handed over: {error.strerror}; nothing was changed."
            raise unusable(message, where=str(folder)) from error
        raise
