"""A later request of the same window makes the earlier one give up."""

from __future__ import annotations

from wrapwright.faces.api.newest import MOST_WINDOWS, Newest


def test_the_later_request_wins_in_its_own_window_alone() -> None:
    newest = Newest()
    first, other = newest.asked("one"), newest.asked("two")
    assert (first(), other()) == (False, False)
    second = newest.asked("one")
    assert (first(), second(), other()) == (True, False, False)


def test_without_a_window_nothing_gives_up() -> None:
    newest = Newest()
    first = newest.asked("")
    newest.asked("")
    assert not first()


def test_windows_long_gone_are_forgotten() -> None:
    newest = Newest()
    first = newest.asked("old")
    for number in range(MOST_WINDOWS):
        newest.asked(str(number))
    assert not first()  # nobody is left to say that it is superseded
    assert not newest.asked("old")()
