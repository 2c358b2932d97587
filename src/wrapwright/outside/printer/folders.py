"""Sheets put into a folder that a printer's driver watches: each copy whole or not there, none in place of another."""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.nearest import nearest
from wrapwright.outside.system.files import clean_name, shortened

PATTERN = "{title}-{date}-{copy}"
FIELDS = ("title", "date", "time", "copy", "setup")
MOST_COPIES = 999
_MOST_TRIES = 1000
_FIELD = re.compile(r"\{([^{}]*)\}")


def pattern_of(written: str, *, where: str = "") -> str:
    """Return a pattern of file names, without its ending, once it is one: text with fields in braces.

    Raises:
        WrapwrightError: unusable, for unknown fields, single braces, or a pattern without `{copy}`.
    """
    text = written.strip()
    for ending in (".pdf", ".PDF"):
        text = text.removesuffix(ending)
    text = text or PATTERN
    for field in _FIELD.findall(text):
        if field not in FIELDS:
            near = nearest(field, FIELDS)
            hint = f"did you mean {{{near}}}? " if near else ""
            raise _unusable(f"{{{field}}} is no field of a file name; {hint}there are {_listed()}.", where)
    if "{" in _FIELD.sub("", text) or "}" in _FIELD.sub("", text):
        raise _unusable(f"{written!r} has a brace without its other half.", where)
    if "{copy}" not in text:
        raise _unusable(f"{written!r} has no {{copy}}, so that two copies would be one file.", where)
    return text


def _listed() -> str:
    return ", ".join(f"{{{field}}}" for field in FIELDS)


def _unusable(message: str, where: str) -> WrapwrightError:
    return WrapwrightError(Kind.UNUSABLE, message, remedy=f"Write, for example, {PATTERN}.pdf.", where=where)


def drop(
    file: Path,
    folder: Path,
    pattern: str,
    fields: Mapping[str, str],
    *,
    copies: int = 1,
    step: Callable[[int], None] = lambda _copy: None,
) -> tuple[Path, ...]:
    """Return the paths of the copies put into the folder, one file a copy.

    Every copy is first written beside its place under a name that begins with a point, and only when all are whole
    does each take its own name: a full disk leaves nothing that the driver would print. Where a file of that name is
    already, "-2", "-3" ... is added.

    Raises:
        WrapwrightError: unreachable, when the folder is not there, may not be written or is full; unusable, when the
            file cannot be read.
    """
    if not folder.is_dir():
        message = "The folder to print into is not there."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Make it, or name another.", where=str(folder))
    asides: list[Path] = []
    made: list[Path] = []
    try:
        for copy in range(1, copies + 1):
            step(copy)
            asides.append(_aside(file, folder, asides))
        for copy, aside in enumerate(asides, 1):
            made.append(_placed(aside, folder, _name(pattern, {**fields, "copy": str(copy)}, file.suffix)))
    except OSError as error:
        message = f"The folder to print into cannot be written: {error.strerror or error}."
        remedy = f"{len(made)} of {copies} copies were put there; look at its rights and at the room on its disk."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=str(folder)) from error
    finally:
        for aside in asides:
            with contextlib.suppress(OSError):
                aside.unlink(missing_ok=True)
    return tuple(made)


def _name(pattern: str, fields: Mapping[str, str], ending: str) -> str:
    stem = _FIELD.sub(lambda found: _plain(fields.get(found[1], "")), pattern)
    return clean_name(f"{stem}{ending.lower()}", otherwise=f"sheet{ending}")


def _plain(text: str) -> str:
    """Return a text as part of a file name: words with "-" between them."""
    return "-".join(clean_name(text, otherwise="").split())


def _aside(file: Path, folder: Path, asides: list[Path]) -> Path:
    """Return a whole copy of the file beside its place; what is half-written goes."""
    aside = folder / f".{shortened(file.name, 40)}.{secrets.token_hex(6)}"
    try:
        with aside.open("xb") as target:
            _copy(file, target.fileno())
    except BaseException:
        asides.append(aside)
        raise
    return aside


def _copy(file: Path, target: int) -> None:
    try:
        source = file.open("rb")
    except OSError as error:
        message = f"The file cannot be read: {error.strerror or error}."
        raise WrapwrightError(Kind.UNUSABLE, message, remedy="Name a sheet that was made.", where=str(file)) from error
    with source, os.fdopen(target, "wb", closefd=False) as out:
        shutil.copyfileobj(source, out, 1 << 20)
        out.flush()
        os.fsync(target)


def _placed(aside: Path, folder: Path, name: str) -> Path:
    """Give the file its name, or the first free one like it; never in place of another file."""
    for number in range(1, _MOST_TRIES):
        path = folder / (name if number == 1 else shortened(name, 120, mark=f"-{number}"))
        try:
            os.link(aside, path)  # unlike a rename it never takes another's place
        except FileExistsError:
            continue
        except OSError:  # a folder of a kind without links
            if path.exists():
                continue
            aside.rename(path)
        return path
    message = f"The folder to print into holds {_MOST_TRIES} files called like {name}."
    raise WrapwrightError(Kind.REFUSED, message, remedy="Clear it.", where=str(folder))
