"""Sheets to a printer or a watched folder: at actual size, on the right paper, and never twice."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding
from wrapwright.core.sheet.printer.values import Page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.print.values import Printed, PrintSheets, Target

if TYPE_CHECKING:
    from wrapwright.jobs.print.handing import Handing

MOST_COPIES = 999


@dataclass(frozen=True)
class Readied:
    """What is known before anything is sent.

    Attributes:
        target: the printer's address or the folder.
        folder: whether it is a folder, of which nothing can be known.
        printer: how the printer calls itself; "" for a folder.
        paper: the sheet's paper in words.
        findings: what speaks against it, and what is to be known; errors stop it.
    """

    target: str
    folder: bool
    printer: str
    paper: str
    findings: tuple[Finding, ...]


def ready_to_print(request: PrintSheets, bench: Bench, watch: Watch) -> Readied:
    """Return what would speak against printing a sheets file; the printer is asked, and nothing is sent.

    Raises:
        WrapwrightError: as `print_sheets`, but for what speaks against it.
    """
    from wrapwright.core.sheet.printer.judging import size_words
    from wrapwright.jobs.print.handing import examined
    from wrapwright.outside.printer.asking import ask_printer

    what = _understood(request, bench, watch)
    paper = size_words(what.page.width_mm, what.page.height_mm)
    if what.target.folder:
        return Readied(what.target.folder, folder=True, printer="", paper=paper, findings=())
    handing = _handing(request, what)
    facts = ask_printer(handing.line)
    _, findings = examined(handing, facts)
    called = facts.model or facts.name or facts.address
    return Readied(what.target.address, folder=False, printer=called, paper=paper, findings=tuple(findings))


def print_sheets(request: PrintSheets, bench: Bench, watch: Watch) -> Printed:
    """Return what became of a sheets file that was to be printed.

    To a printer: what speaks against it is looked for first; then it is handed over once and watched until it has
    ended. To a folder: its copies are put there.

    Raises:
        WrapwrightError: missing or unusable for the file; usage for a number of copies that cannot be; checks with all
            that speaks against it; unreachable when printer or folder are out of reach; refused when it may have been
            printed before and nobody can say; stopped.
    """
    from wrapwright.jobs.print.notes import alone

    what = _understood(request, bench, watch)
    with alone(what.target.written, bench):
        if what.target.folder:
            return _into_folder(request, what, bench, watch)
        printed = _to_printer(request, what, bench, watch)
    return printed if request.leave else _to_the_end(printed, request, bench, watch)


@dataclass(frozen=True)
class _What:
    """A request understood: where to, what it is called, which content, which pages."""

    target: Target
    title: str
    sha256: str
    page: Page


def _understood(request: PrintSheets, bench: Bench, watch: Watch) -> _What:
    from wrapwright.jobs.print.targets import target_of, told_by_report, with_margins
    from wrapwright.outside.printer.sheetfile import page_of, sha256_of

    if not 1 <= request.copies <= MOST_COPIES:
        message = f"{request.copies} copies cannot be printed; it may be 1 to {MOST_COPIES}."
        raise WrapwrightError(Kind.USAGE, message, where="--copies")
    watch.step("looking at the sheets", 0.0)
    target = target_of(request.to, request.setup, bench)
    sha256 = sha256_of(request.file)
    titled, trim = told_by_report(request.file, sha256)
    page = with_margins(page_of(request.file), target.margins_mm, trim)
    return _What(target, request.title or titled or request.file.stem, sha256, page)


def _into_folder(request: PrintSheets, what: _What, bench: Bench, watch: Watch) -> Printed:
    from wrapwright.jobs.print.notes import Notes
    from wrapwright.outside.printer.folders import drop

    notes, target, title = Notes(bench), what.target, what.title
    sent = notes.begin(what.sha256, title, target.folder, request.copies)
    now = bench.clock().astimezone()
    fields = {"title": title, "date": f"{now:%Y-%m-%d}", "time": f"{now:%H%M%S}", "setup": target.setup}

    def step(copy: int) -> None:
        watch.step(f"copy {copy} of {request.copies}", (copy - 1) / request.copies)

    try:
        files = drop(request.file, Path(target.folder), target.pattern, fields, copies=request.copies, step=step)
    except WrapwrightError as error:
        notes.tell(sent, "stopped" if error.kind is Kind.STOPPED else "failed", str(error))
        raise
    except KeyboardInterrupt:
        notes.tell(sent, "stopped", "stopped; nothing was put into the folder")
        raise
    return Printed(notes.tell(sent, "done", f"{', '.join(file.name for file in files)}"), files)


def _handing(request: PrintSheets, what: _What) -> Handing:
    from wrapwright.jobs.print.handing import Handing
    from wrapwright.outside.printer.address import address_of
    from wrapwright.outside.printer.tickets import Sent
    from wrapwright.outside.printer.transport import Line

    return Handing(
        line=Line(address_of(what.target.address), what.target.certificate),
        document=Sent(request.file, request.file.stat().st_size),
        page=what.page,
        title=what.title,
        sha256=what.sha256,
        copies=request.copies,
        even_so=request.even_so,
        look_s=request.look_s,
    )


def _to_printer(request: PrintSheets, what: _What, bench: Bench, watch: Watch) -> Printed:
    from wrapwright.jobs.print.handing import hand_over, looked_over, seen_before
    from wrapwright.jobs.print.notes import Notes
    from wrapwright.outside.printer.asking import ask_printer

    handing, notes = _handing(request, what), Notes(bench)
    watch.step("asking the printer", 0.05)
    there = seen_before(handing, notes)
    if there is not None:
        return Printed(there, again=False)
    facts = ask_printer(handing.line)
    ticket, findings = looked_over(handing, facts)
    return Printed(hand_over(handing, ticket, facts, notes, watch), findings=findings)


def _to_the_end(printed: Printed, request: PrintSheets, bench: Bench, watch: Watch) -> Printed:
    """Watch a job until it has ended; a wish to stop cancels it."""
    from dataclasses import replace

    from wrapwright.jobs.print.following import followed

    return replace(printed, sent=followed(printed.sent, bench, watch, look_s=request.look_s))
