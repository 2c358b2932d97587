"""`names contact`, `names sign` and `verify`: a list looked at and agreed to, and what was made of it proved."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.names.making import OrderOf
from wrapwright.faces.cli.names.rows import JobFile
from wrapwright.faces.cli.names.telling import counted
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.names.proving.values import NamesVerified

VERIFY_EXAMPLE = "wrapwright verify regatta-sheets"


def contact(
    job: JobFile,
    output: Annotated[Path, typer.Option("--output", "-o", metavar="FILE", help="The PDF to write.")],
    order: Annotated[
        OrderOf, typer.Option("--order", help="Piece after piece on a sheet, or down through a stack of sheets.")
    ] = OrderOf.ROWS,
    *,
    force: Force = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Make the contact sheet of a list: every piece as it will be finished, to be looked at and signed off.

    Beyond 500 rows it shows a sample, the longest names, and every row that is an exception.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.contact.show_contact import ShowContact, show_contact

    with Talk(quiet, verbose, json).watching() as watch:
        request = ShowContact(job, output, force, order.value)
        digest = show_contact(request, bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "contact": {"file": output.as_posix(), "list_sha256": digest}})
    else:
        show(str(output))


def sign(
    job: JobFile,
    by: Annotated[str, typer.Option("--by", metavar="NAME", help="Who looked at the pieces and agreed.")],
    *,
    on: Annotated[
        str, typer.Option("--date", metavar="DATE", help="The day, as 2026-05-02; today when left out.")
    ] = "",
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Sign a list off: who agreed, the day and the hash of every row are kept beside the job.

    A row that is edited afterwards is named by `names check`, on the contact sheet and in what `names make` reports.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.signing import SignNames, sign_names

    day = _day(on)
    with Talk(quiet, verbose, json).watching() as watch:
        done = sign_names(SignNames(job, by, day), bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "signed": {**vars(done.signed), "file": done.file.as_posix()}})
        return
    show(f"{counted(done.signed.rows, 'row')} signed off by {done.signed.by} on {done.signed.on}; kept in {done.file}")


def _day(words: str) -> date:
    try:
        return date.fromisoformat(words) if words else date.today()  # noqa: DTZ011 (the day where the person is)
    except ValueError:
        message = f'"{words[:40]}" is no day.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Write it as 2026-05-02.", where="--date") from None


def verify(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="The folder that names make has left.")],
    *,
    job: Annotated[
        Path | None, typer.Option("--job", metavar="JOB", help="The job file, where it does not lie beside DIR.")
    ] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Prove what was made of a list: every piece and every code in the sheets is read back and held against its row.

    Ends with 0 when all of it agrees, with 4 when something does not.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.proving.values import NamesUnprovenError, VerifyNames
    from wrapwright.jobs.names.proving.verify import verify_names

    talk = Talk(quiet, verbose, json)
    try:
        with talk.watching() as watch:
            found = verify_names(VerifyNames(folder, job), bench_of(open_settings()), watch)
    except NamesUnprovenError as stop:
        stop.told = {"verified": verified_row(stop.verified)}
        for line in () if json else flaw_lines(stop.verified):
            show(line)
        raise
    if json:
        show_document({"format": FORMAT, "verified": verified_row(found)})
        return
    for line in verified_lines(found):
        show(line)


def flaw_lines(found: NamesVerified) -> Iterable[str]:
    """Yield what does not agree, a sentence a line."""
    yield from (one.words for one in found.flaws)
    if found.flaw_count > len(found.flaws):
        yield f"and {found.flaw_count - len(found.flaws)} more"


def verified_lines(found: NamesVerified) -> Iterable[str]:
    """Yield what was proved, in words."""
    yield (
        f"{counted(found.pieces, 'piece')} of {counted(found.rows, 'row')} on {counted(found.pages, 'page')} "
        f"{'agrees' if found.pieces == 1 else 'agree'} with the list: what each says, its outlines ({found.shapes}), "
        f"its code ({found.codes}), its place and the art it shares."
    )
    if found.pixels:
        yield f"{found.pixels} with pixels of their own were drawn anew and are the same."
    yield from found.notes


def verified_row(found: NamesVerified) -> dict[str, Any]:
    """Return what was proved, as a document says it."""
    figures = ("title", "rows", "pieces", "codes", "shapes", "alone", "pixels", "pages", "files")
    return {
        **{key: getattr(found, key) for key in figures},
        "agrees": found.flaw_count == 0,
        "flaw_count": found.flaw_count,
        "flaws": [
            {"kind": one.kind, "words": one.words, "row": one.row or None, "piece": one.piece or None,
             "file": one.file or None, "page": one.page or None}
            for one in found.flaws
        ],
        "notes": list(found.notes),
    }  # fmt: skip
