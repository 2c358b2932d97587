"""Accounts and sessions."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.people import (
    add_person,
    close_session,
    open_session,
    people,
    person_named,
    remove_person,
    session_person,
)
from wrapwright.outside.store.place import Store

HOUR = timedelta(hours=1)


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path)


def test_names_are_one_whatever_their_case(store: Store) -> None:
    ada = add_person(store, " Ada  Moss ", "hash")
    assert ada.name == "Ada Moss"
    assert person_named(store, "ADA MOSS") == ada
    with pytest.raises(WrapwrightError) as caught:
        add_person(store, "ada moss", "other")
    assert caught.value.kind is Kind.REFUSED
    assert people(store) == (ada,)
    assert person_named(store, "Ben") is None


@pytest.mark.parametrize("name", ["", "   ", "x" * 81, "A\x00da", "A\ud800"])
def test_names_that_cannot_be_kept(store: Store, name: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        add_person(store, name, "hash")
    assert caught.value.kind is Kind.UNUSABLE


def test_a_session_lasts_until_it_expires_or_is_closed(store: Store) -> None:
    now = datetime.now(UTC)
    ada = add_person(store, "Ada", "hash")
    open_session(store, ada, "a" * 64, now + HOUR)
    open_session(store, ada, "b" * 64, now + HOUR)
    assert session_person(store, "a" * 64, now) == ada
    assert session_person(store, "a" * 64, now + HOUR) is None
    assert session_person(store, "c" * 64, now) is None
    close_session(store, "a" * 64)
    assert session_person(store, "a" * 64, now) is None
    assert session_person(store, "b" * 64, now) == ada


def test_times_of_any_zone_are_compared_as_times(store: Store) -> None:
    from zoneinfo import ZoneInfo

    there = datetime(2030, 5, 2, 12, 0, tzinfo=ZoneInfo("Asia/Tokyo"))  # 03:00 UTC
    ada = add_person(store, "Ada", "hash")
    open_session(store, ada, "a" * 64, there)
    assert session_person(store, "a" * 64, datetime(2030, 5, 2, 2, 59, tzinfo=UTC)) == ada
    assert session_person(store, "a" * 64, datetime(2030, 5, 2, 3, 0, tzinfo=UTC)) is None


def test_a_removed_account_is_signed_out(store: Store) -> None:
    ada = add_person(store, "Ada", "hash")
    open_session(store, ada, "a" * 64, datetime.now(UTC) + HOUR)
    remove_person(store, "ADA")
    assert session_person(store, "a" * 64, datetime.now(UTC)) is None
    with pytest.raises(WrapwrightError) as caught:
        remove_person(store, "Ada")
    assert caught.value.kind is Kind.MISSING
    assert add_person(store, "Ada", "hash").id > ada.id


def test_expired_sessions_are_forgotten(store: Store) -> None:
    ada = add_person(store, "Ada", "hash")
    open_session(store, ada, "a" * 64, datetime.now(UTC) - HOUR)
    open_session(store, ada, "b" * 64, datetime.now(UTC) + HOUR)
    with store.reading() as connection:
        assert connection.exec_driver_sql("SELECT token FROM sessions").scalars().all() == ["b" * 64]
