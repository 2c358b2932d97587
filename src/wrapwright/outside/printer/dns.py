"""Questions and answers of DNS, as far as finding a service on the local network needs them (RFC 1035, RFC 6763)."""

from __future__ import annotations

import ipaddress
import struct
from collections.abc import Iterable
from dataclasses import dataclass

A, PTR, TXT, AAAA, SRV = 1, 12, 16, 28, 33
_IN = 1
_UNICAST = 0x8000  # the answer may come to the asker alone, RFC 6762 section 5.4
_POINTER = 0xC0
_LONGEST_LABEL = 63
_MOST_LABELS = 64
_MOST_RECORDS = 500

Name = tuple[str, ...]


@dataclass(frozen=True)
class Served:
    """Where a service is: the machine and its port (SRV)."""

    port: int
    host: Name


@dataclass(frozen=True)
class Record:
    """One answer: whose (in small letters), and what: a name (PTR), where it is (SRV), texts (TXT), an IP address."""

    owner: Name
    kind: int
    value: Name | Served | dict[str, str] | str


def question(names: Iterable[Name]) -> bytes:
    """Return the bytes that ask who serves under each of the names (PTR)."""
    asked = list(names)
    head = struct.pack(">6H", 0, 0, len(asked), 0, 0, 0)
    return head + b"".join(_label(name) + struct.pack(">HH", PTR, _IN | _UNICAST) for name in asked)


def _label(name: Name) -> bytes:
    return b"".join(bytes([len(part.encode())]) + part.encode() for part in name) + b"\0"


def records(content: bytes) -> tuple[Record, ...]:
    """Return the records of an answer that were understood; none for bytes that are no answer of DNS."""
    found: list[Record] = []
    try:
        _, flags, asked, *counts = struct.unpack_from(">6H", content)
        if not flags & 0x8000:
            return ()
        at = 12
        for _ in range(min(asked, _MOST_RECORDS)):
            at = _name(content, at)[1] + 4
        for _ in range(min(sum(counts), _MOST_RECORDS)):
            owner, at = _name(content, at)
            kind, _, _, length = struct.unpack_from(">HHIH", content, at)
            start, at = at + 10, at + 10 + length
            if at > len(content):
                break
            value = _value(content, kind, start, at)
            if value is not None:
                found.append(Record(lowered(owner), kind, value))
    except (struct.error, IndexError, ValueError):
        return tuple(found)
    return tuple(found)


def lowered(name: Name) -> Name:
    """Return a name in small letters, in which names are compared."""
    return tuple(part.lower() for part in name)


def _value(content: bytes, kind: int, start: int, end: int) -> Name | Served | dict[str, str] | str | None:
    if kind == PTR:
        return _name(content, start)[0]
    if kind == SRV:
        return Served(struct.unpack_from(">H", content, start + 4)[0], _name(content, start + 6)[0])
    if kind == TXT:
        return _texts(content[start:end])
    if kind in {A, AAAA} and end - start == (4 if kind == A else 16):
        return str(ipaddress.ip_address(content[start:end]))
    return None


def _texts(content: bytes) -> dict[str, str]:
    """Return the keys and values of a TXT record (RFC 6763, section 6); of a key given twice the first stands."""
    found: dict[str, str] = {}
    at = 0
    while at < len(content):
        length = content[at]
        key, _, value = content[at + 1 : at + 1 + length].partition(b"=")
        if key:
            found.setdefault(key.decode("ascii", "replace").lower(), value.decode("utf-8", "replace"))
        at += 1 + length
    return found


def _name(content: bytes, at: int) -> tuple[Name, int]:
    """Return a name and where what follows it begins; a pointer may only lead back, so that it ends.

    Raises:
        ValueError: for one that does not.
    """
    parts: list[str] = []
    after, least = 0, at
    while length := content[at]:
        if length >= _POINTER:
            target = (length & 0x3F) << 8 | content[at + 1]
            after = after or at + 2
            if target >= least:
                raise ValueError("a pointer leads on")
            at = least = target
            continue
        if length > _LONGEST_LABEL or len(parts) >= _MOST_LABELS or at + 1 + length > len(content):
            raise ValueError("no name")
        parts.append(content[at + 1 : at + 1 + length].decode("utf-8", "replace"))
        at += 1 + length
    return tuple(parts), after or at + 1
