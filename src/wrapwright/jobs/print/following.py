"""What was handed over: looked at, watched until it ends, stopped, listed."""

from __future__ import annotations

import time
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.print.handing import state_of
from wrapwright.jobs.print.notes import Notes
from wrapwright.outside.printer import asking
from wrapwright.outside.printer.address import address_of, is_address
from wrapwright.outside.printer.transport import Line
from wrapwright.outside.store.records import PrintKept

PATIENCE_S = 60.0  # how long a printer may be out of reach while we watch
_FIRST_S = 0.25
_SHARE = {"sending": 0.2, "printing": 0.6}


@dataclass(frozen=True)
class ListPrints:
    """What was sent, the newest first; with `sha256` only that of one file."""

    sha256: str = ""


@dataclass(frozen=True)
class LookAtPrint:
    """One print: the printer is asked how far it is, unless it has ended."""

    id: int


@dataclass(frozen=True)
class StopPrint:
    """Have the printer stop one print."""

    id: int


def list_prints(request: ListPrints, bench: Bench, watch: Watch) -> tuple[PrintKept, ...]:
    """Return what was sent, the newest first."""
    del watch
    from wrapwright.outside.store.rows.prints import print_rows

    with bench.kept().reading() as connection:
        return print_rows(connection, sha256=request.sha256)


def look_at_print(request: LookAtPrint, bench: Bench, watch: Watch) -> PrintKept:
    """Return a print as it stands; a printer that cannot be asked leaves it as it was, with that said in its words.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    sent = _kept(request.id, bench)
    if sent.ended is not None or not is_address(sent.target):
        return sent
    try:
        return looked_at(sent, bench)
    except WrapwrightError as error:
        return Notes(bench).tell(sent, sent.state, error.message)


def stop_print(request: StopPrint, bench: Bench, watch: Watch) -> PrintKept:
    """Return a print once the printer was told to stop it; one that has ended stays as it is.

    Raises:
        WrapwrightError: missing, when there is none of that number; unreachable, when the printer does not hear.
    """
    del watch
    sent = _kept(request.id, bench)
    if sent.ended is not None or not sent.job:
        return sent
    asking.cancel_job(line_to(sent, bench), sent.job)
    return looked_at(sent, bench)


def followed(sent: PrintKept, bench: Bench, watch: Watch, *, look_s: float) -> PrintKept:
    """Return a print once it has ended well; told of on the way.

    Raises:
        WrapwrightError: stopped, when the user wished so, or someone did at the printer; unreachable, when the printer
            gave it up or could not be asked for a minute.
    """
    silent_since: float | None = None
    pause = min(_FIRST_S, look_s)
    try:
        while sent.ended is None:
            watch.step(sent.words, _SHARE.get(sent.state, 0.9))
            time.sleep(pause)
            pause = min(2 * pause, look_s)
            try:
                sent, silent_since = looked_at(sent, bench), None
            except WrapwrightError as error:
                if error.kind is not Kind.UNREACHABLE:
                    raise
                silent_since = silent_since or time.monotonic()
                watch.step("the printer does not answer; waiting for it", 0.6)
                if time.monotonic() - silent_since > PATIENCE_S:
                    raise _out_of_sight(sent, bench) from error
    except KeyboardInterrupt:
        _stopped(sent, bench)
        raise
    except WrapwrightError as error:
        if error.kind is Kind.STOPPED:
            _stopped(sent, bench)
        raise
    return _well(sent)


def _out_of_sight(sent: PrintKept, bench: Bench) -> WrapwrightError:
    message = f"The printer has the file as job {sent.job} and has not answered for {PATIENCE_S:g} s."
    Notes(bench).tell(sent, "lost", message)
    remedy = "It may still print: look at the printer; when the sheet is printed again, it is asked first."
    return WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=sent.target)


def _stopped(sent: PrintKept, bench: Bench) -> None:
    """Tell the printer of the wish to stop, as well as it can be done."""
    try:
        asking.cancel_job(line_to(sent, bench), sent.job)
    except WrapwrightError:
        return
    Notes(bench).tell(sent, "stopped", "stopped; the printer was told so")


def _well(sent: PrintKept) -> PrintKept:
    if sent.state == "done":
        return sent
    kind = Kind.STOPPED if sent.state == "stopped" else Kind.UNREACHABLE
    message = f"Job {sent.job} was not printed: {sent.words}."
    raise WrapwrightError(kind, message, remedy="See to the printer, then print it again.", where=sent.target)


def looked_at(sent: PrintKept, bench: Bench) -> PrintKept:
    """Return a print as the printer sees it now, written down.

    Raises:
        WrapwrightError: when it cannot be asked.
    """
    line = line_to(sent, bench)
    seen = asking.look_at_job(line, sent.job) if sent.job else asking.find_job(line, sent.name)
    notes = Notes(bench)
    if seen is None:
        words = "the printer knows it no more: look whether it was printed"
        return notes.tell(sent, "lost", words, settled=bool(sent.job))
    words = seen.words
    if not seen.ended:
        more = asking.ask_printer(line).words
        words = f"{words} ({more})" if more and more not in words else words
    state, told = state_of(seen), words
    if (state, told) == (sent.state, sent.words):
        return sent
    return notes.tell(sent, state, told, job=seen.id)


def line_to(sent: PrintKept, bench: Bench) -> Line:
    """Return how the printer of a print is reached, with the certificate that a set-up knows of it."""
    from wrapwright.outside.store.rows.prints import printer_rows

    with bench.kept().reading() as connection:
        known = [one.certificate for one in printer_rows(connection) if one.address == sent.target]
    return Line(address_of(sent.target), known[0] if known else "")


def _kept(number: int, bench: Bench) -> PrintKept:
    from wrapwright.outside.store.rows.prints import print_kept

    with bench.kept().reading() as connection:
        return print_kept(connection, number)
