"""What was made, printed: the sheets of a making, by the set-up's number."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.print.sending import Readied, print_sheets, ready_to_print
from wrapwright.jobs.print.values import PrintSheets
from wrapwright.outside.store.records import PrintKept

SHEETS = "sheets.pdf"


@dataclass(frozen=True)
class PrintMade:
    """Print the sheets of a making with a set-up's printer or folder; fields as in PrintSheets."""

    made: int
    setup: int
    copies: int = 1
    even_so: bool = False


@dataclass(frozen=True)
class MadePrinted:
    """A making handed over: the print as it stands, what spoke against it, and whether it was sent now."""

    sent: PrintKept
    findings: tuple[Finding, ...]
    sent_now: bool


def ready_made(request: PrintMade, bench: Bench, watch: Watch) -> Readied:
    """Return what would speak against printing the sheets of a making there.

    Raises:
        WrapwrightError: missing, for no such making, set-up or printer; unreachable.
    """
    return ready_to_print(_asked(request, bench), bench, watch)


def print_made(request: PrintMade, bench: Bench, watch: Watch) -> MadePrinted:
    """Return what became of the sheets of a making, once they are handed over.

    Raises:
        WrapwrightError: as `print_sheets`.
    """
    printed = print_sheets(_asked(request, bench), bench, watch)
    return MadePrinted(printed.sent, printed.findings, printed.again)


def prints_of(made: int, bench: Bench) -> tuple[PrintKept, ...]:
    """Return what was printed of a making's sheets, the newest first; none where it left no PDF.

    Raises:
        WrapwrightError: missing, for no such making.
    """
    from wrapwright.jobs.kept.made import ShowMade, show_made
    from wrapwright.jobs.print.following import ListPrints, list_prints

    kept = show_made(ShowMade(made), bench, Watch())
    sha256 = next((one.sha256 for one in kept.files if one.name == SHEETS), "")
    return list_prints(ListPrints(sha256), bench, Watch()) if sha256 else ()


def _asked(request: PrintMade, bench: Bench) -> PrintSheets:
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup

    file = _sheets(request.made, bench)
    setup = show_setup(ShowSetup(id=request.setup or -1), bench, Watch())
    return PrintSheets(file, setup=setup.name, copies=request.copies, even_so=request.even_so, leave=True)


def _sheets(made: int, bench: Bench) -> Path:
    from wrapwright.jobs.kept.made import ShowMade, folder_made, show_made

    kept = show_made(ShowMade(made), bench, Watch())
    if SHEETS not in {one.name for one in kept.files}:
        message = "This making left no PDF to print."
        raise WrapwrightError(Kind.MISSING, message, remedy="Make the sheets as PDF.", where=kept.title)
    return folder_made(made, bench) / SHEETS
