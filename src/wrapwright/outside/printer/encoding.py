"""Messages of the Internet Printing Protocol as bytes, and bytes as messages (RFC 8010, section 3)."""

from __future__ import annotations

import struct
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum

from wrapwright.core.base.errors import Kind, WrapwrightError

NEWER, OLDER = (2, 0), (1, 1)  # versions of the protocol that are spoken here
MOST_BYTES = 4_000_000
_MOST_VALUES = 50_000
_DEEPEST = 8
_LONGEST = 32_767


class Group(IntEnum):
    """Delimiter tags (RFC 8010, section 3.5.1)."""

    OPERATION = 1
    JOB = 2
    END = 3
    PRINTER = 4
    UNSUPPORTED = 5


class Tag(IntEnum):
    """Value tags (RFC 8010, section 3.5.2)."""

    INTEGER = 0x21
    BOOLEAN = 0x22
    ENUM = 0x23
    OCTETS = 0x30
    RESOLUTION = 0x32
    RANGE = 0x33
    BEGIN = 0x34
    TEXT_IN_LANGUAGE = 0x35
    NAME_IN_LANGUAGE = 0x36
    END = 0x37
    TEXT = 0x41
    NAME = 0x42
    KEYWORD = 0x44
    URI = 0x45
    CHARSET = 0x47
    LANGUAGE = 0x48
    FORMAT = 0x49
    MEMBER = 0x4A


@dataclass(frozen=True)
class Range:
    """A rangeOfInteger, both ends included."""

    low: int
    high: int


Value = int | bool | str | bytes | Range | None | dict[str, tuple["Value", ...]]
Attributes = dict[str, tuple[Value, ...]]


@dataclass(frozen=True)
class Written:
    """An attribute to be sent; a collection's values are tuples of attributes."""

    tag: Tag
    name: str
    values: tuple[int | bool | str | Range | tuple[Written, ...], ...]


@dataclass(frozen=True)
class Reply:
    """A message that came in.

    Attributes:
        status: its status code (RFC 8011, appendix B); in a request, the operation.
        number: the request's own number.
        groups: (tag, attributes) in their order; of an attribute named twice in a group the first stands.
    """

    status: int
    number: int
    groups: tuple[tuple[int, Attributes], ...] = field(default=())

    def of(self, group: Group) -> tuple[Attributes, ...]:
        """Return the groups of one kind."""
        return tuple(attributes for tag, attributes in self.groups if tag == group)

    def first(self, group: Group) -> Attributes:
        """Return the first group of one kind, empty where there is none."""
        found = self.of(group)
        return found[0] if found else {}


def one(tag: Tag, name: str, *values: int | bool | str | Range | tuple[Written, ...]) -> Written:
    """Return an attribute to be sent."""
    return Written(tag, name, values)


def packed(
    operation: int,
    number: int,
    groups: Iterable[tuple[Group, Iterable[Written]]],
    *,
    version: tuple[int, int] = NEWER,
) -> bytes:
    """Return a request's bytes, up to where its document begins; an answer's, with its status for the operation."""
    parts = [struct.pack(">BBHI", *version, operation, number)]
    for group, attributes in groups:
        parts.append(bytes([group]))
        parts += [_attribute(attribute) for attribute in attributes]
    parts.append(bytes([Group.END]))
    return b"".join(parts)


def _attribute(attribute: Written) -> bytes:
    made, name = [], attribute.name
    for value in attribute.values:
        made.append(_field(attribute.tag, name, value))
        name = ""
    return b"".join(made)


def _field(tag: Tag, name: str, value: int | bool | str | Range | tuple[Written, ...]) -> bytes:  # noqa: FBT001
    if isinstance(value, tuple):
        members = b"".join(_member(member) for member in value)
        return _raw(Tag.BEGIN, name, b"") + members + _raw(Tag.END, "", b"")
    if isinstance(value, Range):
        return _raw(tag, name, struct.pack(">ii", value.low, value.high))
    if tag is Tag.BOOLEAN:
        return _raw(tag, name, b"\x01" if value else b"\x00")
    if isinstance(value, int):
        return _raw(tag, name, struct.pack(">i", value))
    return _raw(tag, name, value.encode("utf-8"))


def _member(member: Written) -> bytes:
    return _raw(Tag.MEMBER, "", member.name.encode()) + b"".join(
        _field(member.tag, "", value) for value in member.values
    )


def _raw(tag: Tag, name: str, content: bytes) -> bytes:
    written = name.encode("utf-8")
    return struct.pack(">BH", tag, len(written)) + written + struct.pack(">H", len(content)) + content


