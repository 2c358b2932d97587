"""A list looked at: its columns, its first rows, one row."""

from __future__ import annotations

import pytest
from tests.jobs.names.conftest import Given

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.showing import show_names
from wrapwright.jobs.names.values import ShowNames


def test_the_first_rows(given: Given, bench: Bench) -> None:
    shown = show_names(ShowNames(given(*(f"Ada {at},Red,1" for at in "abcdefgh"))), bench, Watch())
    assert [one.row.number for one, _ in shown.rows] == [2, 3, 4, 5, 6]
    assert shown.fields == {"name": "First name", "Team": "Team"}


def test_a_field_that_no_text_uses_is_told(given: Given, bench: Bench) -> None:
    job = given("Ada,Red,1")
    job.write_text(job.read_text(encoding="utf-8") + 'Taem = "Pieces"\n', encoding="utf-8")
    shown = show_names(ShowNames(job), bench, Watch())
    assert shown.taken.remarks[-1] == "[names.fields] gives {Taem}, which no text uses. Is {Team} meant?"


def test_one_row_with_what_is_doubtful(given: Given, bench: Bench) -> None:
    shown = show_names(ShowNames(given("Ada,Red,1", " Eve,Red,2"), row=3), bench, Watch())
    ((one, problems),) = shown.rows
    assert (one.row.number, one.row.quantity) == (3, 2)
    assert [(each.problem.rule, each.state) for each in problems] == [("spaces", "waits")]


@pytest.mark.parametrize("row", [1, 3, 40])
def test_a_row_that_is_not_there(given: Given, bench: Bench, row: int) -> None:
    with pytest.raises(WrapwrightError, match=f"no row {row}") as caught:
        show_names(ShowNames(given("Ada,Red,1", ",,", "Eve,Red,1"), row=row), bench, Watch())
    assert caught.value.kind is Kind.MISSING
