"""Which printers can be found: those of this machine's own print service, and those that answer on the network."""

from __future__ import annotations

import contextlib
import socket
import time
import unicodedata
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TypeGuard

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.printer.address import Address, address_of
from wrapwright.outside.printer.asking import queues_of
from wrapwright.outside.printer.dns import AAAA, PTR, SRV, TXT, A, Name, Record, Served, lowered, question, records
from wrapwright.outside.printer.transport import Line

GROUP = ("224.0.0.251", 5353)  # RFC 6762, section 3
SERVICES: tuple[Name, ...] = (("_ipp", "_tcp", "local"), ("_ipps", "_tcp", "local"))  # PWG 5100.14, section 4.2
HERE = Address(secure=False, host="localhost", port=631, path="/")
_LONGEST = 9000  # bytes of an answer, RFC 6762 section 17
_MOST = 200


@dataclass(frozen=True)
class Found:
    """A printer that was found.

    Attributes:
        address: where it is.
        name, model: its own words; the model may be "".
        origin: "this machine" or "network".
    """

    address: str
    name: str
    model: str
    origin: str


def printers_here(here: Address = HERE, *, patience_s: float = 1.0) -> tuple[Found, ...]:
    """Return the printers of this machine's own print service; none where there is no such service."""
    try:
        queues = queues_of(Line(here, patience_s=patience_s))
    except WrapwrightError:
        return ()
    found = []
    for name, address, model in queues:
        with contextlib.suppress(WrapwrightError):
            found.append(Found(address_of(address).written, name, model, "this machine"))
    return tuple(found)


def printers_around(
    seconds: float = 2.0,
    *,
    group: tuple[str, int] = GROUP,
    clock: Callable[[], float] = time.monotonic,
    step: Callable[[], None] = lambda: None,
) -> tuple[Found, ...]:
    """Return the printers that answer one question on the local network within some seconds (RFC 6762, section 5.1).

    Nothing is found where the network lets no such question through; `step` is called while we wait.
    """
    heard: list[Record] = []
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as sock:
        sock.setsockopt(socket.IPPROTO_IP, socket.IP_MULTICAST_TTL, 255)
        sock.settimeout(0.1)
        sock.sendto(question(SERVICES), group)
        end = clock() + seconds
        while clock() < end and len(heard) < _MOST * 10:
            step()
            with contextlib.suppress(TimeoutError):
                heard += records(sock.recvfrom(_LONGEST)[0])
    return tuple(described(heard))[:_MOST]


def described(heard: Iterable[Record]) -> Iterator[Found]:
    """Yield the printers that the answers tell of, each name once; its plain line before its secured one."""
    every = list(heard)
    lines = {one.owner: one.value for one in reversed(every) if one.kind == SRV}
    texts = {one.owner: one.value for one in reversed(every) if one.kind == TXT}
    hosts = {one.owner: one.value for kind in (AAAA, A) for one in reversed(every) if one.kind == kind}
    told: set[str] = set()
    for service in SERVICES:
        for one in every:
            instance = one.value
            if one.kind != PTR or one.owner != service or not _is_name(instance) or len(instance) < 2:
                continue
            key, name = lowered(instance), _clean(instance[0])
            line, text = lines.get(key), texts.get(key, {})
            if name in told or not isinstance(line, Served) or not isinstance(text, dict):
                continue
            host = hosts.get(lowered(line.host)) or ".".join(line.host)
            with contextlib.suppress(WrapwrightError):
                yield Found(_address(service, str(host), line.port, text), name, _clean(text.get("ty", "")), "network")
                told.add(name)


def _is_name(value: object) -> TypeGuard[Name]:
    return isinstance(value, tuple)


def _address(service: Name, host: str, port: int, text: dict[str, str]) -> str:
    scheme = "ipps" if service == SERVICES[1] else "ipp"
    shown = f"[{host}]" if ":" in host else host
    return address_of(f"{scheme}://{shown}:{port}/{text.get('rp', 'ipp/print').lstrip('/')}").written


def _clean(text: str) -> str:
    return "".join(" " if unicodedata.category(sign)[0] == "C" else sign for sign in text)[:120].strip()
