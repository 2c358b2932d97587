"""Names of this machine, and which addresses are its own."""

from __future__ import annotations

import socket

import pytest

from wrapwright.faces.web.admission import Admission, host_of, is_loopback, names_at_home


@pytest.mark.parametrize(
    ("header", "name"),
    [
        ("localhost", "localhost"),
        ("Bench.Local:8782", "bench.local"),
        ("bench.local.", "bench.local"),
        ("[::1]:8782", "::1"),
        ("[FE80::1]", "fe80::1"),
        ("192.0.2.7:80", "192.0.2.7"),
        ("", ""),
    ],
)
def test_the_name_in_a_host_header(header: str, name: str) -> None:
    assert host_of(header) == name


@pytest.mark.parametrize(
    ("address", "own"),
    [
        ("127.0.0.1", True),
        ("127.9.9.9", True),  # all of 127.0.0.0/8, RFC 1122 3.2.1.3
        ("::1", True),
        ("::ffff:127.0.0.1", True),  # as a socket for both kinds of address gives it, RFC 4291 2.5.5.2
        ("localhost", True),
        ("192.0.2.1", False),
        ("::ffff:192.0.2.1", False),
        ("testclient", False),
        ("", False),
    ],
)
def test_which_addresses_are_this_machine(address: str, own: bool) -> None:
    assert is_loopback(address) is own


def test_names_on_the_network() -> None:
    names = names_at_home(["Workshop.example", "bench:8782"])
    host = socket.gethostname().lower().partition(".")[0]
    assert {"localhost", "127.0.0.1", "::1", "workshop.example", "bench", f"{host}.local"} <= names
    assert Admission(names).knows("WORKSHOP.example:8782")
    assert not Admission(names).knows("example")
    assert not Admission(names).knows("")
