"""Problems with a call: kept whole, told together, named by the leading kind."""

from __future__ import annotations

import pickle

import pytest

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError, leading, noted, raise_all, unusable
from wrapwright.core.base.findings import Finding, Severity, accept, stopping

ONE = unusable("the girth reads 0 mm.", remedy="Measure again.", where="blank.girth")
TWO = WrapwrightError(Kind.SETUP, "a profile is missing.")
THREE = WrapwrightError(Kind.CHECKS, "the checks say no.")


def test_the_sentence_a_person_reads() -> None:
    assert str(ONE) == "blank.girth: the girth reads 0 mm. Measure again."
    assert str(TWO) == "a profile is missing."


def test_one_or_several_are_raised_and_none_is_not() -> None:
    raise_all([])
    with pytest.raises(WrapwrightError) as single:
        raise_all([ONE])
    assert single.value is ONE
    with pytest.raises(SeveralProblemsError) as several:
        raise_all([THREE, TWO, ONE])
    assert several.value.kind is Kind.UNUSABLE
    assert str(several.value).splitlines() == [str(THREE), str(TWO), str(ONE)]
    assert leading((THREE, TWO)) is TWO
    stop = WrapwrightError(Kind.STOPPED, "stopped.")
    assert leading((stop, WrapwrightError(Kind.REFUSED, "would overwrite."))) is stop


def test_they_cross_a_process_border_whole() -> None:
    again = pickle.loads(pickle.dumps(ONE))
    assert (again.kind, again.message, again.remedy, again.where) == (ONE.kind, ONE.message, ONE.remedy, ONE.where)
    both = pickle.loads(pickle.dumps(SeveralProblemsError((TWO, ONE))))
    assert [str(one) for one in both.problems] == [str(TWO), str(ONE)]


def test_errors_can_be_accepted_by_name_but_for_what_does_not_fit() -> None:
    found = [
        Finding("picture-ppi", Severity.ERROR, "80 ppi."),
        Finding("does-not-fit", Severity.ERROR, "3 mm too tall."),
        Finding("text-small", Severity.WARNING, "1.5 mm."),
    ]
    assert [one.rule for one in stopping(accept(found, frozenset({"picture-ppi"})))] == ["does-not-fit"]
    assert [one.accepted for one in accept(found, frozenset({"all"}))] == [True, False, False]
    assert len(stopping(accept(found, frozenset()))) == 2


def raising(problem: WrapwrightError) -> None:
    raise problem


def test_problems_are_noted_flat_and_the_work_goes_on() -> None:
    problems: list[WrapwrightError] = []
    assert noted(problems, lambda: 7) == 7
    assert noted(problems, lambda: raising(SeveralProblemsError((ONE, TWO)))) is None
    assert noted(problems, lambda: raising(THREE)) is None
    assert problems == [ONE, TWO, THREE]


@pytest.mark.parametrize("kind", [Kind.STOPPED, Kind.FAULT, Kind.REFUSED])
def test_what_ends_the_work_is_not_noted(kind: Kind) -> None:
    problems: list[WrapwrightError] = []
    with pytest.raises(WrapwrightError):
        noted(problems, lambda: raising(WrapwrightError(kind, "so it is.")))
    assert problems == []
