"""`export` and `import`: a design with all it needs as one zip file."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from wrapwright.faces.cli.kept.design import Design
from wrapwright.faces.cli.kept.telling import tell
from wrapwright.faces.cli.options import Force, Json, Quiet, Revision, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXPORT_EXAMPLE = "wrapwright export 3 -o regatta.zip"
IMPORT_EXAMPLE = "wrapwright import regatta.zip"


def export(
    design: Design,
    file: Annotated[Path, typer.Option("--output", "-o", metavar="FILE", help="The zip file to write.")],
    revision: Revision = 0,
    *,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Write a design as one zip file: its job file, and every picture, profile and font of your own that it needs."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.kept.designs import FindDesign, find_design
    from wrapwright.jobs.kept.exchange import ExportDesign, export_design

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        number = find_design(FindDesign(design), bench, watch)
        written = export_design(ExportDesign(number, revision, file, force=force), bench, watch)
    if json:
        show_document({"format": FORMAT, "design": number, "file": written.as_posix()})
        return
    show(str(written))


def bring(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A zip file that export has written.")],
    *,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep the design in a zip file, with the files that came with it."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.kept.exchange import ImportDesign, import_design

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        kept = import_design(ImportDesign(file), bench_of(open_settings()), watch)
    tell("design", kept, f"{kept.id}  {kept.title}", json=json)
