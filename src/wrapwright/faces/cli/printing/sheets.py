"""`print`: a sheets file to a printer or a watched folder, at actual size."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document

EXAMPLE = 'wrapwright print bottle-sheets/sheets.pdf --setup "Desk printer" --copies 2'


def print_sheets(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A sheets.pdf that was made.")],
    to: Annotated[
        str,
        typer.Option("--to", metavar="PRINTER", help="An address (ipp://...), a set-up's name, or a watched folder."),
    ] = "",
    setup: Annotated[
        str, typer.Option(metavar="NAME", help="The set-up it was made with: its printer, and its margins.")
    ] = "",
    copies: Annotated[int, typer.Option(metavar="NUMBER", min=1, max=999, help="How many of it.")] = 1,
    title: Annotated[str, typer.Option(metavar="WORDS", help="What it is called at the printer.")] = "",
    *,
    even_so: Annotated[
        bool, typer.Option("--even-so", help="Print in spite of what speaks against it: paper, scaling, margins.")
    ] = False,
    leave: Annotated[bool, typer.Option("--leave", help="Hand it over, and do not wait until it is printed.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Print sheets at actual size, once: never scaled, on the sheet's paper, on one side.

    The printer is asked first whether it has the paper, can leave the size as it is and reaches as far as the sheet is
    printed. Then it is watched until the sheet is out; Ctrl-C cancels it there.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.print.sending import print_sheets
    from wrapwright.jobs.print.values import PrintSheets

    talk = Talk(quiet, verbose, json)
    request = PrintSheets(file, to, setup, copies, title, even_so=even_so, leave=leave)
    with talk.watching() as watch:
        printed = print_sheets(request, bench_of(open_settings()), watch)
    if json:
        show_document(printed_document(printed))
        return
    for line in lines(printed.findings):
        talk.say(line)
    show(printed_words(printed))


def printed_document(printed: Any) -> dict[str, Any]:
    """Return the document of what became of a print."""
    from wrapwright.faces.cli.kept.telling import row_of
    from wrapwright.faces.outcomes import FORMAT

    return {
        "format": FORMAT,
        "print": row_of(printed.sent),
        "sent_now": printed.again,
        "files": [str(file) for file in printed.files],
        "checks": rows(printed.findings),
    }


def printed_words(printed: Any) -> str:
    """Return in a sentence what became of a print."""
    sent = printed.sent
    if printed.files:
        return "\n".join(str(file) for file in printed.files)
    if not printed.again:
        return f"{sent.title} was handed over before, as job {sent.job}, and was not sent again: {sent.words}."
    return f"{sent.title}: job {sent.job} {sent.words}."
