"""Decisions about rows: kept in the store over the table, their problems looked for again at once."""

from __future__ import annotations

import pytest
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, ROWS, checked

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.checking import check_names
from wrapwright.jobs.names.live.deciding import ChangeCells, DecideRows, change_cells, decide_rows
from wrapwright.jobs.names.live.opening import job_file_of
from wrapwright.jobs.names.live.showing import SeeList, SeeRow, SeeRows, check_view, see_list, see_row, see_rows
from wrapwright.jobs.names.live.surveying import survey_of
from wrapwright.jobs.names.values import CheckNames


def waiting(design: int, bench: Bench) -> dict[str, int]:
    check = see_list(SeeList(design), bench, QUIET).check
    assert check is not None
    return {one.rule: one.waiting for one in check.rules if one.waiting}


def test_it_finds_what_the_check_of_the_job_file_finds(bench: Bench, listed: Listed) -> None:
    """The screen's check and that of the design's job file are of one mind, before decisions and after."""
    design = listed(ROWS)
    for verb in ("", "skip", "accept"):
        if verb == "skip":
            decide_rows(DecideRows(design, "skip", (5,)), bench, QUIET)
        elif verb:
            decide_rows(DecideRows(design, "accept", None, "same-name"), bench, QUIET)
        survey = survey_of(design, bench)
        file = job_file_of(survey.opened.design, survey.opened.kept, bench)
        found = check_names(CheckNames(file), bench, QUIET)
        assert {rule: one.waiting for rule, one in found.counts.items() if one.waiting} == waiting(design, bench)
        seen = check_view(survey)
        assert (found.rows, found.pieces, found.skipped) == (seen.rows, seen.pieces, seen.skipped)
    assert waiting(design, bench) == {"spaces": 1}


def test_a_changed_cell_stands_over_the_table_and_is_shown_with_it(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    row = change_cells(ChangeCells(design, 3, {"name": "Bob"}), bench, QUIET)
    assert (row.cells[0], row.file_cells, row.state) == ("Bob", {"Name": "Bob  "}, "fine")
    assert "spaces" not in waiting(design, bench)
    back = change_cells(ChangeCells(design, 3, {"Name": "Bob  "}), bench, QUIET)
    assert (back.file_cells, back.state) == ({}, "waits")
    assert survey_of(design, bench).decisions == {}


def test_a_change_makes_another_of_the_same_name(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    decide_rows(DecideRows(design, "accept", None, "same-name"), bench, QUIET)
    row = change_cells(ChangeCells(design, 6, {"Name": "ada"}), bench, QUIET)
    assert row.problems[0].rows == (2, 4, 6)
    assert row.state == "waits"


def test_what_cannot_be_accepted_is_told(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    with pytest.raises(WrapwrightError, match="cannot be accepted") as caught:
        decide_rows(DecideRows(design, "accept", (5,)), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    done = decide_rows(DecideRows(design, "accept"), bench, QUIET)
    assert (done.rows, waiting(design, bench)) == (2, {"text-empty": 1})


def test_of_rows_that_are_too_many_the_first_is_made(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    decide_rows(DecideRows(design, "skip", None, "same-name"), bench, QUIET)
    states = {one: see_row(SeeRow(design, one), bench, QUIET).state for one in (2, 4)}
    assert states == {2: "fine", 4: "skipped"}
    assert decide_rows(DecideRows(design, "make", (4,)), bench, QUIET).rows == 1
    assert waiting(design, bench)["same-name"] == 1


def test_all_of_it_is_taken_back(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    before = waiting(design, bench)
    change_cells(ChangeCells(design, 3, {"Name": "Bob"}), bench, QUIET)
    decide_rows(DecideRows(design, "skip", (2, 5)), bench, QUIET)
    assert decide_rows(DecideRows(design, "forget"), bench, QUIET).rows == 3
    assert waiting(design, bench) == before


def test_what_was_decided_elsewhere_is_seen(bench: Bench, listed: Listed) -> None:
    """Another program with the same store: what this one holds is opened anew."""
    design = listed(ROWS)
    held = survey_of(design, bench)
    decide_rows(DecideRows(design, "skip", (5,)), bench, QUIET)
    held.counted -= 1
    held.decisions.clear()
    fresh = checked(design, bench)
    assert fresh is not held
    assert see_row(SeeRow(design, 5), bench, QUIET).state == "skipped"


def test_pages_bring_problems_first(bench: Bench, listed: Listed) -> None:
    names = [f"Rower {letter}" for letter in "abcdefghij"]
    names[7] = "Ann "
    design = listed("name,team\n" + "".join(f"{one},Weir\n" for one in names))
    page = see_rows(SeeRows(design, most=3), bench, QUIET)
    assert ([one.number for one in page.rows], page.total) == ([9, 2, 3], 10)
    assert [one.number for one in see_rows(SeeRows(design, first=9), bench, QUIET).rows] == [11]
    assert [one.number for one in see_rows(SeeRows(design, "rows", most=2), bench, QUIET).rows] == [2, 3]
    assert [one.number for one in see_rows(SeeRows(design, search="ROWER J"), bench, QUIET).rows] == [11]
    assert [one.number for one in see_rows(SeeRows(design, rule="spaces"), bench, QUIET).rows] == [9]
    assert see_rows(SeeRows(design, "skipped"), bench, QUIET).total == 0
    change_cells(ChangeCells(design, 4, {"team": "Lock"}), bench, QUIET)
    assert [one.number for one in see_rows(SeeRows(design, "changed"), bench, QUIET).rows] == [4]
    assert [one.number for one in see_rows(SeeRows(design, search="lock"), bench, QUIET).rows] == [4]
