"""`names make`: the pieces of a list made."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.findings import Severity
from wrapwright.faces.cli.make import made_files
from wrapwright.faces.cli.names.rows import JobFile, rows_named
from wrapwright.faces.cli.names.telling import counted
from wrapwright.faces.cli.options import Accept, Folder, Force, Json, Quiet, Verbose, rules_of
from wrapwright.faces.cli.talk import Talk, lines, show, show_document

if TYPE_CHECKING:
    from wrapwright.jobs.names.make_names import NamesMade


class OrderOf(StrEnum):
    """In which order pieces fill the sheets."""

    ROWS = "rows"
    PILES = "piles"


def make(
    job: JobFile,
    output: Folder,
    order: Annotated[
        OrderOf, typer.Option("--order", help="Piece after piece on a sheet, or down through a stack of sheets.")
    ] = OrderOf.ROWS,
    *,
    rows: Annotated[
        str | None, typer.Option("--rows", metavar="ROWS", help="Only these again, numbers and codes as in the whole.")
    ] = None,
    sheets_a_file: Annotated[
        int, typer.Option("--sheets-a-file", metavar="NUMBER", min=1, help="More sheets make several files.")
    ] = 500,
    seconds: Annotated[
        float, typer.Option("--seconds", min=0.0, max=600.0, help="Longest search for a fuller sheet.")
    ] = 2.0,
    cluster: Annotated[
        str, typer.Option("--cluster", metavar="ADDRESS", help="Let the workers of a cluster make it: tcp://HOST:PORT.")
    ] = "",
    place: Annotated[
        str, typer.Option("--place", metavar="PLACE", help="With --cluster: a folder all see, or s3://bucket/prefix.")
    ] = "",
    accept: Accept = None,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Make the pieces of a job's list: sheets, manifest, cut list, proof, ticket, contact sheet and handling list.

    Nothing is made while a row waits for a decision. Stopped and started again, it makes nothing twice.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.make_names import MakeNames, make_names
    from wrapwright.jobs.names.values import NamesWaitError

    talk = Talk(quiet, verbose, json)
    request = MakeNames(
        job=job,
        folder=output,
        force=force,
        order=order.value,
        rows=None if rows is None else rows_named(rows, "rows"),
        sheets_a_file=sheets_a_file,
        accept=rules_of(accept),
        seconds=seconds,
        cluster=cluster,
        place=place,
    )
    try:
        with talk.watching() as watch:
            made = make_names(request, bench_of(open_settings()), watch)
    except NamesWaitError as stop:
        _told(stop, json=json)
        raise
    if json:
        show_document(made.report)
    else:
        _say(talk, made, output)


def _say(talk: Talk, made: NamesMade, folder: Path) -> None:
    for file in made_files(made.report, folder):
        show(str(file))
    for line in made_lines(made.report["names"], made.report["lay"]):
        talk.say(line)
    for line in made.signed:
        talk.say(line)
    for line in lines([one for one in made.findings if talk.verbose or one.severity is not Severity.NOTE]):
        talk.say(line)


def made_lines(names: Mapping[str, Any], lay: Mapping[str, Any]) -> list[str]:
    """Return how the rows of a report ended, in words."""
    ended = (
        f"{counted(names['rows'], 'row')}: {names['made']} made ({counted(names['pieces'], 'piece')}), "
        f"{names['skipped']} skipped, {names['refused']} refused."
    )
    return [lay["words"], ended, *(f"row {one['row']} refused: {one['reason']}" for one in names["refused_rows"])]


def _told(stop: object, *, json: bool) -> None:
    """Say which rows wait, as the check of the list does."""
    from wrapwright.faces.cli.names.telling import checked_lines, checked_row
    from wrapwright.jobs.names.values import NamesWaitError

    if isinstance(stop, NamesWaitError):
        stop.told = {"names": checked_row(stop.checked)}
        for line in () if json else checked_lines(stop.checked, whole=False):
            show(line)
