"""A printer that does as it is told: it loses the line, answers nonsense, sends elsewhere, forgets, is slow."""

from __future__ import annotations

import socket
import sys
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from wrapwright.outside.printer.address import address_of
from wrapwright.outside.printer.asking import Operation
from wrapwright.outside.printer.encoding import Group, Range, Reply, Tag, Written, one, packed, unpacked
from wrapwright.outside.printer.transport import Line

OK = 0x0000
END_OF_REQUEST = b"\x03"


def media(width: int, height: int, margin: int = 300) -> tuple[Written, ...]:
    size = (one(Tag.INTEGER, "x-dimension", width), one(Tag.INTEGER, "y-dimension", height))
    sides = ("top", "right", "bottom", "left")
    return (
        one(Tag.BEGIN, "media-size", size),
        *(one(Tag.INTEGER, f"media-{side}-margin", margin) for side in sides),
    )


def says(**changed: Written | None) -> list[Written]:
    """What the printer says of itself; attributes by name ("-" written "_") are put in the place of its own."""
    own = [
        one(Tag.NAME, "printer-name", "Fake"),
        one(Tag.ENUM, "printer-state", 3),
        one(Tag.KEYWORD, "printer-state-reasons", "none"),
        one(Tag.BOOLEAN, "printer-is-accepting-jobs", *[True]),
        one(Tag.FORMAT, "document-format-supported", "application/pdf"),
        one(Tag.KEYWORD, "print-scaling-supported", "auto", "none"),
        one(Tag.KEYWORD, "sides-supported", "one-sided", "two-sided-long-edge"),
        one(Tag.RANGE, "copies-supported", Range(1, 20)),
        one(Tag.BEGIN, "media-col-database", media(21590, 27940), media(21000, 29700)),
        one(Tag.BEGIN, "media-col-ready", media(21590, 27940)),
        one(Tag.ENUM, "operations-supported", *[int(one) for one in Operation if one < 0x100]),
    ]
    kept = {attribute.name: attribute for attribute in own}
    kept |= {name.replace("_", "-"): value for name, value in changed.items()}  # type: ignore[dict-item]
    return [attribute for attribute in kept.values() if attribute is not None]


@dataclass
class Job:
    """A job as the printer keeps it."""

    id: int
    name: str
    document: bytes = b""
    state: int = 4
    reasons: tuple[str, ...] = ("job-incoming",)
    sent: int = 0


