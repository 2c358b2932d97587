"""`sheets`: several jobs printed together on the fewest sheets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.faces.cli.make import made_files
from wrapwright.faces.cli.options import Accept, Folder, Force, Json, Quiet, Verbose, job_named, rules_of
from wrapwright.faces.cli.talk import Talk, lines, show, show_document

EXAMPLE = "wrapwright sheets friday.toml -o friday-sheets --seconds 10"

_COUNTED = re.compile(r"(?P<job>.+)=(?P<count>[^=]*)", re.DOTALL)


def sheets(
    output: Folder,
    file: Annotated[
        str | None, typer.Argument(metavar="SHEETS", help="The sheets file (TOML); - reads it from standard input.")
    ] = None,
    piece: Annotated[
        list[str] | None,
        typer.Option(
            "--piece",
            "-p",
            metavar="JOB=NUMBER",
            help="A job file and how many of it, instead of a sheets file; may be repeated.",
        ),
    ] = None,
    seconds: Annotated[
        float, typer.Option("--seconds", min=0.0, max=600.0, help="Longest search for fewer sheets.")
    ] = 5.0,
    *,
    force: Force = False,
    accept: Accept = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Print several jobs together on the fewest sheets: the sheets, a cut list, proofs, tickets and a report.

    One printer and one colour route serve all jobs: those of the sheets file, else of the first job.
    """
    path, text, jobs = _asked(file, piece)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.lay.make_together import make_together
    from wrapwright.jobs.lay.requests import TogetherRequest

    talk = Talk(quiet, verbose, json)
    request = TogetherRequest(output, path, text, jobs, seconds, force=force, accept=rules_of(accept))
    with talk.watching() as watch:
        made = make_together(request, bench_of(open_settings()), watch)
    if json:
        show_document(made.report)
        return
    for one in made_files(made.report, output):
        show(str(one))
    talk.say(made.report["lay"]["words"])
    for note in made.report["notes"]:
        talk.say(note)
    for line in lines(_named(made.findings, verbose=verbose)):
        talk.say(line)


def _asked(
    file: str | None, piece: Sequence[str] | None
) -> tuple[Path | None, str | None, tuple[tuple[Path, int | None], ...]]:
    """Return the sheets file's path or text, or the jobs and how many of each."""
    if file is not None and piece:
        message = "A sheets file and single jobs are both given."
        raise WrapwrightError(Kind.USAGE, message, remedy="Name one or the other.", where="--piece")
    if file is not None:
        return *job_named(file), ()
    if not piece:
        message = "There is nothing to print."
        raise WrapwrightError(
            Kind.USAGE, message, remedy="Name a sheets file, or jobs: -p mug.toml=12.", where="SHEETS"
        )
    return None, None, tuple(_counted(one) for one in piece)


def _counted(written: str) -> tuple[Path, int | None]:
    """Return a job's path and number; None where no number is given."""
    found = _COUNTED.fullmatch(written)
    if found is None:
        return Path(written), None
    count = found["count"].strip()
    if not count.isascii() or not count.isdigit() or int(count) < 1:
        message = f'"{count}" is no number of pieces.'
        raise WrapwrightError(
            Kind.USAGE, message, remedy="Write a whole number from 1: mug.toml=12.", where=f"-p {written}"
        )
    return Path(found["job"]), int(count)


def _named(findings: Sequence[tuple[str, Finding]], *, verbose: bool) -> list[Finding]:
    """Return findings to be listed, each message with its job's title before it."""
    return [
        replace(one, message=f"{title}: {one.message}")
        for title, one in findings
        if verbose or one.severity is not Severity.NOTE
    ]
