"""People who may use the bench from elsewhere: accounts, passwords, sessions."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch

HOURS = 12  # a session lasts
LEAST_PASSWORD = 10  # characters; NIST SP 800-63B-4 (2025) 3.1.1.2 asks 8 beside a second factor, 15 alone
# RFC 7914; 32 MB and about 0.1 s a password, so that a stolen store cannot be searched quickly.
_N, _R, _P = 2**15, 8, 1
_MEMORY = 64 * 1024 * 1024
_TOKEN_BYTES = 32


@dataclass(frozen=True)
class AccountKept:
    """An account: its name, and when it was made."""

    name: str
    added: datetime


@dataclass(frozen=True)
class AddAccount:
    """A new account."""

    name: str
    password: str


@dataclass(frozen=True)
class ListAccounts:
    """All accounts."""


@dataclass(frozen=True)
class RemoveAccount:
    """An account, and its sessions, to be removed."""

    name: str


@dataclass(frozen=True)
class SignIn:
    """A name and its password."""

    name: str
    password: str


@dataclass(frozen=True)
class SignOut:
    """The token of a session that is to end."""

    token: str


@dataclass(frozen=True)
class WhoIs:
    """The token of a session."""

    token: str


def add_account(request: AddAccount, bench: Bench, watch: Watch) -> AccountKept:
    """Return the account added.

    Raises:
        WrapwrightError: unusable for a password that is too short, or the name itself; refused when the name is taken.
    """
    from wrapwright.outside.store.people import add_person

    length = len(request.password)
    if length < LEAST_PASSWORD:
        message = f"The password has {length} characters; it must have at least {LEAST_PASSWORD}."
        raise WrapwrightError(Kind.UNUSABLE, message, remedy="Three or four words in a row are easy to keep in mind.")
    person = add_person(bench.kept(), request.name, hashed(request.password))
    return AccountKept(person.name, person.added)


def list_accounts(request: ListAccounts, bench: Bench, watch: Watch) -> tuple[AccountKept, ...]:
    """Return all accounts by name; where there is no store yet, none."""
    from wrapwright.outside.store.people import people

    store = bench.kept()
    return tuple(AccountKept(one.name, one.added) for one in people(store)) if store.exists() else ()


def remove_account(request: RemoveAccount, bench: Bench, watch: Watch) -> None:
    """Remove an account; its sessions end with it.

    Raises:
        WrapwrightError: missing when there is none of that name.
    """
    from wrapwright.outside.store.people import remove_person

    remove_person(bench.kept(), request.name)


def sign_in(request: SignIn, bench: Bench, watch: Watch) -> str:
    """Return the token of a new session, "" when the name or the password is wrong.

    A wrong name takes as long as a wrong password, so that nobody learns which names there are.
    """
    from wrapwright.outside.store.people import open_session, person_named

    person = person_named(bench.kept(), request.name)
    right = agrees(request.password, person.password if person else _NOBODY)
    if person is None or not right:
        return ""
    token = secrets.token_urlsafe(_TOKEN_BYTES)
    open_session(bench.kept(), person, _sealed(token), bench.clock() + timedelta(hours=HOURS))
    return token


def sign_out(request: SignOut, bench: Bench, watch: Watch) -> None:
    """End a session; one that there is not has ended already."""
    from wrapwright.outside.store.people import close_session

    if request.token:
        close_session(bench.kept(), _sealed(request.token))


def who_is(request: WhoIs, bench: Bench, watch: Watch) -> str:
    """Return the name of the one whose session it is, "" when there is none or it has expired."""
    from wrapwright.outside.store.people import session_person

    person = session_person(bench.kept(), _sealed(request.token), bench.clock()) if request.token else None
    return person.name if person else ""


def hashed(password: str) -> str:
    """Return what is kept of a password: "scrypt$N$r$p$salt$hash", salt of 16 bytes and hash of 32 in hexadecimal."""
    salt = secrets.token_bytes(16)
    return f"scrypt${_N}${_R}${_P}${salt.hex()}${_scrypt(password, salt, _N, _R, _P).hex()}"


def agrees(password: str, kept: str) -> bool:
    """Return whether a password is the one that was kept, in a time that tells nothing."""
    try:
        kind, n, r, p, salt, wanted = kept.split("$")
        found = _scrypt(password, bytes.fromhex(salt), int(n), int(r), int(p))
    except ValueError:
        return False
    return kind == "scrypt" and hmac.compare_digest(found, bytes.fromhex(wanted))


def _scrypt(password: str, salt: bytes, n: int, r: int, p: int) -> bytes:
    text = password.encode("utf-8", "surrogatepass")
    return hashlib.scrypt(text, salt=salt, n=n, r=r, p=p, maxmem=_MEMORY, dklen=32)


def _sealed(token: str) -> str:
    """Return what the store keeps of a token: whoever reads the store cannot use it."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()


_NOBODY = f"scrypt${_N}${_R}${_P}${'00' * 16}${'00' * 32}"
