"""What a printer is asked and told: the operations of RFC 8011 that handing over a sheet needs."""

from __future__ import annotations

import itertools
import threading
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import PrinterFacts
from wrapwright.outside.printer.encoding import NEWER, OLDER, Group, Reply, Tag, Written, broken, one, packed, unpacked
from wrapwright.outside.printer.jobs import JobSeen, job_seen
from wrapwright.outside.printer.printers import PRINTER_WANTED, printer_facts
from wrapwright.outside.printer.tickets import JobTicket, Sent, document_attributes, job_attributes
from wrapwright.outside.printer.transport import Line, exchange


class Operation(IntEnum):
    """Operations (RFC 8011, section 5.4.15; the last of CUPS)."""

    PRINT_JOB = 0x02
    VALIDATE_JOB = 0x04
    CREATE_JOB = 0x05
    SEND_DOCUMENT = 0x06
    CANCEL_JOB = 0x08
    GET_JOB_ATTRIBUTES = 0x09
    GET_JOBS = 0x0A
    GET_PRINTER_ATTRIBUTES = 0x0B
    CUPS_GET_PRINTERS = 0x4002


@dataclass(frozen=True)
class Declined:
    """A status that means no: its keyword, and what it means in words."""

    keyword: str
    words: str


class DeclinedError(WrapwrightError):
    """The printer said no; `status` is its status code."""

    status = 0


OLD_VERSION = 0x0503
BUSY = 0x0507
UNKNOWN_JOB = (0x0406, 0x0407)
# RFC 8011, appendix B.1.
STATUSES = {
    0x0400: Declined("client-error-bad-request", "it does not understand the request"),
    0x0401: Declined("client-error-forbidden", "it does not let this machine do that"),
    0x0402: Declined("client-error-not-authenticated", "it asks for a name and a password, which is not done here"),
    0x0403: Declined("client-error-not-authorized", "it does not let this person do that"),
    0x0404: Declined("client-error-not-possible", "that cannot be done now"),
    0x0405: Declined("client-error-timeout", "it waited too long for the file"),
    0x0406: Declined("client-error-not-found", "it knows nothing under that address or number"),
    0x0407: Declined("client-error-gone", "what was asked for is gone"),
    0x0408: Declined("client-error-request-entity-too-large", "the file is too large for it"),
    0x0409: Declined("client-error-request-value-too-long", "a value is too long for it"),
    0x040A: Declined("client-error-document-format-not-supported", "it does not take this kind of file"),
    0x040B: Declined("client-error-attributes-or-values-not-supported", "it cannot print as asked"),
    0x040D: Declined("client-error-charset-not-supported", "it does not read UTF-8"),
    0x040E: Declined("client-error-conflicting-attributes", "what was asked does not go together there"),
    0x0411: Declined("client-error-document-format-error", "it cannot read the file"),
    0x0500: Declined("server-error-internal-error", "something went wrong in the printer"),
    0x0501: Declined("server-error-operation-not-supported", "it does not know that operation"),
    0x0502: Declined("server-error-service-unavailable", "it cannot serve anyone at the moment"),
    OLD_VERSION: Declined("server-error-version-not-supported", "it speaks another version of the protocol"),
    0x0504: Declined("server-error-device-error", "the printer has a fault"),
    0x0505: Declined("server-error-temporary-error", "it cannot do that at the moment"),
    0x0506: Declined("server-error-not-accepting-jobs", "it takes no jobs"),
    BUSY: Declined("server-error-busy", "it is busy"),
    0x0508: Declined("server-error-job-canceled", "the job was cancelled at the printer"),
}

_NUMBERS = itertools.count(1)
_LOCK = threading.Lock()


def ask_printer(line: Line) -> PrinterFacts:
    """Return what the printer says of itself.

    Raises:
        WrapwrightError: unreachable, when nobody answers, or not as a printer.
    """
    reply, certificate = _ask(line, Operation.GET_PRINTER_ATTRIBUTES, [one(Tag.KEYWORD, _WANTED, *PRINTER_WANTED)])
    said = reply.first(Group.PRINTER)
    if not said:
        raise broken("it says nothing of a printer")
    return printer_facts(said, line.address.written, certificate=certificate)


_WANTED = "requested-attributes"


def validate_job(line: Line, ticket: JobTicket) -> tuple[str, ...]:
    """Return what the printer would ignore of a ticket, by the attributes' names; nothing is printed.

    Raises:
        WrapwrightError: refused, with the printer's reason, when it would not take the job.
    """
    operation, job = document_attributes(ticket), job_attributes(ticket)
    reply, _ = _ask(line, Operation.VALIDATE_JOB, [*_named(ticket.name), *operation], job)
    return ignored(reply)


def ignored(reply: Reply) -> tuple[str, ...]:
    """Return the names of the attributes that an answer says were not followed."""
    return tuple(name for group in reply.of(Group.UNSUPPORTED) for name in group)


def create_job(line: Line, ticket: JobTicket) -> JobSeen:
    """Return the job that the printer opened, which waits for its document.

    Raises:
        WrapwrightError: as the other operations.
    """
    reply, _ = _ask(line, Operation.CREATE_JOB, _named(ticket.name), job_attributes(ticket))
    return _one_job(reply)


def send_document(line: Line, job: int, ticket: JobTicket, document: Sent) -> JobSeen:
    """Return the job once the printer has its whole document."""
    attributes = [
        one(Tag.INTEGER, "job-id", job),
        _person(),
        *document_attributes(ticket),
        Written(Tag.BOOLEAN, "last-document", (True,)),
    ]
    reply, _ = _ask(line, Operation.SEND_DOCUMENT, attributes, document=document)
    return _one_job(reply, job)