def unpacked(content: bytes) -> Reply:
    """Return the message that the bytes hold; a document behind it is left out.

    Texts lose the signs that steer a terminal. Values of kinds not read here (dates, resolutions, unknown ones) are
    bytes; out-of-band values are None.

    Raises:
        WrapwrightError: unreachable, for bytes that are no message of the protocol, or one beyond its limits: 4 MB,
            50,000 values, collections 8 deep.
    """
    if len(content) > MOST_BYTES:
        raise broken(f"it is longer than {MOST_BYTES // 1_000_000} MB")
    reader = _Reader(content)
    try:
        return reader.message()
    except (struct.error, IndexError) as error:
        raise broken("it ends in the middle") from error


def broken(why: str) -> WrapwrightError:
    """Return the error for an answer that cannot be used."""
    message = f"The printer's answer cannot be read: {why}."
    remedy = "Look at the address: it must be that of a printer which speaks IPP."
    return WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy)


class _Reader:
    """Reads a message from its beginning to its end."""

    def __init__(self, content: bytes) -> None:
        self.content = content
        self.at = 0
        self.values = 0

    def message(self) -> Reply:
        major, _, status, number = struct.unpack_from(">BBHI", self.content)
        if major not in {1, 2}:
            raise broken(f"it is of version {major} of the protocol, or of another one")
        self.at = 8
        groups: list[tuple[int, Attributes]] = []
        tag = self.byte()
        while tag != Group.END:
            if tag > 0x0F:
                raise broken("a value stands outside every group")
            attributes, following = self.group()
            groups.append((tag, attributes))
            tag = following
        return Reply(status, number, tuple(groups))

    def group(self) -> tuple[Attributes, int]:
        """Return a group's attributes and the tag that ends it."""
        found: Attributes = {}
        name = ""
        values: list[Value] = []
        while (tag := self.byte()) > 0x0F:
            called = self.piece().decode("utf-8", "replace")
            value = self.value(tag, self.piece(), 0)
            if called:
                if name:
                    found.setdefault(name, tuple(values))
                name, values = called, [value]
            elif name:
                values.append(value)
            else:
                raise broken("a value has no name")
        if name:
            found.setdefault(name, tuple(values))
        return found, tag

    def byte(self) -> int:
        found = self.content[self.at]
        self.at += 1
        return found

    def piece(self) -> bytes:
        (length,) = struct.unpack_from(">H", self.content, self.at)
        start = self.at + 2
        if length > _LONGEST or start + length > len(self.content):
            raise broken("it ends in the middle")
        self.at = start + length
        return self.content[start : self.at]

    def value(self, tag: int, content: bytes, depth: int) -> Value:
        self.values += 1
        if self.values > _MOST_VALUES:
            raise broken(f"it holds more than {_MOST_VALUES} values")
        if tag == Tag.BEGIN:
            return self.collection(depth + 1)
        if tag in {Tag.MEMBER, Tag.END}:
            raise broken("a collection's part stands outside a collection")
        return plain(tag, content)

    def collection(self, depth: int) -> dict[str, tuple[Value, ...]]:
        if depth > _DEEPEST:
            raise broken(f"its collections are more than {_DEEPEST} deep")
        found: dict[str, list[Value]] = {}
        into: list[Value] | None = None
        while True:
            tag = self.byte()
            if tag <= 0x0F:
                raise broken("a collection has no end")
            self.piece()
            content = self.piece()
            if tag == Tag.END:
                return {name: tuple(values) for name, values in found.items() if values}
            if tag == Tag.MEMBER:
                into = found.setdefault(content.decode("utf-8", "replace"), [])
            elif into is None:
                raise broken("a collection's value has no name")
            else:
                into.append(self.value(tag, content, depth))


def plain(tag: int, content: bytes) -> Value:
    """Return one value from its bytes.

    Raises:
        WrapwrightError: unreachable, for a length that its kind cannot have.
    """
    if tag < 0x20:
        return None
    if tag in {Tag.INTEGER, Tag.ENUM}:
        return int(_of_length(content, 4, ">i")[0])
    if tag == Tag.BOOLEAN:
        return bool(_of_length(content, 1, ">B")[0])
    if tag == Tag.RANGE:
        low, high = _of_length(content, 8, ">ii")
        return Range(low, high)
    if tag in {Tag.TEXT_IN_LANGUAGE, Tag.NAME_IN_LANGUAGE}:
        (length,) = struct.unpack_from(">H", content)
        return _text(content[2 + length + 2 :])
    return _text(content) if 0x40 <= tag <= 0x5F else content


def _of_length(content: bytes, length: int, form: str) -> tuple[int, ...]:
    if len(content) != length:
        raise broken(f"a number has {len(content)} bytes instead of {length}")
    return struct.unpack(form, content)


def _text(content: bytes) -> str:
    text = content.decode("utf-8", "replace")
    return "".join(" " if unicodedata.category(sign) in {"Cc", "Cf", "Zl", "Zp"} else sign for sign in text)
