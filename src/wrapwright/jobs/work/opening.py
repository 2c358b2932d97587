"""Opening a job file: its text, its folder, and the hashes that the report names."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.store.records import JOB_FILE, NO_TITLE

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.named import Shelf


@dataclass(frozen=True)
class Opened:
    """A job that was read.

    Attributes:
        job: what it says.
        folder: where the paths in it start.
        name: the job file's name, or "-" for standard input.
        sha256: hash of its bytes.
        absent: files that it names and that are not there, by path as written: a sentence each.
    """

    job: Job
    folder: Path
    name: str
    sha256: str
    absent: Mapping[str, WrapwrightError] = field(default_factory=dict)

    def path_of(self, written: str) -> Path:
        """Return the place of a file that the job names."""
        return self.folder / written


def opened(path: Path | None, text: str | None, fonts: Path, shelf: Shelf | None = None) -> Opened:
    """Return the job in a file, or in a text whose paths start at the working folder.

    `fonts` is the folder of the user's own; `shelf` is looked at when the job says `use`.

    Raises:
        WrapwrightError: missing when there is no such job file; unusable with all that is wrong in it, unless files
            that are not there are all that is wrong: those are told in `absent`.
    """
    from wrapwright.outside.jobfile.reading import job_text, read_job

    absent: dict[str, WrapwrightError] = {}
    if path is None:
        words = text or ""
        data = words.encode("utf-8")
        job = read_job(words, folder=Path(), stem=NO_TITLE, shelf=shelf, fonts=fonts, where="-", absent=absent)
        return Opened(job, Path(), "-", hashlib.sha256(data).hexdigest(), absent)
    data = _bytes_of(path)
    name = str(path)
    words = job_text(data, where=name)
    job = read_job(words, folder=path.parent, stem=path.stem, shelf=shelf, fonts=fonts, where=name, absent=absent)
    return Opened(job, path.parent, path.name, hashlib.sha256(data).hexdigest(), absent)


def opened_document(
    document: Mapping[str, Any], folder: Path, fonts: Path, shelf: Shelf | None = None, *, lists: bool = False
) -> Opened:
    """Return the job of a stored document whose files lie in `folder`, as its job file would give it.

    Arguments and errors as for `opened`; with `lists` the document may have a list of names. Its name is that of the
    job file it would be exported as, and its hash that file's.
    """
    from wrapwright.outside.jobfile.reading import read_document
    from wrapwright.outside.jobfile.writing import job_toml

    absent: dict[str, WrapwrightError] = {}
    job = read_document(
        dict(document), folder=folder, stem=NO_TITLE, shelf=shelf, fonts=fonts, absent=absent, lists=lists
    )
    digest = hashlib.sha256(job_toml(document).encode("utf-8")).hexdigest()
    return Opened(job, folder, JOB_FILE, digest, absent)


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except FileNotFoundError as error:
        message = "There is no such job file."
        raise WrapwrightError(Kind.MISSING, message, remedy="Check the path's spelling.", where=str(path)) from error
    except OSError as error:
        if path.is_dir():
            raise unusable("This is a folder; a job file is needed.", where=str(path)) from error
        raise unusable(f"The job file cannot be read: {error.strerror}.", where=str(path)) from error
