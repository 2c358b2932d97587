"""Options that several commands share, each with its one help text."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Job = Annotated[str, typer.Argument(metavar="JOB", help="The job file (TOML); - reads it from standard input.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but results and errors.")]
Verbose = Annotated[bool, typer.Option("--verbose", "-v", help="Say more; show where an unexpected error arose.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document on standard output.")]
Accept = Annotated[
    list[str] | None,
    typer.Option("--accept", metavar="RULE", help="Go on in spite of this rule's error; may be repeated; or: all."),
]
Folder = Annotated[Path, typer.Option("--output", "-o", metavar="DIR", help="The folder for the files.")]
Force = Annotated[bool, typer.Option("--force", help="Replace the files of an earlier run.")]
