"""`proof`: the finished piece on paper or screen."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.jobfile import job_named
from wrapwright.faces.cli.options import Force, Job, Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXAMPLE = "wrapwright proof bottle.toml -o bottle.png"
ENDINGS = (".pdf", ".png")


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

    if file.suffix.lower() not in ENDINGS:
        message = f"A proof is a PDF or a PNG; {file.name!r} ends in neither."
        raise WrapwrightError(Kind.USAGE, message, remedy="Give a name that ends in .pdf or .png.", where="-o")
    talk = Talk(quiet, verbose, json)
    if file.exists() and not force:
        message = "The file exists already; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(file))
    with talk.watching() as watch:
        proofed = draw_proof(ProofRequest(path, text, file, force=force), bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "file": file.as_posix(), "checks": rows(proofed.findings)})
        return
    show(str(proofed.file))
    for line in lines(proofed.findings):
        talk.say(line)
