"""Messages of the protocol as bytes: the published example, what goes out comes back, whatever comes is survived."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.printer.encoding import (
    MOST_BYTES,
    OLDER,
    Group,
    Range,
    Reply,
    Tag,
    Written,
    one,
    packed,
    plain,
    unpacked,
)

# RFC 8010, appendix A.1: a Print-Job request, byte for byte.
EXAMPLE = b"".join(
    (
        bytes.fromhex("0101 0002 00000001 01"),
        b"\x47\x00\x12attributes-charset\x00\x05utf-8",
        b"\x48\x00\x1battributes-natural-language\x00\x05en-us",
        b"\x45\x00\x0bprinter-uri\x00\x2cipp://printer.example.com/ipp/print/pinetree",
        b"\x42\x00\x08job-name\x00\x06foobar",
        b"\x22\x00\x16ipp-attribute-fidelity\x00\x01\x01",
        b"\x02",
        b"\x21\x00\x06copies\x00\x04\x00\x00\x00\x14",
        b"\x44\x00\x05sides\x00\x13two-sided-long-edge",
        b"\x03",
    )
)
OPERATION = [
    one(Tag.CHARSET, "attributes-charset", "utf-8"),
    one(Tag.LANGUAGE, "attributes-natural-language", "en-us"),
    one(Tag.URI, "printer-uri", "ipp://printer.example.com/ipp/print/pinetree"),
    one(Tag.NAME, "job-name", "foobar"),
    Written(Tag.BOOLEAN, "ipp-attribute-fidelity", (True,)),
]
JOB = [one(Tag.INTEGER, "copies", 20), one(Tag.KEYWORD, "sides", "two-sided-long-edge")]


def test_the_published_example_is_written() -> None:
    assert packed(2, 1, [(Group.OPERATION, OPERATION), (Group.JOB, JOB)], version=OLDER) == EXAMPLE


def test_the_published_example_is_read() -> None:
    read = unpacked(EXAMPLE + b"%PDF-")
    assert (read.status, read.number) == (2, 1)
    assert read.first(Group.OPERATION)["ipp-attribute-fidelity"] == (True,)
    assert read.first(Group.JOB) == {"copies": (20,), "sides": ("two-sided-long-edge",)}
    assert read.of(Group.PRINTER) == ()
    assert read.first(Group.PRINTER) == {}


def test_what_goes_out_comes_back() -> None:
    size = (one(Tag.INTEGER, "x-dimension", 21000), one(Tag.RANGE, "y-dimension", Range(1, 29700)))
    column = (one(Tag.BEGIN, "media-size", size), one(Tag.KEYWORD, "media-source", "main", "rear"))
    written = [one(Tag.BEGIN, "media-col", column, column), one(Tag.ENUM, "print-quality", 5)]
    read = unpacked(packed(5, 77, [(Group.JOB, written)]))
    back = {"media-size": ({"x-dimension": (21000,), "y-dimension": (Range(1, 29700),)},)}
    back |= {"media-source": ("main", "rear")}
    assert read == Reply(5, 77, ((Group.JOB, {"media-col": (back, back), "print-quality": (5,)}),))


def test_values_of_every_kind() -> None:
    assert plain(0x13, b"") is None  # no-value
    assert plain(Tag.INTEGER, b"\xff\xff\xff\xfe") == -2
    assert plain(Tag.NAME_IN_LANGUAGE, b"\x00\x02de\x00\x03abc") == "abc"
    assert plain(Tag.OCTETS, b"\x00\xff") == b"\x00\xff"
    assert plain(Tag.TEXT, b"a\x1b[31mb\xff\n") == "a [31mb\ufffd "


def test_of_an_attribute_named_twice_the_first_stands() -> None:
    twice = [one(Tag.INTEGER, "copies", 1), one(Tag.INTEGER, "copies", 2)]
    assert unpacked(packed(0, 1, [(Group.JOB, twice)])).first(Group.JOB) == {"copies": (1,)}


def deep(levels: int) -> Written:
    inner: Written = one(Tag.INTEGER, "x", 1)
    for _ in range(levels):
        inner = one(Tag.BEGIN, "c", (inner,))
    return inner


HEAD = bytes.fromhex("0200 0000 00000001")
HOSTILE = {
    "nothing": b"",
    "a page": b"<!DOCTYPE html><html><body>Welcome</body></html>",
    "another version": b"\x09" + HEAD[1:] + b"\x03",
    "no end": HEAD + b"\x01",
    "a value outside": HEAD + b"\x21\x00\x01a\x00\x04\x00\x00\x00\x01\x03",
    "no name": HEAD + b"\x01\x21\x00\x00\x00\x04\x00\x00\x00\x01\x03",
    "a length too long": HEAD + b"\x01\x44\x00\x01a\xff\xffx\x03",
    "a short number": HEAD + b"\x01\x21\x00\x01a\x00\x02\x00\x01\x03",
    "a stray end": HEAD + b"\x01\x37\x00\x01a\x00\x00\x03",
    "an open collection": HEAD + b"\x01\x34\x00\x01a\x00\x00\x03",
    "a nameless part": HEAD + b"\x01\x34\x00\x01a\x00\x00\x21\x00\x00\x00\x04\x00\x00\x00\x01\x37\x00\x00\x00\x00\x03",
    "too deep": packed(0, 1, [(Group.JOB, [deep(9)])]),
    "too many": HEAD + b"\x01\x22\x00\x01a\x00\x01\x01" + b"\x22\x00\x00\x00\x01\x01" * 50_000 + b"\x03",
    "too long": HEAD + bytes(MOST_BYTES),
}


@pytest.mark.parametrize("content", HOSTILE.values(), ids=HOSTILE.keys())
def test_what_is_no_message_is_told_in_one_sentence(content: bytes) -> None:
    with pytest.raises(WrapwrightError, match=r"^The printer's answer cannot be read: .+\.") as caught:
        unpacked(content)
    assert caught.value.kind is Kind.UNREACHABLE
    assert "\n" not in str(caught.value)


def test_eight_deep_is_read() -> None:
    assert unpacked(packed(0, 1, [(Group.JOB, [deep(8)])])).first(Group.JOB)


def trouble(content: bytes) -> Kind | None:
    """Return the kind of our error that the bytes give, None where they are a message."""
    try:
        assert isinstance(unpacked(content), Reply)
    except WrapwrightError as error:
        return error.kind
    return None


@settings(max_examples=100)
@given(some.binary(max_size=300))
def test_any_bytes_give_a_message_or_our_error(tail: bytes) -> None:
    for content in (tail, HEAD + tail, EXAMPLE[:9] + tail):
        assert trouble(content) in {None, Kind.UNREACHABLE}


@settings(max_examples=100)
@given(some.data())
def test_a_message_bent_anywhere_gives_a_message_or_our_error(data: some.DataObject) -> None:
    bent = bytearray(packed(0, 1, [(Group.OPERATION, OPERATION), (Group.JOB, [deep(3), *JOB])]))
    for _ in range(data.draw(some.integers(1, 4))):
        bent[data.draw(some.integers(0, len(bent) - 1))] = data.draw(some.integers(0, 255))
    assert trouble(bytes(bent[: data.draw(some.integers(0, len(bent)))])) in {None, Kind.UNREACHABLE}
