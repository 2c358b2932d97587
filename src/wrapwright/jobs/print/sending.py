"""Sheets to a printer or a watched folder: at actual size, on the right paper, and never twice."""

from __future__ import annotations

from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import Page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.print.values import Printed, PrintSheets, Target

MOST_COPIES = 999


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
    title = request.title or titled or request.file.stem
    with alone(target.written, bench):
        if target.folder:
            return _into_folder(request, target, title, sha256, bench, watch)
        printed = _to_printer(request, target, (title, sha256, page), bench, watch)
    if request.leave:
        return printed
    return _to_the_end(printed, request, bench, watch)


def _into_folder(request: PrintSheets, target: Target, title: str, sha256: str, bench: Bench, watch: Watch) -> Printed:
    from wrapwright.jobs.print.notes import Notes
    from wrapwright.outside.printer.folders import drop

    notes = Notes(bench)
    sent = notes.begin(sha256, title, target.folder, request.copies)
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


def _to_printer(
    request: PrintSheets, target: Target, what: tuple[str, str, Page], bench: Bench, watch: Watch
) -> Printed:
    from wrapwright.jobs.print.handing import Handing, hand_over, looked_over, seen_before
    from wrapwright.jobs.print.notes import Notes
    from wrapwright.outside.printer.address import address_of
    from wrapwright.outside.printer.asking import ask_printer
    from wrapwright.outside.printer.tickets import Sent
    from wrapwright.outside.printer.transport import Line

    title, sha256, page = what
    line = Line(address_of(target.address), target.certificate)
    document = Sent(request.file, request.file.stat().st_size)
    handing = Handing(line, document, page, title, sha256, request.copies, request.even_so, request.look_s)
    notes = Notes(bench)
    watch.step("asking the printer", 0.05)
    there = seen_before(handing, notes)
    if there is not None:
        return Printed(there, again=False)
    facts = ask_printer(line)
    ticket, findings = looked_over(handing, facts)
    return Printed(hand_over(handing, ticket, facts, notes, watch), findings=findings)


def _to_the_end(printed: Printed, request: PrintSheets, bench: Bench, watch: Watch) -> Printed:
    """Watch a job until it has ended; a wish to stop cancels it."""
    from dataclasses import replace

    from wrapwright.jobs.print.following import followed

    return replace(printed, sent=followed(printed.sent, bench, watch, look_s=request.look_s))
