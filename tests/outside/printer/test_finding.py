"""Printers that answer on a network, and what becomes of answers that are none."""

from __future__ import annotations

import socket
import struct
import threading
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.outside.printer.fake_printer import Fake, says

from wrapwright.outside.printer.address import address_of
from wrapwright.outside.printer.dns import PTR, SRV, TXT, Served, question, records
from wrapwright.outside.printer.encoding import Tag, one
from wrapwright.outside.printer.finding import SERVICES, Found, described, printers_around, printers_here

HEAD = struct.pack(">6H", 0, 0x8400, 0, 4, 0, 0)
POINTER = b"\xc0\x0c"  # to the first name, at byte 12 (RFC 1035, section 4.1.4)


def label(*parts: str) -> bytes:
    return b"".join(bytes([len(part)]) + part.encode() for part in parts) + b"\0"


def record(owner: bytes, kind: int, value: bytes) -> bytes:
    return owner + struct.pack(">HHIH", kind, 0x8001, 120, len(value)) + value


def text(*entries: str) -> bytes:
    return b"".join(bytes([len(entry)]) + entry.encode() for entry in entries)


def answer(*, path: str = "ipp/print", port: int = 631, address: bytes = bytes([192, 0, 2, 9])) -> bytes:
    """An answer as a printer gives it: its instance, where it is, what it is, its address; names shortened."""
    service = label("_ipp", "_tcp", "local")
    instance = bytes([4]) + b"Desk" + POINTER
    made = HEAD + record(service, PTR, instance)
    made += record(instance, SRV, struct.pack(">3H", 0, 0, port) + label("desk-printer", "local"))
    made += record(instance, TXT, text(f"rp={path}", "ty=Example 3000", "rp=other", "pdl=application/pdf"))
    return made + record(label("Desk-Printer", "LOCAL"), 1, address)


def test_the_question_is_one_for_both_services() -> None:
    """RFC 1035, section 4.1; the top bit of the class asks for an answer to us alone (RFC 6762, section 5.4)."""
    asked = question(SERVICES)
    assert asked == (
        bytes.fromhex("0000 0000 0002 0000 0000 0000")
        + label("_ipp", "_tcp", "local") + b"\x00\x0c\x80\x01"
        + label("_ipps", "_tcp", "local") + b"\x00\x0c\x80\x01"
    )  # fmt: skip
    assert records(asked) == ()  # a question is no answer


def test_an_answer_is_read() -> None:
    found = records(answer())
    assert [one.kind for one in found] == [PTR, SRV, TXT, 1]
    assert found[1].owner == ("desk", "_ipp", "_tcp", "local")
    assert found[1].value == Served(631, ("desk-printer", "local"))
    assert tuple(described(found)) == (Found("ipp://192.0.2.9/ipp/print", "Desk", "Example 3000", "network"),)


def test_without_an_address_its_name_is_used() -> None:
    found = [one for one in records(answer(port=8631)) if one.kind != 1]
    assert [one.address for one in described(found)] == ["ipp://desk-printer.local:8631/ipp/print"]


def test_an_instance_of_which_nothing_more_is_told_is_left_out() -> None:
    found = [one for one in records(answer()) if one.kind != SRV]
    assert tuple(described(found)) == ()
    assert tuple(described(records(answer(path="a b\r\n")))) == ()


def test_a_name_on_both_lines_is_one_printer() -> None:
    plain = records(answer())
    secured = [replace(one, owner=tuple("_ipps" if part == "_ipp" else part for part in one.owner)) for one in plain]
    instance = ("Desk", "_ipps", "_tcp", "local")
    secured = [replace(one, value=instance) if one.kind == PTR else one for one in secured]
    assert [one.address for one in described([*secured, *plain])] == ["ipp://192.0.2.9/ipp/print"]
    assert [one.address for one in described(secured)] == ["ipps://192.0.2.9/ipp/print"]


def test_a_name_that_leads_to_itself_ends() -> None:
    assert records(HEAD + b"\xc0\x0c" + struct.pack(">HHIH", PTR, 1, 1, 2) + POINTER) == ()
    assert records(HEAD + b"\xc0\x20" + bytes(40)) == ()


@settings(max_examples=100)
@given(some.data())
def test_any_answer_is_survived(data: some.DataObject) -> None:
    bent = bytearray(answer())
    for _ in range(data.draw(some.integers(0, 4))):
        bent[data.draw(some.integers(0, len(bent) - 1))] = data.draw(some.integers(0, 255))
    for content in (bytes(bent[: data.draw(some.integers(0, len(bent)))]), data.draw(some.binary(max_size=60))):
        for one_found in described(records(content)):
            assert address_of(one_found.address).written == one_found.address
            assert one_found.name.isprintable()


@pytest.fixture
def responder() -> Iterator[tuple[str, int]]:
    """Someone on this machine who answers a question with nonsense first, then as a printer."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as sock:
        sock.bind(("127.0.0.1", 0))

        def serve() -> None:
            _, asker = sock.recvfrom(2000)
            for content in (b"nonsense", answer()):
                sock.sendto(content, asker)

        thread = threading.Thread(target=serve)
        thread.start()
        yield ("127.0.0.1", sock.getsockname()[1])
        thread.join()


def test_the_network_is_asked_and_its_answers_gathered(responder: tuple[str, int]) -> None:
    steps: list[None] = []
    found = printers_around(0.3, group=responder, step=lambda: steps.append(None))
    assert found == (Found("ipp://192.0.2.9/ipp/print", "Desk", "Example 3000", "network"),)
    assert steps


def test_the_printers_of_this_machine(fake: Fake) -> None:
    fake.attributes = says(printer_uri_supported=one(Tag.URI, "printer-uri-supported", "ipp://localhost/printers/a"))
    here = address_of(fake.address)
    assert printers_here(here) == (Found("ipp://localhost/printers/a", "Fake", "", "this machine"),)
    fake.attributes = says(printer_uri_supported=one(Tag.URI, "printer-uri-supported", "file:///etc/passwd"))
    assert printers_here(here) == ()
    assert printers_here(address_of("ipp://localhost:1/"), patience_s=0.5) == ()
