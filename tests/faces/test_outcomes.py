"""The table of outcomes, held against the published one row by row."""

from __future__ import annotations

import pickle

import pytest

from wrapwright.core.base.errors import ORDER, Kind, SeveralProblemsError, WrapwrightError, raise_all
from wrapwright.faces.outcomes import DONE, OUTCOMES, Outcome, document

# The public contract: exit codes and HTTP statuses that scripts rely on; 130 is the shell's custom for Ctrl-C.
PUBLISHED = {
    "fault": (1, 500),
    "usage": (2, 422),
    "unusable": (3, 422),
    "checks": (4, 409),
    "setup": (5, 503),
    "unreachable": (6, 503),
    "refused": (7, 409),
    "missing": (8, 404),
    "stopped": (130, None),
}


def test_every_kind_has_its_published_outcome() -> None:
    assert set(OUTCOMES) == set(Kind)
    assert {kind.value: (one.exit, one.http) for kind, one in OUTCOMES.items()} == PUBLISHED
    assert Outcome(0, 200) == DONE


def test_no_two_kinds_share_an_exit_code() -> None:
    codes = [DONE.exit, *(one.exit for one in OUTCOMES.values())]
    assert len(set(codes)) == len(codes)


def test_the_first_kind_in_the_published_order_names_the_outcome() -> None:
    assert [OUTCOMES[kind].exit for kind in ORDER] == [3, 5, 4]
    problems = [WrapwrightError(kind, f"a {kind} problem.") for kind in (Kind.CHECKS, Kind.SETUP, Kind.UNUSABLE)]
    for left, leader in ((problems, 3), (problems[:2], 5), (problems[:1], 4)):
        with pytest.raises(WrapwrightError) as caught:
            raise_all(left)
        assert OUTCOMES[caught.value.kind].exit == leader


def test_the_document_of_one_problem_and_of_several() -> None:
    one = WrapwrightError(Kind.SETUP, "No profile.", remedy="Install one.", where="colour.profile")
    expected = {
        "kind": "setup",
        "exit": 5,
        "message": "No profile.",
        "remedy": "Install one.",
        "where": "colour.profile",
    }
    assert document(one) == {"format": 1, "error": expected}
    other = WrapwrightError(Kind.UNUSABLE, "Girth is negative.")
    several = document(SeveralProblemsError((one, other)))
    assert several["problems"] == [expected, document(other)["error"]]
    assert several["error"] == document(other)["error"]


def test_problems_survive_a_process_border() -> None:
    several = SeveralProblemsError((WrapwrightError(Kind.SETUP, "a", where="b"), WrapwrightError(Kind.CHECKS, "c")))
    assert document(pickle.loads(pickle.dumps(several))) == document(several)
