"""A list is signed off when nothing waits any more; what is edited after that is named."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from tests.jobs.names.conftest import CREST, HEADER

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import check_names
from wrapwright.jobs.names.deciding import decide_names
from wrapwright.jobs.names.signing import SignNames, named_rows, sign_names
from wrapwright.jobs.names.values import CheckNames, DecideNames, NamesWaitError

Given = Callable[..., Path]
DAY = date(2026, 5, 2)
SIGNED = "Signed off by M. Weir on 2026-05-02, 4 rows."


def said(job: Path, bench: Bench) -> tuple[str, ...]:
    return check_names(CheckNames(job), bench, Watch()).signed


def test_an_edit_after_the_sign_off_is_named_and_a_second_sign_off_settles_it(given: Given, bench: Bench) -> None:
    job = given("Ada,Weir,1", "Bob,Weir,1", "Cyd,Weir,2", "Dora,Weir,1")
    assert said(job, bench) == ()
    done = sign_names(SignNames(job, " M.  Weir ", DAY), bench, Watch())
    assert (done.signed.by, done.signed.on, done.signed.rows) == ("M. Weir", "2026-05-02", 4)
    assert said(job, bench) == (SIGNED,)
    decide_names(DecideNames(job, "edit", (3,), None, {"First name": "Rob"}), bench, Watch())
    decide_names(DecideNames(job, "skip", (5,)), bench, Watch())
    assert said(job, bench) == (SIGNED, "2 rows were edited after the sign-off: 3, 5.")
    sign_names(SignNames(job, "M. Weir", DAY), bench, Watch())
    assert said(job, bench) == (SIGNED,)


def test_rows_that_come_and_go_and_another_design_are_told(given: Given, bench: Bench) -> None:
    job = given("Ada,Weir,1", "Bob,Weir,1", "Cyd,Weir,2", "Dora,Weir,1")
    sign_names(SignNames(job, "M. Weir", DAY), bench, Watch())
    given("Ada,Weir,1", "Bob,Weir,1", "Cyd,Weir,2")
    assert said(job, bench)[1:] == ("1 row is gone since the sign-off: 5.",)
    given("Ada,Weir,1", "Bob,Weir,1", "Cyd,Weir,2", "Dora,Weir,1", "Eve,Weir,1")
    assert said(job, bench)[1:] == ("1 row was added after the sign-off: 6.",)
    job.write_text(job.read_text(encoding="utf-8").replace("girth = 235", "girth = 236"), encoding="utf-8")
    assert said(job, bench)[1].startswith("The job itself, or a file that it names, was changed")


def test_a_picture_that_holds_another_by_now_is_named(given: Given, bench: Bench) -> None:
    pictured = {"more": '[names.pictures]\ncrest = "Crest"\n', "header": f"{HEADER},Crest"}
    rows = ("Ada,Weir,1,own.svg", "Bob,Weir,1,", "Cyd,Weir,2,own.svg", "Dora,Weir,1,")
    job = given(*rows, **pictured)
    own, crest = job.with_name("own.svg"), job.with_name("crest.svg")
    own.write_text(CREST.replace("10", "9"), encoding="utf-8")
    sign_names(SignNames(job, "M. Weir", DAY), bench, Watch())
    assert said(job, bench) == (SIGNED,)
    own.write_text(CREST.replace("10", "12"), encoding="utf-8")
    assert said(job, bench) == (SIGNED, "2 rows were edited after the sign-off: 2, 4.")
    crest.write_text(CREST.replace("10", "8"), encoding="utf-8")
    assert said(job, bench)[1].startswith("The job itself, or a file that it names, was changed")


def test_what_waits_cannot_be_signed_nor_can_nobody_sign(given: Given, bench: Bench) -> None:
    job = given("Ada,Weir,1", " Bob,Weir,1")
    with pytest.raises(NamesWaitError):
        sign_names(SignNames(job, "M. Weir", DAY), bench, Watch())
    with pytest.raises(WrapwrightError, match="name of who agreed"):
        sign_names(SignNames(job, "  ", DAY), bench, Watch())
    assert not job.with_name("regatta.signed.jsonl").exists()


def test_many_rows_are_counted() -> None:
    assert named_rows((5, 7, 8, 9), 4) == "5, 7–9"
    assert named_rows(tuple(range(2, 60, 2)), 29) == "2, 4, 6, 8, 10, 12, 14, 16 and 21 more"
