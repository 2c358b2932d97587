"""The checks say no once, with everything they found."""

from __future__ import annotations

import pickle

import pytest

from wrapwright.core.base.errors import Kind
from wrapwright.core.base.findings import Finding, Severity, accept
from wrapwright.jobs.verdict import ChecksSayNoError, stand_or_stop

LOW = Finding("picture-ppi", Severity.ERROR, "80 ppi, at least 100.", "crest")
TALL = Finding("does-not-fit", Severity.ERROR, "3 mm too tall.")
SMALL = Finding("text-small", Severity.WARNING, "1.5 mm.", "name")


def test_warnings_and_accepted_errors_let_it_stand() -> None:
    findings = accept([LOW, SMALL], frozenset({"picture-ppi"}))
    assert stand_or_stop(findings) == tuple(findings)


def test_errors_stop_it_and_name_the_way_out() -> None:
    with pytest.raises(ChecksSayNoError) as caught:
        stand_or_stop([LOW, SMALL])
    error = caught.value
    assert (error.kind, error.findings, error.where) == (Kind.CHECKS, (LOW, SMALL), "crest")
    assert error.message == "The checks found 1 error: picture-ppi."
    assert "--accept picture-ppi" in error.remedy
    again = pickle.loads(pickle.dumps(error))
    assert (again.findings, str(again)) == (error.findings, str(error))


def test_what_can_never_be_accepted_is_not_offered() -> None:
    findings = accept([TALL], frozenset({"all"}))
    with pytest.raises(ChecksSayNoError) as caught:
        stand_or_stop(findings)
    assert "--accept" not in caught.value.remedy
    with pytest.raises(ChecksSayNoError) as caught:
        stand_or_stop([TALL, LOW])
    assert caught.value.remedy == "Mend the job: does-not-fit cannot be accepted."
