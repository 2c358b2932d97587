"""Under which names the bench is reached, and who needs an account for it."""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Iterable
from dataclasses import dataclass

from starlette.datastructures import Headers
from starlette.types import Scope

LOOPBACK = frozenset({"localhost", "127.0.0.1", "::1"})
# Ends of names that only a home's or a workshop's own network gives (RFC 6762, RFC 8375, and ICANN's ".internal").
_AT_HOME = ("", ".local", ".lan", ".home.arpa", ".internal")


@dataclass(frozen=True)
class Admission:
    """Who is let in.

    Attributes:
        names: host names and addresses under which the bench may be asked, small letters, without port.
        accounts: whether accounts count at all; without, everyone who reaches the bench may use it.
        at_home: whether this machine itself needs no account.
    """

    names: frozenset[str] = LOOPBACK
    accounts: bool = False
    at_home: bool = True

    def knows(self, host: str) -> bool:
        """Return whether a Host header is one of our names; a foreign one is the sign of a rebound name."""
        return host_of(host) in self.names

    def demands(self, scope: Scope, headers: Headers) -> bool:
        """Return whether a request needs someone signed in."""
        if not self.accounts:
            return False
        return not (self.at_home and _is_here(scope, headers))


def _is_here(scope: Scope, headers: Headers) -> bool:
    """Return whether a request comes from this machine itself, and not through a program that passes others' on."""
    passed_on = "x-forwarded-for" in headers or "forwarded" in headers
    client = scope.get("client") or ("", 0)
    return not passed_on and is_loopback(client[0]) and is_loopback(host_of(headers.get("host", "")))


def host_of(host: str) -> str:
    """Return a Host header's name or address without its port, in small letters."""
    text = host.strip().lower()
    if text.startswith("["):
        return text[1:].partition("]")[0]
    return text.partition(":")[0].rstrip(".")


def is_loopback(name: str) -> bool:
    """Return whether a name or an address is this machine's own."""
    try:
        address = ipaddress.ip_address(name.partition("%")[0])
    except ValueError:
        return name == "localhost"
    mapped = getattr(address, "ipv4_mapped", None)
    return (mapped or address).is_loopback


def names_at_home(extra: Iterable[str] = ()) -> frozenset[str]:
    """Return the names and addresses of this machine on its own network, loopback and `extra` with them."""
    import psutil

    own = socket.gethostname().lower().partition(".")[0]
    addresses = {
        one.address.partition("%")[0].lower()
        for every in psutil.net_if_addrs().values()
        for one in every
        if one.family in {socket.AF_INET, socket.AF_INET6}
    }
    named = {f"{own}{end}" for end in _AT_HOME} if own else set()
    return LOOPBACK | addresses | named | {host_of(one) for one in extra}
