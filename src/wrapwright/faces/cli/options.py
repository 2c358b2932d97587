"""Options that several commands share, each with its one help text."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all, unusable
from wrapwright.core.base.findings import NEVER_ACCEPTED
from wrapwright.core.checks.names import folded, unknown_rules

LONGEST = 4_000_000  # bytes of a job on standard input

Job = Annotated[str, typer.Argument(metavar="JOB", help="The job file (TOML); - reads it from standard input.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but results and errors.")]
Verbose = Annotated[bool, typer.Option("--verbose", "-v", help="Say more; show where an unexpected error arose.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document on standard output.")]
Accept = Annotated[
    list[str] | None,
    typer.Option("--accept", metavar="RULE", help="Go on in spite of this rule's error; may be repeated; or: all."),
]
Folder = Annotated[Path, typer.Option("--output", "-o", metavar="DIR", help="The folder for the files.")]
FromJob = Annotated[
    Path | None, typer.Option("--from", metavar="JOB", help="Take them from this job file instead of options.")
]
Revision = Annotated[int, typer.Option("--revision", metavar="NUMBER", min=0, help="Not the newest but this one.")]
Force = Annotated[bool, typer.Option("--force", help="Replace the files of an earlier run.")]


def rules_of(accept: Sequence[str] | None) -> frozenset[str]:
    """Return the rules that --accept names, in small letters.

    Raises:
        WrapwrightError: usage, for each word that names no rule, or a rule that can never be accepted.
    """
    words = accept or ()
    rules = folded(words)
    problems = [
        WrapwrightError(Kind.USAGE, one.message, remedy=one.remedy, where=one.where)
        for one in unknown_rules(words, where="--accept")
    ]
    problems += [
        WrapwrightError(Kind.USAGE, f"{rule} can never be accepted.", remedy="Mend the job.", where="--accept")
        for rule in sorted(rules & NEVER_ACCEPTED)
    ]
    raise_all(problems)
    return rules


def job_named(job: str) -> tuple[Path | None, str | None]:
    """Return (path, None) of a job file, or (None, text) for "-".

    Raises:
        WrapwrightError: unusable, for text on standard input that is not UTF-8 or longer than 4 MB.
    """
    if job == "-":
        return None, _text()
    return Path(job), None


def _text() -> str:
    content = sys.stdin.buffer.read(LONGEST + 1)
    if len(content) > LONGEST:
        raise unusable(f"The job on standard input is longer than {LONGEST // 1_000_000} MB.", where="-")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise unusable(f"The job on standard input is not UTF-8 (byte {error.start}).", where="-") from error
