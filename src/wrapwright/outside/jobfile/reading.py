"""A job file read: every problem in it found together, or the job as core values."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.outside.jobfile.job import Job, job_of
from wrapwright.outside.jobfile.model import JobFile
from wrapwright.outside.jobfile.named import (
    Shelf,
    absent_files,
    files_named,
    names_in_doubt,
    stray_files,
    with_blank,
)
from wrapwright.outside.jobfile.presence import keys_in_doubt
from wrapwright.outside.jobfile.problems import element_names, problems_of
from wrapwright.outside.jobfile.values import shown

FORMAT = 1
LARGEST_BYTES = 2_000_000  # a job file is a page or two; this is a hundred times a long one

NO_LISTS = "Take [names] out and bring the table on the design's screen of names."

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


def job_text(data: bytes, *, where: str = "", called: str = "job file") -> str:
    """Return the text of a job file's bytes (UTF-8, with or without a byte order mark); `where` is named in errors.

    Raises:
        WrapwrightError: unusable; over 2 MB, or not UTF-8 (with the byte's place).
    """
    if len(data) > LARGEST_BYTES:
        raise unusable(f"the {called} has {len(data)} bytes; the limit is {LARGEST_BYTES}.", where=where)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = data.count(b"\n", 0, problem.start) + 1
        message = f"the {called} is not UTF-8 text in line {line}."
        raise unusable(message, remedy="Save it as UTF-8.", where=where) from None


def read_job(
    text: str,
    *,
    folder: Path,
    stem: str,
    shelf: Shelf | None = None,
    fonts: Path | None = None,
    where: str = "",
    absent: dict[str, WrapwrightError] | None = None,
) -> Job:
    """Return the job that a job file's text describes.

    Args:
        text: TOML, format 1.
        folder: the job file's folder; paths in it start there.
        stem: the job file's name without its ending; the title when none is written.
        shelf: the blanks known by name, looked at when the job says `use`; none when left out.
        fonts: the user's font folder, where a text's font file may lie as well.
        where: what errors about the whole file call it.
        absent: when given, and nothing else is wrong, files that are not there (path as written) are told in it instead
            of being raised, so that the files that are there can be looked at too.

    Raises:
        WrapwrightError: unusable; one sentence, or SeveralProblemsError with all that was found.
    """
    document = toml_document(text, where)
    right_format(document)
    document, names = with_blank(document, shelf)
    missing = list(absent_files(document, folder, fonts=fonts))
    return _job(document, stem, names, missing, absent)


def read_document(
    document: dict[str, Any],
    *,
    folder: Path,
    stem: str,
    shelf: Shelf | None = None,
    fonts: Path | None = None,
    absent: dict[str, WrapwrightError] | None = None,
    lists: bool = False,
) -> Job:
    """Return the job that a document describes: what a job file's text holds once it is a table of tables.

    Dates may be written as text, as JSON has to. Arguments and errors as for `read_job`, but that a document, which
    may come from anywhere, names no file outside `folder` (and `fonts`): such a one counts as not there; and that it
    has a list of names only with `lists`: a stored design keeps its own beside it.
    """
    right_format(document)
    document, names = with_blank(document, shelf)
    stray = dict(stray_files(document))
    missing = [*stray.items(), *(one for one in absent_files(document, folder, fonts=fonts) if one[0] not in stray)]
    return _job(document, stem, names, missing, absent, lists=lists)


def _job(
    document: dict[str, Any],
    stem: str,
    names: tuple[str, ...],
    missing: list[tuple[str, WrapwrightError]],
    absent: dict[str, WrapwrightError] | None,
    *,
    lists: bool = True,
) -> Job:
    problems: list[WrapwrightError] = []
    model = None
    try:
        model = JobFile.model_validate(document)
    except ValidationError as error:
        problems += problems_of(error, document, JobFile)
    problems += keys_in_doubt(document)
    problems += names_in_doubt(document, shelf=names)
    if "names" in document and not lists:
        problems.append(
            unusable(
                "a stored design keeps its list of names beside it, not in its document.",
                remedy=NO_LISTS,
                where="names",
            )
        )
    if problems or absent is None:
        raise_all([*problems, *(problem for _, problem in missing)])
    else:
        absent.update(missing)
    if model is None:  # pragma: no cover - raise_all left with the model's own problems
        raise AssertionError("a document the model refused has no problem to show")
    files = tuple(dict.fromkeys(written for _, written in files_named(document)))
    return job_of(model, stem=stem, names=element_names(document), files=files)


def toml_document(text: str, where: str, *, called: str = "job file") -> dict[str, Any]:
    """Return the tables of a TOML text; raises WrapwrightError (unusable) with line and column where it is none."""
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except tomllib.TOMLDecodeError as problem:
        said = str(problem)
    except RecursionError:
        said = "Tables or lists are nested too deeply"
    except ValueError as problem:
        said = f"A value cannot be read: {problem}"
    found = _PLACE.search(said)
    what = _PLACE.sub("", said).rstrip(".")
    line, column = _place(text, found)
    if what.startswith(("Cannot overwrite", "Cannot declare")):  # the standard library's words for it
        raise unusable(
            f"a key or table stands in the {called} for the second time (line {line}, column {column}).",
            remedy="Keep one of the two.",
            where=where,
        ) from None
    raise unusable(
        f"the {called} is not TOML (line {line}, column {column}): {what[:200]}.",
        remedy="Text stands in quotes, a list in [ ], a table in { }.",
        where=where,
    ) from None


def _place(text: str, found: re.Match[str] | None) -> tuple[int, int]:
    if found is not None and found[1]:
        return int(found[1]), int(found[2])
    if found is None:
        return 1, 1
    lines = text.split("\n")
    return len(lines), len(lines[-1]) + 1


def right_format(document: dict[str, Any]) -> None:
    """Raise for another format at once: what else seems wrong may be right in it."""
    if "format" not in document:
        raise unusable("format is missing.", remedy="Write format = 1 in the first line.", where="format")
    number = document["format"]
    if isinstance(number, bool) or number != FORMAT or not isinstance(number, int):
        raise unusable(
            f"the format {shown(number)} is not known; this version reads format {FORMAT}.",
            remedy="Write format = 1, or use a version that knows the other.",
            where="format",
        )
