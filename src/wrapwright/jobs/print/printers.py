"""Printers: those that are known, those that can be found, what one says of itself, and which a set-up prints with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.sheet.printer.values import Media, PrinterFacts
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.printer.finding import Found
from wrapwright.outside.store.records import PrinterKept, SetupKept

FIND_S = 2.0


@dataclass(frozen=True)
class ListPrinters:
    """The printers of set-ups and of this machine, and with `find` those that answer on the network."""

    find: bool = False


@dataclass(frozen=True)
class ShowPrinter:
    """One printer: its address, or the name of a set-up that has one."""

    printer: str


@dataclass(frozen=True)
class SetPrinter:
    """Where a set-up prints: `to` is an address or a folder, "" for nowhere; `pattern` is how files are called there.

    With `ask` the printer is asked first, and the certificate it shows is kept.
    """

    setup: str
    to: str
    pattern: str = ""
    ask: bool = True


@dataclass(frozen=True)
class FillSetup:
    """A set-up's paper and margins as its printer states them; `paper` chooses one, "" the one that is loaded."""

    setup: str
    paper: str = ""


@dataclass(frozen=True)
class Known:
    """The printers that are known: those of set-ups, and those that were found."""

    setups: tuple[PrinterKept, ...]
    found: tuple[Found, ...]


def list_printers(request: ListPrinters, bench: Bench, watch: Watch) -> Known:
    """Return the printers of set-ups, those of this machine's print service, and those found on the network."""
    from wrapwright.outside.printer.finding import printers_around, printers_here
    from wrapwright.outside.store.rows.prints import printer_rows

    kept: tuple[PrinterKept, ...] = ()
    if bench.kept().exists():
        with bench.kept().reading() as connection:
            kept = printer_rows(connection)
    watch.step("asking this machine's print service", 0.1)
    found = printers_here()
    if request.find:
        words = f"asking the network for {FIND_S:g} s"
        found += printers_around(FIND_S, step=lambda: watch.step(words, 0.4))
    seen: dict[str, Found] = {}
    for one in found:
        seen.setdefault(one.address, one)
    return Known(kept, tuple(seen.values()))


def show_printer(request: ShowPrinter, bench: Bench, watch: Watch) -> PrinterFacts:
    """Return what a printer says of itself.

    Raises:
        WrapwrightError: unreachable, when it does not answer; usage, when a set-up prints into a folder.
    """
    from wrapwright.jobs.print.targets import target_of
    from wrapwright.outside.printer.address import address_of
    from wrapwright.outside.printer.asking import ask_printer
    from wrapwright.outside.printer.transport import Line

    target = target_of(request.printer, "", bench)
    if not target.address:
        message = f"{request.printer} is a folder, which says nothing of its printer."
        raise WrapwrightError(Kind.USAGE, message, remedy="Name a printer.")
    watch.step("asking the printer", 0.3)
    return ask_printer(Line(address_of(target.address), target.certificate))


def set_printer(request: SetPrinter, bench: Bench, watch: Watch) -> PrinterKept:
    """Return where a set-up prints from now on.

    Raises:
        WrapwrightError: missing, for no such set-up; unusable for an address or a pattern that is none; unreachable,
            when the printer does not answer or the folder is not there. Nothing is kept then.
    """
    from wrapwright.outside.printer.address import address_of, is_address
    from wrapwright.outside.printer.asking import ask_printer
    from wrapwright.outside.printer.folders import PATTERN, pattern_of
    from wrapwright.outside.printer.transport import Line
    from wrapwright.outside.store.rows.prints import put_printer_row
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().reading() as connection:
        setup = setup_kept(connection, name=request.setup)
    kept = PrinterKept(setup.id, setup.name, "", "", "", PATTERN)
    to = request.to.strip()
    if is_address(to):
        address = address_of(to, where="printer")
        watch.step("asking the printer", 0.3)
        certificate = ask_printer(Line(address)).certificate if request.ask else ""
        kept = replace(kept, address=address.written, certificate=certificate)
    elif to:
        kept = replace(kept, folder=_folder(to), pattern=pattern_of(request.pattern, where="pattern"))
    with bench.kept().writing() as connection:
        put_printer_row(connection, kept)
    return kept


def _folder(to: str) -> str:
    folder = Path(to).expanduser()
    if not folder.is_dir():
        message = "It is neither a printer's address nor a folder that is there."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Write ipp://... or make the folder.", where=to)
    return str(folder.resolve())


def fill_setup(request: FillSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return a set-up with the paper and the margins that its printer states.

    Raises:
        WrapwrightError: missing, for no such set-up; usage, when it has no printer; unusable, when the printer does
            not state that paper or its margins, or has several loaded and none was chosen; unreachable.
    """
    from wrapwright.jobs.kept.setups import ChangeSetup, ShowSetup, change_setup, show_setup

    setup = show_setup(ShowSetup(name=request.setup), bench, watch)
    facts = show_printer(ShowPrinter(setup.name), bench, watch)
    media = chosen(facts, request.paper)
    sheet = {**setup.sheet, **sheet_of(media)}
    change = ChangeSetup(setup.id, setup.name, sheet, setup.colour, profile_sha256=setup.profile_sha256)
    return change_setup(change, bench, watch)


def sheet_of(media: Media) -> dict[str, object]:
    """Return the paper and margins of a job file's [sheet] for a printer's paper."""
    from wrapwright.core.sheet.papers import sheet_of as paper_of

    paper = paper_of(media.width_mm, media.height_mm)
    top, right, bottom, left = (round(mm, 2) for mm in media.margins_mm or (0.0, 0.0, 0.0, 0.0))
    margins = [top, right, bottom, left]
    if media.width_mm > media.height_mm:  # stated lying: the sheet stands upright
        margins = [left, top, right, bottom]
    named = paper.name if " x " not in paper.name else [paper.width_mm, paper.height_mm]
    return {"paper": named, "margins": margins}


def chosen(facts: PrinterFacts, paper: str) -> Media:
    """Return the printer's paper of that name or size; with "" the one that is loaded.

    Raises:
        WrapwrightError: unusable, when there is none, or several are loaded.
    """
    from wrapwright.core.sheet.papers import paper_named
    from wrapwright.core.sheet.printer.judging import loaded, size_words
    from wrapwright.core.sheet.printer.values import Page

    if not paper:
        ready = list(dict.fromkeys((one.width_mm, one.height_mm) for one in facts.ready or ()))
        if len(ready) != 1:
            there = ", ".join(size_words(*one) for one in ready) or "no paper that it names"
            message = f"In the printer is {there}."
            raise unusable(message, remedy="Choose the paper, for example Letter.", where="paper")
        size = Page(*ready[0])
    else:
        asked = paper_named(paper, where="paper")
        size = Page(asked.width_mm, asked.height_mm or 0.0)
    media = loaded(size, facts)
    if media is None:
        known = ", ".join(size_words(one.width_mm, one.height_mm) for one in facts.media[:12])
        raise unusable(f"The printer does not name the paper {paper}; it names {known or 'none'}.", where="paper")
    if media.margins_mm is None:
        raise unusable("The printer does not state the margins of that paper.", remedy="Type them.", where="margins")
    return media
