"""Signing a list off: what the customer agreed to is kept, and what was changed after that is told."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.signing import LONGEST_NAME, SignedRow, SignOff, Since, row_digest, since_signed
from wrapwright.core.sheet.cut.words import ranges
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import ready_names
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.names.values import CheckNames
from wrapwright.outside.system.files import file_sha256

_NAMED = 8  # stretches of rows in a sentence; more are counted


@dataclass(frozen=True)
class SignNames:
    """Sign a job's list off.

    Attributes:
        job: the job file.
        by: who agreed.
        on: the day.
        file: where the sign-off is kept; None: beside the job.
    """

    job: Path
    by: str
    on: date
    file: Path | None = None


@dataclass(frozen=True)
class NamesSigned:
    """What was signed, and the file that keeps it."""

    signed: SignOff
    file: Path


def sign_names(request: SignNames, bench: Bench, watch: Watch) -> NamesSigned:
    """Return what was signed; it is kept in the place of an earlier sign-off.

    Raises:
        NamesWaitError: kind checks, when rows wait for a decision: what is not decided cannot be agreed to.
        WrapwrightError: usage, when nobody signs; the list cannot be read, or the file not be written.
    """
    from wrapwright.outside.tables.signed import signed_file, write_signed

    by = " ".join(request.by.split())
    if not by or len(by) > LONGEST_NAME or not by.isprintable():
        message = f"a sign-off has the name of who agreed, 1 to {LONGEST_NAME} letters."
        raise WrapwrightError(Kind.USAGE, message, where="--by")
    watch.step("reading the job", 0.0)
    names, checked = ready_names(CheckNames(request.job), bench, watch)
    signed = SignOff(by, request.on.isoformat(), names.sha256, design_sha256(names), checked.rows)
    file = request.file or signed_file(request.job)
    write_signed(file, signed, rows_now(names))
    return NamesSigned(signed, file)


def rows_now(names: NamesList) -> Iterator[SignedRow]:
    """Yield the rows of a list as they are, what their pictures hold included, ascending."""
    for one in names.rows():
        pictures = [_held_by(names.opened.path_of(written)) for _, written in sorted(one.row.pictures.items())]
        yield SignedRow(one.row.number, row_digest(one.row, skipped=one.skipped, pictures=pictures))


def design_sha256(names: NamesList) -> str:
    """Return the hash of the job and of what the files that it names hold, its table aside."""
    files = sorted(one for one in names.opened.job.files if one != names.asked.file)
    held = [f"{one} {_held_by(names.opened.path_of(one))}" for one in files]
    return hashlib.sha256("\n".join([names.opened.sha256, *held]).encode("utf-8")).hexdigest()


def _held_by(file: Path) -> str:
    """Return the hash of a file, "" where it cannot be read; a file that was not written to is read once."""
    try:
        state = file.stat()
        return _sha256(file, state.st_size, state.st_mtime_ns)
    except OSError:
        return ""


@lru_cache(maxsize=20_000)
def _sha256(file: Path, size: int, written_ns: int) -> str:
    del size, written_ns  # with others it is another file
    return file_sha256(file)


def since(names: NamesList) -> Since | None:
    """Return what has changed since a list was signed, None when nobody has signed it.

    Raises:
        WrapwrightError: unusable, when the file of the sign-off is damaged.
    """
    from wrapwright.outside.tables.signed import read_signed, signed_file, signed_rows

    file = signed_file(names.opened.folder / names.opened.name)
    signed = read_signed(file)
    if signed is None:
        return None
    design = design_sha256(names)
    if (signed.list_sha256, signed.design_sha256) == (names.sha256, design) and not names.mapping.pictures:
        return Since(signed)
    return since_signed(signed, signed_rows(file), rows_now(names), design_sha256=design)


def signed_words(found: Since | None) -> tuple[str, ...]:
    """Return who signed a list and what has changed since, a sentence each; nothing for a list that nobody signed."""
    if found is None:
        return ()
    said = [f"Signed off by {found.signed.by} on {found.signed.on}, {found.signed.rows} rows."]
    if found.design:
        said.append("The job itself, or a file that it names, was changed after the sign-off: have it looked at again.")
    verbs = ("edited after the sign-off", "added after the sign-off", "gone since the sign-off")
    for rows, count, verb in zip((found.changed, found.added, found.gone), found.counts, verbs, strict=True):
        if count:
            was = "" if verb.startswith("gone") else " was" if count == 1 else " were"
            is_gone = (" is" if count == 1 else " are") if verb.startswith("gone") else was
            said.append(f"{count} {'row' if count == 1 else 'rows'}{is_gone} {verb}: {named_rows(rows, count)}.")
    return tuple(said)


def named_rows(rows: tuple[int, ...], count: int) -> str:
    """Return row numbers as people say them: "5, 7–9"; of many the first, and how many more there are."""
    if not rows:
        return ""
    said = ranges(rows)
    parts = said.split(", ")
    if len(parts) <= _NAMED and count == len(rows):
        return said
    shown = parts[:_NAMED]
    held = sum(_held(one) for one in shown)
    return f"{', '.join(shown)} and {count - held} more" if count > held else ", ".join(shown)


def _held(part: str) -> int:
    first, _, last = part.partition("–")
    return int(last) - int(first) + 1 if last else 1
