"""`printers`: which printers there are, and what one of them says of itself."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Any

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document

EXAMPLE = "wrapwright printers --find"


def printers(
    printer: Annotated[
        str, typer.Argument(metavar="[PRINTER]", help="Show this one: an address (ipp://...) or a set-up's name.")
    ] = "",
    *,
    find: Annotated[bool, typer.Option("--find", help="Ask the local network too, for 2 seconds.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the printers of your set-ups and of this machine; with a printer named, its papers and margins."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.faces.outcomes import FORMAT
    from wrapwright.jobs.print.printers import ListPrinters, ShowPrinter, list_printers, show_printer

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    with talk.watching() as watch:
        if printer:
            facts = show_printer(ShowPrinter(printer), bench, watch)
        else:
            known = list_printers(ListPrinters(find), bench, watch)
    if printer:
        if json:
            show_document({"format": FORMAT, "printer": _plain(facts)})
            return
        for line in facts_lines(facts):
            show(line)
        return
    if json:
        show_document({"format": FORMAT, "setups": _rows(known.setups), "found": _rows(known.found)})
        return
    _list(known)
    if not (known.setups or known.found):
        more = "" if find else ", or look on the network: wrapwright printers --find"
        talk.say(f"No printer is known. Give a set-up one: wrapwright setup printer NAME ipp://...{more}")


def _list(known: Any) -> None:
    from wrapwright.faces.cli.kept.telling import show_columns

    rows = [(one.name, one.address or one.folder, "set-up") for one in known.setups]
    rows += [
        (one.name, one.address, ", ".join(part for part in (one.origin, one.model) if part)) for one in known.found
    ]
    show_columns(rows)


def _rows(kept: Any) -> list[dict[str, Any]]:
    return [asdict(one) for one in kept]


def _plain(facts: Any) -> dict[str, Any]:
    """Return a printer as a document tells it."""
    return {**asdict(facts), "operations": sorted(facts.operations), "readiness": facts.readiness.value}


def facts_lines(facts: Any) -> list[str]:
    """Return what a printer says of itself, as lines to read."""
    from wrapwright.core.sheet.printer.judging import size_words

    scaling = "does not say whether it can leave the size as it is"
    if facts.scalings is not None:
        scaling = "leaves the size as it is" if "none" in facts.scalings else "cannot leave the size as it is"
    state = ": ".join(part for part in (facts.readiness.value, facts.words) if part)
    made = [
        " - ".join(part for part in (facts.name, facts.model) if part) or facts.address,
        f"  address   {facts.address}",
        f"  state     {state}{'' if facts.accepting else ', takes no jobs'}",
        f"  scaling   {scaling}",
        f"  takes     {', '.join(facts.formats) or 'not said'}",
    ]
    loaded = {(one.width_mm, one.height_mm) for one in facts.ready or ()}
    papers: dict[str, str] = {}
    for one in (*(facts.ready or ()), *facts.media):
        here = "in it" if (one.width_mm, one.height_mm) in loaded else ""
        words = f"{size_words(one.width_mm, one.height_mm)}  margins {_margins(one.margins_mm)}"
        papers.setdefault(words, here)
    return made + [f"  {here or 'paper':<9} {words}" for words, here in papers.items()]


def _margins(margins: Any) -> str:
    if margins is None:
        return "not said"
    if len(set(margins)) == 1:
        return f"{margins[0]:.2f} mm"
    return ", ".join(f"{side} {mm:.2f}" for side, mm in zip(("top", "right", "bottom", "left"), margins, strict=True))
