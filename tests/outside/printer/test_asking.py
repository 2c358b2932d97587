"""What a real printer takes, and what is said of one that says no, answers nonsense or leads astray."""

from __future__ import annotations

import hashlib
import socket
import time
from pathlib import Path

import pytest
from tests.outside.printer.fake_printer import Fake, gone, says, slow
from tests.outside.printer.real_printer import RealPrinter

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import Media, Readiness
from wrapwright.outside.printer.address import address_of
from wrapwright.outside.printer.asking import (
    STATUSES,
    DeclinedError,
    Operation,
    ask_printer,
    cancel_job,
    create_job,
    find_job,
    look_at_job,
    print_job,
    queues_of,
    send_document,
    validate_job,
)
from wrapwright.outside.printer.encoding import Tag, one
from wrapwright.outside.printer.jobs import JobState
from wrapwright.outside.printer.tickets import JobTicket, Sent
from wrapwright.outside.printer.transport import Line, LineLostError, SilentError

MARGINS = (3.0, 3.2, 5.0, 3.3)


@pytest.fixture
def sheet(tmp_path: Path) -> Sent:
    file = tmp_path / "sheets.pdf"
    file.write_bytes(b"%PDF-1.7\n" + bytes(range(256)) * 4000)
    return Sent(file, file.stat().st_size)


def settled(line: Line, job: int) -> JobState:
    """Return the state in which the job ends."""
    until = time.monotonic() + 10
    while time.monotonic() < until:
        seen = look_at_job(line, job)
        assert seen is not None
        if seen.ended:
            return seen.state
        time.sleep(0.02)
    raise AssertionError("the job does not end")


def test_a_real_printer_says_what_it_is(real: RealPrinter) -> None:
    facts = ask_printer(Line(address_of(real.address)))
    assert (facts.name, facts.formats, facts.scalings) == ("Desk", ("application/pdf",), ("auto", "fit", "none"))
    assert (facts.readiness, facts.accepting, facts.copies, facts.words) == (Readiness.IDLE, True, 99, "")
    assert facts.media == (Media("", 215.9, 279.4, MARGINS), Media("", 210.0, 297.0, MARGINS))
    assert facts.ready == (Media("", 215.9, 279.4, MARGINS, "main", "stationery"),)
    assert set(Operation) - {Operation.CUPS_GET_PRINTERS} <= facts.operations


def test_a_real_printer_gets_the_file_and_what_was_asked(real: RealPrinter, sheet: Sent) -> None:
    """`ippeveprinter` hands what it understood to its print command, as variables of the environment."""
    line = Line(address_of(real.address))
    media = ask_printer(line).ready
    assert media
    ticket = JobTicket("Größe 7 - wrapwright 1", "Größe 7", 215.9, 279.4, media[0], copies=3)
    assert validate_job(line, ticket) == ()
    job = create_job(line, ticket)
    assert not job.complete
    send_document(line, job.id, ticket, sheet)
    assert settled(line, job.id) is JobState.COMPLETED
    assert real.received()[-1] == sheet.file.read_bytes()
    asked = real.asked(job.id)
    assert (asked["IPP_PRINT_SCALING"], asked["IPP_SIDES"], asked["IPP_COPIES"]) == ("none", "one-sided", "3")
    assert asked["IPP_JOB_NAME"] == "Größe 7 - wrapwright 1"
    assert asked["IPP_DOCUMENT_NAME_SUPPLIED"] == "Größe 7"
    assert asked["IPP_MEDIA_COL"] == (
        "{media-size={x-dimension=21590 y-dimension=27940} media-top-margin=300 media-right-margin=320 "
        "media-bottom-margin=500 media-left-margin=330 media-source=main media-type=stationery}"
    )
    found = find_job(line, "Größe 7 - wrapwright 1")
    assert found is not None
    assert (found.id, found.state) == (job.id, JobState.COMPLETED)
    assert find_job(line, "Größe 7 - wrapwright 2") is None
    assert look_at_job(line, 987_654) is None


def test_one_request_for_printers_that_open_no_job(real: RealPrinter, sheet: Sent) -> None:
    line = Line(address_of(real.address))
    job = print_job(line, JobTicket("at once - wrapwright 2", "at once", 215.9, 279.4), sheet)
    assert settled(line, job.id) is JobState.COMPLETED
    assert real.received()[-1] == sheet.file.read_bytes()


def test_a_real_printer_cancels(real: RealPrinter, sheet: Sent) -> None:
    line = Line(address_of(real.address))
    real.take_paper()
    try:
        job = print_job(line, JobTicket("no paper - wrapwright 3", "no paper", 215.9, 279.4), sheet)
        cancel_job(line, job.id)
    finally:
        real.give_paper()
    assert settled(line, job.id) is JobState.CANCELED
    cancel_job(line, job.id)  # once more is no fault


def test_a_secured_line_shows_its_certificate(real: RealPrinter) -> None:
    address = address_of(real.address.replace("ipp:", "ipps:"))
    shown = ask_printer(Line(address)).certificate
    assert len(bytes.fromhex(shown)) == hashlib.sha256().digest_size
    assert ask_printer(Line(address, shown)).certificate == shown
    with pytest.raises(WrapwrightError, match="another certificate") as caught:
        ask_printer(Line(address, "0" * 64))
    assert caught.value.kind is Kind.REFUSED