@dataclass
class Fake:
    """The printer.

    Attributes:
        attributes: what it says of itself.
        jobs: what it has.
        heard: the operations that were asked of it, in their order.
        before, after: by operation, what happens before the request is carried out, and before it is answered: called
            with the handler; gives bytes to be answered instead, or raises `Gone` to lose the line.
        status: by operation, the status with which it says no.
        ignores: attributes it says it does not follow.
        ends: the state that a job has once its document is there.
    """

    port: int = 0
    attributes: list[Written] = field(default_factory=says)
    jobs: dict[int, Job] = field(default_factory=dict)
    heard: list[int] = field(default_factory=list)
    before: dict[int, Callable[[], bytes | None]] = field(default_factory=dict)
    after: dict[int, Callable[[], bytes | None]] = field(default_factory=dict)
    status: dict[int, int] = field(default_factory=dict)
    ignores: tuple[str, ...] = ()
    ends: int = 9
    http: tuple[int, dict[str, str]] = (200, {})

    @property
    def address(self) -> str:
        return f"ipp://localhost:{self.port}/ipp/print"

    def line(self, patience_s: float = 5.0) -> Line:
        return Line(address_of(self.address), patience_s=patience_s)

    def printed(self) -> list[bytes]:
        """Return the documents of which it would print something."""
        return [job.document for job in self.jobs.values() if job.document and job.state not in {7, 8}]

    def answer(self, content: bytes) -> bytes:
        """Return the answer to a request; raises Gone where the line is to be lost."""
        request = unpacked(content)
        document = content[_length(content) :]
        operation = request.status
        self.heard.append(operation)
        if operation in self.before and (instead := self.before[operation]()) is not None:
            return instead
        if operation in self.status:
            return _reply(request, [], self.status[operation])
        answer = self.carry_out(operation, request, document)
        if operation in self.after and (instead := self.after[operation]()) is not None:
            return instead
        return answer

    def carry_out(self, operation: int, request: Reply, document: bytes) -> bytes:
        asked = request.first(Group.OPERATION)
        if operation in {Operation.GET_PRINTER_ATTRIBUTES, Operation.CUPS_GET_PRINTERS}:
            return _reply(request, [(Group.PRINTER, self.attributes)])
        if operation == Operation.VALIDATE_JOB:
            unsupported = [Written(Tag.KEYWORD, name, ("none",)) for name in self.ignores]
            return _reply(request, [(Group.UNSUPPORTED, unsupported)] if unsupported else [])
        if operation in {Operation.CREATE_JOB, Operation.PRINT_JOB}:
            job = Job(len(self.jobs) + 1, str(asked["job-name"][0]))
            self.jobs[job.id] = job
            if operation == Operation.PRINT_JOB:
                self.take(job, document)
            return _reply(request, [(Group.JOB, told(job))])
        if operation == Operation.GET_JOBS:
            ended = asked.get("which-jobs", ("",))[0] == "completed"
            groups = [(Group.JOB, told(job)) for job in self.jobs.values() if (job.state >= 7) == ended]
            return _reply(request, groups)
        job = self.jobs.get(int(asked["job-id"][0]))  # type: ignore[arg-type,assignment]
        if job is None:
            return _reply(request, [], 0x0406)
        if operation == Operation.SEND_DOCUMENT:
            self.take(job, document)
        if operation == Operation.CANCEL_JOB and job.state < 7:
            job.state, job.reasons = 7, ("job-canceled-by-user",)
        return _reply(request, [(Group.JOB, told(job))])

    def take(self, job: Job, document: bytes) -> None:
        job.document, job.state, job.reasons = document, self.ends, ("none",)
        job.sent += 1


class Gone(Exception):
    """The line is to be lost."""


def gone() -> bytes:
    raise Gone


def told(job: Job) -> list[Written]:
    return [
        one(Tag.INTEGER, "job-id", job.id),
        one(Tag.NAME, "job-name", job.name),
        one(Tag.ENUM, "job-state", job.state),
        one(Tag.KEYWORD, "job-state-reasons", *job.reasons),
    ]


def _reply(request: Reply, groups: list[tuple[Group, list[Written]]], status: int = OK) -> bytes:
    opening = [one(Tag.CHARSET, "attributes-charset", "utf-8"), one(Tag.LANGUAGE, "attributes-natural-language", "en")]
    return packed(status, request.number, [(Group.OPERATION, opening), *groups])


def _length(content: bytes) -> int:
    """Return where the document behind a message begins."""
    found = content.find(b"%PDF-")
    return found if found >= 0 else len(content)


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    fake: Fake

    def do_POST(self) -> None:
        try:
            content = self.rfile.read(int(self.headers["Content-Length"]))
            answer = self.fake.answer(content)
        except Gone:
            self.connection.shutdown(socket.SHUT_RDWR)
            self.close_connection = True
            return
        status, headers = self.fake.http
        self.send_response(status)
        for name, value in {"Content-Type": "application/ipp", **headers}.items():
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(answer)))
        self.end_headers()
        self.wfile.write(answer)

    def log_message(self, *words: object) -> None:
        """Say nothing."""


class _Server(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing of a client that has gone; tell of everything else."""
        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


@pytest.fixture
def fake() -> Iterator[Fake]:
    made = Fake()
    handler = type("Handler", (_Handler,), {"fake": made})
    with _Server(("localhost", 0), handler) as server:
        made.port = server.server_address[1]
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        try:
            yield made
        finally:
            server.shutdown()
            thread.join()


def slow(seconds: float) -> Callable[[], bytes | None]:
    def wait() -> None:
        time.sleep(seconds)

    return wait