def print_job(line: Line, ticket: JobTicket, document: Sent) -> JobSeen:
    """Return the job of one request that holds ticket and document, for printers that cannot open one first."""
    attributes = [*_named(ticket.name), *document_attributes(ticket)]
    reply, _ = _ask(line, Operation.PRINT_JOB, attributes, job_attributes(ticket), document=document)
    return _one_job(reply)


def look_at_job(line: Line, job: int) -> JobSeen | None:
    """Return how far a job is; None when the printer knows it no more."""
    wanted = ("job-id", "job-name", "job-state", "job-state-reasons", "job-state-message", "job-impressions-completed")
    attributes = [one(Tag.INTEGER, "job-id", job), _person(), one(Tag.KEYWORD, _WANTED, *wanted)]
    reply, _ = _ask(line, Operation.GET_JOB_ATTRIBUTES, attributes, allowed=UNKNOWN_JOB)
    return None if reply.status in UNKNOWN_JOB else _one_job(reply, job)


def find_job(line: Line, name: str) -> JobSeen | None:
    """Return the job of that name, whether it runs or has ended; None when the printer knows none.

    Raises:
        WrapwrightError: as the other operations, and refused when the printer does not show its jobs.
    """
    wanted = one(Tag.KEYWORD, _WANTED, "job-id", "job-name", "job-state", "job-state-reasons", "job-state-message")
    for which in ("not-completed", "completed"):
        attributes = [_person(), wanted, one(Tag.KEYWORD, "which-jobs", which)]
        reply, _ = _ask(line, Operation.GET_JOBS, attributes)
        for group in reply.of(Group.JOB):
            if name in group.get("job-name", ()):
                return job_seen(group)
    return None


def cancel_job(line: Line, job: int) -> None:
    """Have the printer stop a job; one that has ended, or is not known, is left as it is."""
    attributes = [one(Tag.INTEGER, "job-id", job), _person()]
    _ask(line, Operation.CANCEL_JOB, attributes, allowed=(0x0404, *UNKNOWN_JOB))


def queues_of(line: Line) -> tuple[tuple[str, str, str], ...]:
    """Return (name, address, model) of every printer that a print service knows (an operation of CUPS)."""
    wanted = one(Tag.KEYWORD, _WANTED, "printer-name", "printer-uri-supported", "printer-make-and-model")
    reply, _ = _ask(line, Operation.CUPS_GET_PRINTERS, [wanted], allowed=UNKNOWN_JOB)
    found = []
    for group in reply.of(Group.PRINTER):
        name, address, model = (
            next((str(value) for value in group.get(key, ()) if isinstance(value, str)), "")
            for key in ("printer-name", "printer-uri-supported", "printer-make-and-model")
        )
        if name and address:
            found.append((name, address, model))
    return tuple(found)


def _ask(
    line: Line,
    operation: Operation,
    attributes: Sequence[Written],
    job: Sequence[Written] = (),
    *,
    document: Sent | None = None,
    allowed: Iterable[int] = (),
) -> tuple[Reply, str]:
    """Return the printer's answer and its certificate, once it says yes or one of the allowed noes."""
    for version in (NEWER, OLDER):
        with _LOCK:
            number = next(_NUMBERS)
        groups = [(Group.OPERATION, [*_opening(line), *attributes]), *([(Group.JOB, job)] if job else [])]
        head = packed(operation, number, groups, version=version)
        parts, length = (document.parts(), document.length) if document else ((), 0)
        answer = exchange(line, head, parts, length)
        reply = unpacked(answer.content)
        if reply.status != OLD_VERSION:
            break
    if reply.number != number:
        raise broken(f"it answers request {reply.number} instead of {number}")
    if reply.status > 0x00FF and reply.status not in allowed:
        raise declined(line, reply)
    return reply, answer.certificate


def _opening(line: Line) -> list[Written]:
    """Return what every request begins with (RFC 8011, section 4.1.4)."""
    return [
        one(Tag.CHARSET, "attributes-charset", "utf-8"),
        one(Tag.LANGUAGE, "attributes-natural-language", "en"),
        one(Tag.URI, "printer-uri", line.address.written),
    ]


def _person() -> Written:
    return one(Tag.NAME, "requesting-user-name", "wrapwright")


def _named(name: str) -> list[Written]:
    return [_person(), one(Tag.NAME, "job-name", name)]


def declined(line: Line, reply: Reply) -> DeclinedError:
    """Return the error for an answer that says no, with the printer's own words where it has some."""
    meant = STATUSES.get(reply.status)
    words = meant.words if meant else f"it answers with status 0x{reply.status:04x}"
    own = next((str(text) for text in reply.first(Group.OPERATION).get("status-message", ()) if text), "")
    names = ignored(reply)
    because = f" ({', '.join(names[:8])})" if names else ""
    said = f' It says: "{own[:200]}".' if own else ""
    kind = Kind.UNREACHABLE if reply.status >= 0x0500 else Kind.REFUSED
    message = f"The printer says no: {words}{because}.{said}"
    error = DeclinedError(kind, message, remedy="Nothing was printed.", where=line.address.written)
    error.status = reply.status
    return error


def _one_job(reply: Reply, known: int = 0) -> JobSeen:
    """Return the job of an answer.

    Raises:
        WrapwrightError: unreachable, for an answer without a job.
    """
    group = reply.first(Group.JOB)
    seen = job_seen(group, known=known)
    if not seen.id:
        raise broken("it names no job")
    return seen
