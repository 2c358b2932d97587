"""`setup printer`: where a set-up's sheets are printed, and its paper and margins as the printer states them."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show

EXAMPLE = 'wrapwright setup printer "Desk printer" ipp://desk-printer.example/ipp/print --fill'


def setup_printer(
    name: Annotated[str, typer.Argument(metavar="NAME", help="The set-up's name.")],
    where: Annotated[
        str, typer.Argument(metavar="[PRINTER]", help="An address (ipp://...), or a folder that a driver watches.")
    ] = "",
    *,
    pattern: Annotated[
        str,
        typer.Option(metavar="NAMES", help="How files in the folder are called: {title}-{date}-{copy}.pdf."),
    ] = "",
    fill: Annotated[bool, typer.Option("--fill", help="Take paper and margins from the printer.")] = False,
    paper: Annotated[str, typer.Option(metavar="PAPER", help="With --fill: which of its papers.")] = "",
    none: Annotated[bool, typer.Option("--none", help="It has no printer any more.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Say where a set-up prints: a printer on the network, or a folder that a driver watches.

    The printer is asked whether it is there. Without a printer named, what is kept is shown.
    """
    from wrapwright.faces.cli.kept.telling import show_row
    from wrapwright.faces.cli.readings import misuse
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.print.printers import FillSetup, SetPrinter, fill_setup, set_printer

    if none and (where or fill):
        raise misuse("--none does not go with a printer.", "Give the one or the other.")
    if paper and not fill:
        raise misuse("--paper is for --fill.", "Add --fill, or change the set-up's paper itself.")
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        if where or none:
            set_printer(SetPrinter(name, where, pattern), bench, watch)
        setup = fill_setup(FillSetup(name, paper), bench, watch) if fill else None
    kept = _kept(name, bench)
    if json:
        show_row("printer", kept)
        return
    show(f"{name} prints " + (f"to {kept.address or kept.folder}" if kept is not None else "nowhere yet"))
    if setup is not None:
        talk.say(f"Paper {setup.sheet['paper']}, margins {setup.sheet['margins']} mm (top, right, bottom, left).")


def _kept(name: str, bench: Any) -> Any:
    from wrapwright.outside.store.rows.prints import printer_of
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().reading() as connection:
        return printer_of(connection, setup_kept(connection, name=name).id)
