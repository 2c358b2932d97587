"""People who may use the bench, and their sessions; passwords and tokens are kept as hashes alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded, named
from wrapwright.outside.store.place import Store

if TYPE_CHECKING:
    from sqlalchemy import Row


@dataclass(frozen=True)
class Person:
    """Someone with an account.

    Attributes:
        id: never given twice.
        name: unique, whatever the case of its letters.
        password: hash of the password, as its maker wrote it.
        added: when the account was made.
    """

    id: int
    name: str
    password: str
    added: datetime


def add_person(store: Store, name: str, password_hash: str) -> Person:
    """Return the new account.

    Raises:
        WrapwrightError: refused when the name is taken; unusable when it is empty or too long.
    """
    from sqlalchemy import insert

    from wrapwright.outside.store.schema import PEOPLE

    name, now = named(name, what="account"), datetime.now(UTC)
    with store.writing() as connection:
        if person_row(connection, name) is not None:
            message = f"there is already an account called {name}."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")
        values = {"name": name, "folded": folded(name), "password": password_hash, "added": now}
        made = connection.execute(insert(PEOPLE).values(**values)).inserted_primary_key
    return Person(int(made[0]) if made else 0, name, password_hash, now)


def person_named(store: Store, name: str) -> Person | None:
    """Return the account of that name, whatever the case of its letters, or None."""
    with store.reading() as connection:
        row = person_row(connection, name)
    return None if row is None else _person(row)


def people(store: Store) -> tuple[Person, ...]:
    """Return all accounts, by name."""
    from sqlalchemy import select

    from wrapwright.outside.store.schema import PEOPLE

    with store.reading() as connection:
        return tuple(_person(row) for row in connection.execute(select(PEOPLE).order_by(PEOPLE.c.folded)))


def remove_person(store: Store, name: str) -> None:
    """Remove an account and end its sessions.

    Raises:
        WrapwrightError: missing when there is none of that name.
    """
    from sqlalchemy import delete

    from wrapwright.outside.store.schema import PEOPLE

    with store.writing() as connection:
        gone = connection.execute(delete(PEOPLE).where(PEOPLE.c.folded == folded(name)))
        if not gone.rowcount:
            raise WrapwrightError(Kind.MISSING, f"There is no account called {name}.", where="name")
    store.shorten()


def open_session(store: Store, person: Person, token_sha256: str, expires: datetime) -> None:
    """Keep a session until it expires; what has expired by now is forgotten."""
    from sqlalchemy import delete, insert

    from wrapwright.outside.store.schema import SESSIONS

    with store.writing() as connection:
        connection.execute(delete(SESSIONS).where(SESSIONS.c.expires <= datetime.now(UTC)))
        connection.execute(insert(SESSIONS).values(token=token_sha256, person=person.id, expires=expires))


def session_person(store: Store, token_sha256: str, now: datetime) -> Person | None:
    """Return whose session it is, None when there is none or it has expired by `now`."""
    from sqlalchemy import select

    from wrapwright.outside.store.schema import PEOPLE, SESSIONS

    asked = (
        select(PEOPLE)
        .join(SESSIONS, SESSIONS.c.person == PEOPLE.c.id)
        .where(SESSIONS.c.token == token_sha256, SESSIONS.c.expires > now)
    )
    with store.reading() as connection:
        row = connection.execute(asked).first()
    return None if row is None else _person(row)


def close_session(store: Store, token_sha256: str) -> None:
    """End a session; none of that token is as good."""
    from sqlalchemy import delete

    from wrapwright.outside.store.schema import SESSIONS

    with store.writing() as connection:
        connection.execute(delete(SESSIONS).where(SESSIONS.c.token == token_sha256))


def person_row(connection: Any, name: str) -> Row[Any] | None:
    """Return the row of the account of that name."""
    from sqlalchemy import select

    from wrapwright.outside.store.schema import PEOPLE

    row: Row[Any] | None = connection.execute(select(PEOPLE).where(PEOPLE.c.folded == folded(name))).first()
    return row


def _person(row: Row[Any]) -> Person:
    return Person(row.id, row.name, row.password, row.added)
