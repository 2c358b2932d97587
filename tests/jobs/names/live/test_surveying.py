"""The check of all rows gives way: it works in small turns, and a page of rows does not wait for it."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from tests.jobs.names.live.given import QUIET, ROWS, crew

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.live import surveying
from wrapwright.jobs.names.live.keeping import BringList, bring_list
from wrapwright.jobs.names.live.showing import SeeRow, SeeRows, see_row, see_rows


@pytest.fixture
def unchecked(bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    """Give a design with a list whose check nobody begins."""
    monkeypatch.setattr(surveying, "_look_all", lambda _survey: None)
    file = tmp_path / "crew.csv"
    file.write_text(ROWS, encoding="utf-8", newline="")
    design = crew(bench)
    bring_list(BringList(design, "crew.csv", file), bench, QUIET)
    return design


def test_a_page_of_rows_does_not_wait_for_the_check_and_one_row_does(unchecked: int, bench: Bench) -> None:
    page = see_rows(SeeRows(unchecked), bench, QUIET)
    assert [(one.number, one.state, one.problems) for one in page.rows] == [
        (number, "unchecked", ()) for number in (2, 3, 4, 5, 6)
    ]
    one = see_row(SeeRow(unchecked, 3), bench, QUIET)
    assert (one.state, [problem.rule for problem in one.problems]) == ("waits", ["spaces"])


def test_a_turn_of_the_check_is_short_and_takes_a_row_at_least(
    unchecked: int, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    survey = surveying.survey_of(unchecked, bench)
    monkeypatch.setattr(surveying, "_AT_ONCE_S", -1.0)
    assert (survey.look(0), survey.done) == (1, 1)
    monkeypatch.setattr(surveying, "_AT_ONCE_S", 60.0)
    assert (survey.look(1), survey.done, survey.whole) == (4, 5, True)


def test_who_waits_for_a_turn_is_counted() -> None:
    turns = surveying.Turns()
    held, over = threading.Event(), threading.Event()

    def work() -> None:
        held.set()
        with turns:
            over.set()

    with turns:
        with turns:  # whoever has the turn has it
            assert turns.waiting == 0
        thread = threading.Thread(target=work)
        thread.start()
        held.wait(5)
        while not turns.waiting:
            assert thread.is_alive()
        assert not over.is_set()
    assert over.wait(5)
    thread.join(5)
    assert turns.waiting == 0
