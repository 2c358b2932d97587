"""`schema`: the published JSON Schemas."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import show_document

EXAMPLE = "wrapwright schema job"


class Document(StrEnum):
    """Documents that have a schema."""

    JOB = "job"
    REPORT = "report"
    SHEETS = "sheets"
    SHEETS_REPORT = "sheets-report"
    NAMES_REPORT = "names-report"


def schema(
    document: Annotated[
        Document, typer.Argument(metavar="job|report|sheets|sheets-report|names-report", help="Which schema.")
    ],
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Print the JSON Schema of the job file, of the sheets file, or of the report of either or of a list of names."""
    from wrapwright.jobs.show_schema import show_schema

    del quiet, verbose, json  # it prints one JSON document and says nothing in any case
    show_document(show_schema(document.value))
