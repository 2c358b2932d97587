"""`proof`: the finished piece on paper or screen."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.faces.cli.options import Force, Job, Json, Quiet, Verbose, job_named
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXAMPLE = "wrapwright proof bottle.toml -o bottle.png"


def proof(
    job: Job,
    file: Annotated[Path, typer.Option("--output", "-o", metavar="FILE", help="PDF or PNG, by its ending.")],
    *,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Draw the finished piece from four sides beside its flat wrap."""
    path, text = job_named(job)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.draw_proof import draw_proof
    from wrapwright.jobs.requests import ProofRequest

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        proofed = draw_proof(ProofRequest(path, text, file, force=force), bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "file": file.as_posix(), "checks": rows(proofed.findings)})
        return
    show(str(proofed.file))
    for line in lines(proofed.findings):
        talk.say(line)
