"""A file handed over to a printer, once: looked for there first where it may have arrived before."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity, accept, stopping
from wrapwright.core.sheet.printer.judging import PAPER, SCALING, judged, loaded
from wrapwright.core.sheet.printer.values import Page, PrinterFacts
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.print.notes import Notes
from wrapwright.jobs.print.values import PrinterSaysNoError
from wrapwright.outside.printer import asking
from wrapwright.outside.printer.jobs import JobSeen, JobState
from wrapwright.outside.printer.tickets import JobTicket, Sent
from wrapwright.outside.printer.transport import Line, SilentError
from wrapwright.outside.store.records import PrintKept, PrintState

BUSY_S = 120.0  # how long we wait for a printer that is busy with another job
_TRIES = 3  # to reach it again after the line was lost

STATES: dict[JobState, PrintState] = {
    JobState.COMPLETED: "done",
    JobState.CANCELED: "stopped",
    JobState.ABORTED: "failed",
}


@dataclass(frozen=True)
class Handing:
    """One file on its way to one printer."""

    line: Line
    document: Sent
    page: Page
    title: str
    sha256: str
    copies: int
    even_so: bool
    look_s: float

    @property
    def target(self) -> str:
        """The printer's address."""
        return self.line.address.written


def seen_before(handing: Handing, notes: Notes) -> PrintKept | None:
    """Return the print of this file that is at the printer already, None when it is to be sent.

    Raises:
        WrapwrightError: refused, when the printer had it and knows it no more; unreachable, when it cannot be asked.
    """
    earlier = notes.unsettled(handing.sha256, handing.target)
    if earlier is None:
        return None
    seen = _there(handing.line, earlier)
    if seen is None:
        if earlier.job and not handing.even_so:
            message = f"This file was handed over before as job {earlier.job}, which the printer knows no more."
            remedy = "Look whether it lies in the tray; if not, print it with --even-so."
            raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where=handing.target)
        notes.tell(earlier, "failed", "it never arrived, or the printer forgot it", settled=True)
        return None
    if not seen.ended and not seen.complete:
        asking.cancel_job(handing.line, seen.id)
        notes.tell(earlier, "failed", "the line was lost before the file was there", job=seen.id)
        return None
    told = notes.tell(earlier, state_of(seen), seen.words, job=seen.id)
    return None if told.state in {"failed", "stopped"} else told


def _there(line: Line, earlier: PrintKept) -> JobSeen | None:
    seen = asking.look_at_job(line, earlier.job) if earlier.job else None
    # A printer that was switched off may give its numbers anew, so the name must be ours.
    if seen is not None and seen.name in {"", earlier.name}:
        return seen
    return asking.find_job(line, earlier.name)


def state_of(seen: JobSeen) -> PrintState:
    """Return how we call a job's state."""
    return STATES.get(seen.state, "printing")


def looked_over(handing: Handing, facts: PrinterFacts) -> tuple[JobTicket, tuple[Finding, ...]]:
    """Return what will be asked for, and what speaks against it, all of it accepted; nothing is printed.

    Raises:
        PrinterSaysNoError: when something does and it is not to be printed even so.
        WrapwrightError: refused, when the printer itself says no.
    """
    ticket, findings = examined(handing, facts)
    if stopping(findings) and not handing.even_so:
        raise PrinterSaysNoError(tuple(findings), handing.target)
    return ticket, tuple(accept(findings, frozenset(one.rule for one in findings)))


def examined(handing: Handing, facts: PrinterFacts) -> tuple[JobTicket, list[Finding]]:
    """Return what would be asked for, and what speaks against it: what we see, then what the printer itself says.

    Raises:
        WrapwrightError: refused, when the printer would not take it at all.
    """
    page = handing.page
    findings = list(judged(page, facts, copies=handing.copies))
    ticket = JobTicket(
        name=handing.title,
        title=handing.title,
        width_mm=page.width_mm,
        height_mm=page.height_mm,
        media=loaded(page, facts),
        parts=facts.media_parts,
        format=page.format,
        copies=handing.copies,
        one_sided="one-sided" in facts.sides,
    )
    validates = not facts.operations or asking.Operation.VALIDATE_JOB in facts.operations
    if validates and (handing.even_so or not stopping(findings)):
        findings += _ignored(asking.validate_job(handing.line, ticket), {one.rule for one in findings})
    return ticket, findings


def _ignored(names: tuple[str, ...], told: set[str]) -> list[Finding]:
    found = []
    if "print-scaling" in names and SCALING not in told:
        message = "The printer says that it will not keep to actual size. Wraps made with it will not fit."
        found.append(Finding(SCALING, Severity.ERROR, message))
    if {"media-col", "media"} & set(names) and PAPER not in told:
        found.append(Finding(PAPER, Severity.ERROR, "The printer says that it will not use the sheet's paper."))
    return found