def test_an_older_printer_is_spoken_to_in_its_version(fake: Fake) -> None:
    versions: list[bool] = []

    def first_no() -> bytes | None:
        versions.append(True)
        fake.status = {Operation.GET_PRINTER_ATTRIBUTES: 0x0503} if len(versions) == 1 else {}
        return None

    fake.before[Operation.GET_PRINTER_ATTRIBUTES] = first_no
    assert ask_printer(fake.line()).name == "Fake"
    assert len(versions) == 2


@pytest.mark.parametrize("status", STATUSES)
def test_a_no_is_told_in_words(fake: Fake, status: int) -> None:
    fake.status[Operation.CREATE_JOB] = status
    with pytest.raises(DeclinedError, match="^" + fake.address + ": The printer says no: ") as caught:
        create_job(fake.line(), JobTicket("x", "x", 210, 297))
    assert caught.value.status == status
    assert caught.value.kind is (Kind.UNREACHABLE if status >= 0x0500 else Kind.REFUSED)
    assert fake.jobs == {}


def test_what_is_ignored_is_named(fake: Fake) -> None:
    fake.ignores = ("print-scaling", "media-col")
    assert validate_job(fake.line(), JobTicket("x", "x", 210, 297)) == ("print-scaling", "media-col")


HOSTILE_HTTP = {
    (302, "Location"): "sends us to another address",
    (401, "WWW-Authenticate"): "name and a password",
    (404, "X"): "no printer at this path",
    (500, "X"): r"\(HTTP 500\)",
    (200, "Content-Type"): 'answers with "nonsense" instead of IPP',
}


@pytest.mark.parametrize(("answer", "words"), HOSTILE_HTTP.items())
def test_an_answer_that_is_none(fake: Fake, answer: tuple[int, str], words: str) -> None:
    status, header = answer
    fake.http = (status, {header: f"ipp://localhost:{fake.port}/else" if header == "Location" else "nonsense"})
    with pytest.raises(WrapwrightError, match=words) as caught:
        ask_printer(fake.line())
    assert caught.value.kind is Kind.UNREACHABLE
    assert len(fake.heard) == 1  # it was not followed anywhere


def test_bytes_that_are_no_answer(fake: Fake) -> None:
    for content in (b"", b"nonsense", bytes.fromhex("0200 0000 00000001 03")):
        fake.before[Operation.GET_PRINTER_ATTRIBUTES] = lambda content=content: content
        with pytest.raises(WrapwrightError, match="cannot be read"):
            ask_printer(fake.line())


def test_an_answer_without_a_printer_or_a_job(fake: Fake) -> None:
    fake.attributes = []
    with pytest.raises(WrapwrightError, match="nothing of a printer"):
        ask_printer(fake.line())


def test_a_lost_line_is_told_apart_from_nobody_there(fake: Fake, monkeypatch: pytest.MonkeyPatch) -> None:
    fake.after[Operation.CREATE_JOB] = gone
    with pytest.raises(LineLostError, match="lost in the middle"):
        create_job(fake.line(), JobTicket("x", "x", 210, 297))
    assert len(fake.jobs) == 1
    with pytest.raises(SilentError, match="Nobody answers at the printer's address") as caught:
        ask_printer(Line(address_of("ipp://localhost:1/ipp/print"), patience_s=2.0))
    assert caught.value.kind is Kind.UNREACHABLE

    def unknown(*_: object, **__: object) -> None:
        raise socket.gaierror(socket.EAI_NONAME, "Name or service not known")

    monkeypatch.setattr(socket, "getaddrinfo", unknown)
    with pytest.raises(SilentError, match=r"No machine called nobody\.example is known"):
        ask_printer(Line(address_of("ipp://nobody.example/ipp/print")))


def test_a_slow_printer_is_not_waited_for_for_ever(fake: Fake) -> None:
    fake.before[Operation.GET_PRINTER_ATTRIBUTES] = slow(0.6)
    began = time.monotonic()
    with pytest.raises(LineLostError, match=r"no whole answer within 0\.2 s"):
        ask_printer(fake.line(patience_s=0.2))
    assert time.monotonic() - began < 0.55


def test_a_file_that_shrinks_is_not_sent_as_whole(fake: Fake, sheet: Sent) -> None:
    longer = Sent(sheet.file, sheet.length + 10)
    job = create_job(fake.line(), JobTicket("x", "x", 210, 297))
    with pytest.raises(WrapwrightError, match="shortened") as caught:
        send_document(fake.line(), job.id, JobTicket("x", "x", 210, 297), longer)
    assert caught.value.kind is Kind.UNUSABLE
    assert fake.printed() == []


def test_the_printers_of_a_print_service(fake: Fake) -> None:
    fake.attributes = says(printer_uri_supported=one(Tag.URI, "printer-uri-supported", "ipp://localhost/printers/a"))
    assert queues_of(fake.line()) == (("Fake", "ipp://localhost/printers/a", ""),)
    fake.status[Operation.CUPS_GET_PRINTERS] = 0x0501
    with pytest.raises(DeclinedError, match="does not know that operation"):
        queues_of(fake.line())
