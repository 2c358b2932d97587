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
    """The printers of set-ups, with `here` those of this machine, and with `find` those that answer on the network."""

    find: bool = False
    here: bool = True


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
class SetAddress:
    """A printer for a set-up by its number; "" for none. No folder can be named so."""

    setup: int
    address: str


@dataclass(frozen=True)
class PaperSeen:
    """A paper of a printer, for a person to choose.

    Attributes:
        words: its name and size.
        paper: as a job file's [sheet] names it: a name, or "" for one of another size.
        width_mm, height_mm: upright.
        margins_mm: top, right, bottom, left; None where the printer does not say.
        loaded: whether it lies in the printer.
    """

    words: str
    paper: str
    width_mm: float
    height_mm: float
    margins_mm: tuple[float, ...] | None
    loaded: bool


@dataclass(frozen=True)
class PrinterSeen:
    """A set-up's printer or folder, for a person to look at.

    Attributes:
        kept: where it prints.
        name, words: how the printer calls itself, and how it is; "" for a folder.
        actual_size: whether it can leave the size as it is; None where it does not say.
        papers: those it takes, the loaded first.
    """

    kept: PrinterKept
    name: str = ""
    words: str = ""
    actual_size: bool | None = None
    papers: tuple[PaperSeen, ...] = ()


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
    found = printers_here() if request.here else ()
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


def set_address(request: SetAddress, bench: Bench, watch: Watch) -> PrinterKept:
    """Return where a set-up prints from now on: at an address, or nowhere.

    Raises:
        WrapwrightError: as `set_printer`; unusable, for anything but an address.
    """
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup
    from wrapwright.outside.printer.address import address_of

    setup = show_setup(ShowSetup(id=request.setup or -1), bench, watch)
    address = address_of(request.address, where="printer").written if request.address.strip() else ""
    return set_printer(SetPrinter(setup.name, address), bench, watch)


def printer_seen(setup: int, bench: Bench) -> PrinterSeen:
    """Return what the printer of a set-up says of itself; a folder says nothing.

    Raises:
        WrapwrightError: missing, for no such set-up, or one without a printer; unreachable.
    """
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup
    from wrapwright.outside.store.rows.prints import printer_of

    kept_setup = show_setup(ShowSetup(id=setup or -1), bench, Watch())
    with bench.kept().reading() as connection:
        kept = printer_of(connection, kept_setup.id)
    if kept is None:
        message = f'The set-up "{kept_setup.name}" has no printer.'
        raise WrapwrightError(Kind.MISSING, message, remedy="Give it its printer's address.")
    if kept.folder:
        return PrinterSeen(kept)
    facts = show_printer(ShowPrinter(kept.name), bench, Watch())
    scales = None if facts.scalings is None else "none" in facts.scalings
    words = ": ".join(part for part in (facts.readiness.value, facts.words) if part)
    name = facts.model or facts.name or facts.address
    return PrinterSeen(kept, name, words, scales, tuple(_papers(facts)))


def _papers(facts: PrinterFacts) -> list[PaperSeen]:
    from wrapwright.core.sheet.printer.judging import size_words

    ready = {(one.width_mm, one.height_mm) for one in facts.ready or ()}
    found: dict[tuple[float, float], PaperSeen] = {}
    for media in (*(facts.ready or ()), *facts.media):
        size = (media.width_mm, media.height_mm)
        if size in found:
            continue
        try:
            sheet = sheet_of(media)
        except WrapwrightError:
            continue  # an envelope too small for any sheet
        named = sheet["paper"] if isinstance(sheet["paper"], str) else ""
        margins = sheet["margins"] if media.margins_mm is not None else None
        upright = (min(size), max(size))
        found[size] = PaperSeen(
            size_words(*upright), named, *upright, tuple(margins) if isinstance(margins, list) else None, size in ready
        )
    return list(found.values())


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
