"""Decisions stand for the row as it was and for the problems that were seen, and for nothing else."""

from __future__ import annotations

from dataclasses import replace

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.decisions import Decisions, decided, is_group_settled, is_settled, undecided, with_edits
from wrapwright.core.names.rules.cells import decided_before
from wrapwright.core.names.values import Cells, Problem

ROW = Cells(5, 5, (" Ada", "Red"))
SPACES = Problem(5, "name", "", "", "", Severity.WARNING, "spaces")
DIGIT = replace(SPACES, rule="digit-in-word")
NEVER = replace(SPACES, rule="quantity", severity=Severity.ERROR, acceptable=False)
NOTE = replace(SPACES, rule="right-to-left", severity=Severity.NOTE)


def test_an_acceptance_is_of_one_problem_of_one_row() -> None:
    found = decided(Decisions(), ROW, "t", accepted=[SPACES.key])
    one = found.of(ROW)
    assert is_settled(SPACES, one)
    assert not is_settled(DIGIT, one)
    assert not is_settled(replace(SPACES, field="team"), one)
    assert not is_settled(SPACES, None)
    assert is_settled(NOTE, None)


def test_another_record_under_the_same_number_is_asked_about_anew() -> None:
    found = decided(Decisions(), ROW, "t", choice="skip")
    assert found.of(ROW) is not None
    assert found.of(replace(ROW, cells=(" Ada", "Blue"))) is None
    assert found.of(replace(ROW, number=6)) is None


def test_a_skip_or_a_changed_cell_of_another_record_is_lost_and_told() -> None:
    header, other = ("Name", "Team"), replace(ROW, cells=("Bob", "Red"))
    assert decided(Decisions(), ROW, "t", choice="skip").lost(ROW, header) is None
    skipped = decided(Decisions(), ROW, "t", choice="skip").lost(other, header)
    assert skipped is not None
    assert "when it was skipped" in decided_before(5, skipped).problem
    edited = decided(Decisions(), ROW, "t", edits={"Name": "Ada"})
    lost = edited.lost(other, header)
    assert lost is not None
    assert 'when Name was changed to "Ada"' in decided_before(5, lost).problem
    assert edited.lost(replace(ROW, cells=("Ada", "Blue")), header) is None  # the table itself says so now
    assert decided(Decisions(), ROW, "t", accepted=[SPACES.key]).lost(other, header) is None


def test_what_cannot_be_accepted_can_be_skipped() -> None:
    accepted = decided(Decisions(), ROW, "t", accepted=[NEVER.key])
    assert not is_settled(NEVER, accepted.of(ROW))
    skipped = decided(accepted, ROW, "t", choice="skip")
    assert is_settled(NEVER, skipped.of(ROW))


def test_a_changed_cell_is_asked_about_anew() -> None:
    found = decided(Decisions(), ROW, "t", accepted=[SPACES.key])
    found = decided(found, ROW, "t", edits={"Name": "Ada "})
    one = found.of(ROW)
    assert not is_settled(SPACES, one)
    cells, edits = with_edits(ROW, ("Name", "Team"), one)
    assert (cells.cells, edits) == (("Ada ", "Red"), ("Name",))
    more = decided(found, ROW, "t", edits={"Team": "Blue"}).of(ROW)
    assert with_edits(ROW, ("Name", "Team"), more)[0].cells == ("Ada ", "Blue")


def test_one_question_about_several_rows() -> None:
    problem = replace(SPACES, rule="same-name", rows=(5, 7))
    assert problem.key != replace(problem, rows=(5, 7, 9)).key  # a third one is asked about anew
    other = Cells(7, 7, ("Ada", "Blue"))
    accepted = decided(Decisions(), other, "t", accepted=[problem.key])
    assert is_group_settled(problem, [accepted.of(ROW), accepted.of(other)])
    skipped = decided(Decisions(), ROW, "t", choice="skip")
    assert is_group_settled(problem, [skipped.of(ROW), None])
    assert not is_group_settled(problem, [skipped.of(ROW), None, None])
    assert not is_group_settled(problem, [None, None])


def test_taken_back_and_hashed() -> None:
    found = decided(Decisions(), ROW, "t", choice="skip")
    assert undecided(found, [5]).of(ROW) is None
    assert found.sha256 != Decisions().sha256
    assert found.sha256 == decided(Decisions(), ROW, "t", choice="skip").sha256
