"""What is remembered stays within its bounds, and is made once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields
from threading import Barrier, Event

import pytest

from wrapwright.jobs.live.recent import Recent, Shelf


def test_what_was_used_longest_ago_goes_first() -> None:
    shelf: Shelf[str] = Shelf(2)
    for key in ("a", "b"):
        shelf.put(key, key.upper())
    assert shelf.find("a") == "A"
    shelf.put("c", "C")
    assert [shelf.find(key) for key in ("a", "b", "c")] == ["A", None, "C"]


def test_weights_count_against_the_limit_and_the_newest_stays() -> None:
    shelf: Shelf[bytes] = Shelf(10)
    shelf.get("small", lambda: b"123", len)
    shelf.get("large", lambda: b"12345678901234", len)
    assert shelf.find("small") is None
    assert shelf.find("large") == b"12345678901234"
    shelf.put("large", b"1", 1)
    shelf.put("small", b"123", 3)
    assert shelf.find("large") == b"1"


def test_two_threads_make_one_value_once() -> None:
    shelf: Shelf[int] = Shelf(4)
    made: list[int] = []
    start, slow = Barrier(4), Event()

    def make() -> int:
        made.append(1)
        slow.wait(0.05)
        return 7

    def ask(_: int) -> int:
        start.wait()
        return shelf.get("one", make)

    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(ask, range(4))) == [7, 7, 7, 7]
    assert made == [1]


def test_what_fails_is_not_kept() -> None:
    shelf: Shelf[int] = Shelf(4)

    def fail() -> int:
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        shelf.get("one", fail)
    assert shelf.get("one", lambda: 5) == 5


def test_all_shelves_are_emptied() -> None:
    recent = Recent()
    for one in fields(recent):
        getattr(recent, one.name).put("key", one.name, 7)
    recent.forget()
    assert [getattr(recent, one.name).find("key") for one in fields(recent)] == [None] * len(fields(recent))
    recent.wraps.put("heavy", "x", 16)  # nothing of what was forgotten counts against the limit
    recent.wraps.put("light", "y", 0)
    assert recent.wraps.find("heavy") == "x"
