"""Accounts and sessions: passwords that cannot be read back, sessions that end."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept import people
from wrapwright.jobs.kept.people import (
    AddAccount,
    ListAccounts,
    RemoveAccount,
    SignIn,
    SignOut,
    WhoIs,
    add_account,
    agrees,
    hashed,
    list_accounts,
    remove_account,
    sign_in,
    sign_out,
    who_is,
)
from wrapwright.jobs.open_bench import open_bench

QUIET = Watch()
PASSWORD = "vier einfache Wörter"


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = open_bench(cache=tmp_path / "cache", data=tmp_path / "data", fonts=tmp_path / "fonts", threads=1)
    yield made
    made.kept().close()


@pytest.fixture
def ada(bench: Bench) -> Bench:
    add_account(AddAccount("Ada", PASSWORD), bench, QUIET)
    return bench


def test_asking_makes_no_store(bench: Bench) -> None:
    assert list_accounts(ListAccounts(), bench, QUIET) == ()
    assert not bench.kept().exists()


def test_a_password_is_kept_as_scrypt() -> None:
    """RFC 7914 section 12: scrypt("pleaseletmein", "SodiumChloride", N=16384, r=8, p=1)."""
    wanted = (
        "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2"
        "d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887"
    )
    kept = f"scrypt$16384$8$1${b'SodiumChloride'.hex()}${wanted[:64]}"
    assert agrees("pleaseletmein", kept)
    assert not agrees("pleaseletmeout", kept)
    own = hashed("pleaseletmein")
    assert own.startswith("scrypt$32768$8$1$")
    assert own != hashed("pleaseletmein")
    assert agrees("pleaseletmein", own)
    for odd in ("", "scrypt$1$2", "plain$16384$8$1$00$00", "scrypt$x$8$1$00$00"):
        assert not agrees("", odd)


def test_accounts(ada: Bench) -> None:
    with pytest.raises(WrapwrightError) as taken:
        add_account(AddAccount("ADA", PASSWORD), ada, QUIET)
    assert taken.value.kind is Kind.REFUSED
    with pytest.raises(WrapwrightError, match="has 9 characters; it must have at least 10"):
        add_account(AddAccount("Bob", "short one"), ada, QUIET)
    add_account(AddAccount("bob", PASSWORD), ada, QUIET)
    assert [one.name for one in list_accounts(ListAccounts(), ada, QUIET)] == ["Ada", "bob"]
    remove_account(RemoveAccount("BOB"), ada, QUIET)
    with pytest.raises(WrapwrightError) as missing:
        remove_account(RemoveAccount("bob"), ada, QUIET)
    assert missing.value.kind is Kind.MISSING


def test_a_session_is_known_until_it_ends(ada: Bench) -> None:
    assert sign_in(SignIn("Ada", "not this one"), ada, QUIET) == ""
    assert sign_in(SignIn("Bob", PASSWORD), ada, QUIET) == ""
    first = sign_in(SignIn("ada", PASSWORD), ada, QUIET)
    second = sign_in(SignIn("ADA", PASSWORD), ada, QUIET)
    assert first != second
    assert who_is(WhoIs(first), ada, QUIET) == "Ada"
    sign_out(SignOut(first), ada, QUIET)
    assert who_is(WhoIs(first), ada, QUIET) == ""
    assert who_is(WhoIs(second), ada, QUIET) == "Ada"
    assert who_is(WhoIs(""), ada, QUIET) == who_is(WhoIs("\ud800"), ada, QUIET) == ""
    later = replace(ada, clock=lambda: datetime.now(UTC) + timedelta(hours=12, seconds=1))
    assert who_is(WhoIs(second), later, QUIET) == ""


def test_what_is_stored_opens_nothing(ada: Bench) -> None:
    token = sign_in(SignIn("Ada", PASSWORD), ada, QUIET)
    ada.kept().close()
    stored = b"".join(one.read_bytes() for one in ada.folders.data.glob("store.sqlite3*"))
    assert hashlib.sha256(token.encode()).hexdigest().encode() in stored
    assert token.encode() not in stored
    assert PASSWORD.encode() not in stored


def test_a_wrong_name_takes_as_long_as_a_wrong_password(ada: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    worked: list[tuple[int, int, int]] = []
    scrypt = people._scrypt

    def counted(password: str, salt: bytes, n: int, r: int, p: int) -> bytes:
        worked.append((n, r, p))
        return scrypt(password, salt, n, r, p)

    monkeypatch.setattr(people, "_scrypt", counted)
    for name in ("Ada", "Nobody"):
        assert sign_in(SignIn(name, "wrong"), ada, QUIET) == ""
    assert worked == [(2**15, 8, 1)] * 2