def hand_over(handing: Handing, ticket: JobTicket, facts: PrinterFacts, notes: Notes, watch: Watch) -> PrintKept:
    """Return the print once the printer has the whole file.

    Raises:
        WrapwrightError: when it does not; the record then says whether that is sure.
    """
    sent = notes.begin(handing.sha256, handing.title, handing.target, handing.copies)
    ticket = replace(ticket, name=sent.name)
    both = {asking.Operation.CREATE_JOB, asking.Operation.SEND_DOCUMENT}
    way = _in_two_steps if both <= facts.operations else _in_one_step
    try:
        return way(handing, ticket, sent, notes, watch)
    except WrapwrightError as error:
        if error.kind is Kind.STOPPED:
            notes.tell(sent, "stopped", "stopped before it was handed over")
        raise


def _in_two_steps(handing: Handing, ticket: JobTicket, sent: PrintKept, notes: Notes, watch: Watch) -> PrintKept:
    job = _surely(handing, sent, notes, lambda: _patiently(lambda: asking.create_job(handing.line, ticket), watch))
    if job.complete and job.ended:
        return notes.tell(sent, state_of(job), job.words, job=job.id)
    sent = notes.tell(sent, "sending", "being handed over", job=job.id)
    watch.step("handing the sheet over", 0.2)
    try:
        seen = _surely(
            handing, sent, notes, lambda: asking.send_document(handing.line, job.id, ticket, handing.document)
        )
    except KeyboardInterrupt:
        _withdraw(handing.line, job.id)
        notes.tell(sent, "stopped", "stopped while it was handed over")
        raise
    return notes.tell(sent, state_of(seen), seen.words, job=seen.id)


def _in_one_step(handing: Handing, ticket: JobTicket, sent: PrintKept, notes: Notes, watch: Watch) -> PrintKept:
    watch.step("handing the sheet over", 0.2)

    def send() -> JobSeen:
        return asking.print_job(handing.line, ticket, handing.document)

    seen = _surely(handing, sent, notes, lambda: _patiently(send, watch))
    return notes.tell(sent, state_of(seen), seen.words, job=seen.id)


def _patiently(ask: Callable[[], JobSeen], watch: Watch) -> JobSeen:
    """Return the answer, asking again while the printer says that it is busy: then it has taken nothing."""
    until = time.monotonic() + BUSY_S
    while True:
        try:
            return ask()
        except asking.DeclinedError as error:
            if error.status != asking.BUSY or time.monotonic() > until:
                raise
        watch.step("waiting: the printer is busy with another job", 0.1)
        time.sleep(1.0)


def _surely(handing: Handing, sent: PrintKept, notes: Notes, ask: Callable[[], JobSeen]) -> JobSeen:
    """Return the job of an answer, or of the printer's own list when the answer is lost.

    Raises:
        WrapwrightError: when the printer said no or was never reached (settled as failed), when what arrived was not
            whole (withdrawn, settled as failed), or when it cannot be asked (not settled).
    """
    try:
        return ask()
    except WrapwrightError as error:
        lost = error.kind is Kind.UNREACHABLE and not isinstance(error, asking.DeclinedError | SilentError)
        if not lost:
            if sent.job:
                _withdraw(handing.line, sent.job)
            if error.kind is not Kind.STOPPED:
                notes.tell(sent, "failed", error.message)
            raise
        seen = _found_again(handing, sent, notes, error)
    if seen is not None and seen.complete and seen.state is not JobState.ABORTED:
        return seen
    if seen is not None and not seen.ended:
        _withdraw(handing.line, seen.id)
    message = "The line to the printer was lost before it had the whole file."
    notes.tell(sent, "failed", message, job=seen.id if seen else 0)
    raise WrapwrightError(
        Kind.UNREACHABLE, message, remedy="Nothing was printed; print it again.", where=handing.target
    )


def _found_again(handing: Handing, sent: PrintKept, notes: Notes, error: WrapwrightError) -> JobSeen | None:
    """Return the job as the printer has it, asked a few times; None when it knows none."""
    for attempt in range(_TRIES):
        if attempt:
            time.sleep(handing.look_s)
        try:
            return _there(handing.line, sent)
        except asking.DeclinedError:
            break
        except WrapwrightError:
            continue
    message = "The line to the printer was lost, and it does not answer: whether it has the file is not known."
    notes.tell(sent, "lost", message)
    remedy = "Look at the printer; when the sheet is printed again, it is asked first whether it has it."
    raise WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy, where=handing.target) from error


def _withdraw(line: Line, job: int) -> None:
    """Cancel a job as well as it can be done."""
    with contextlib.suppress(WrapwrightError):
        asking.cancel_job(line, job)
