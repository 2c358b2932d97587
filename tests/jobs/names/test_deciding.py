"""Decisions kept beside the job: what they settle, what they do not, and that nothing else is touched."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest
from tests.jobs.names.conftest import Given

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import check_names, ready_names
from wrapwright.jobs.names.deciding import decide_names
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.values import ROW_RULES, CheckNames, DecideNames, NamesDecided, Verb

ROWS = ("Ada,Red,1", " Eve,Red,1", "😀,Red,1", "Bea,Red,x", "Ada,Blue,1")


def decide(
    job: Path, bench: Bench, verb: Verb, *rows: int, rule: str | None = None, cells: Mapping[str, str] | None = None
) -> NamesDecided:
    return decide_names(DecideNames(job, verb, rows or None, rule, cells or {}), bench, Watch())


def waiting(job: Path, bench: Bench) -> list[tuple[int, str]]:
    found = check_names(CheckNames(job), bench, Watch())
    return [(one.problem.row, one.problem.rule) for one in found.problems if one.state == "waits"]


def test_row_by_row_until_nothing_waits(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given(*ROWS)
    table = (tmp_path / "crew.csv").read_bytes()
    assert waiting(job, bench) == [(2, "same-name"), (3, "spaces"), (4, "glyph-missing"), (5, "quantity")]
    assert decide(job, bench, "accept", 2).problems == 1
    assert decide(job, bench, "edit", 3, cells={"first name": "Eve"}).file == tmp_path / "regatta.names.json"
    decide(job, bench, "skip", 4)
    decide(job, bench, "edit", 5, cells={"Pieces": "2"})
    names, checked = ready_names(CheckNames(job), bench, Watch())
    assert (checked.rows, checked.skipped, checked.edited, checked.pieces) == (5, 1, 2, 5)
    rows = {one.row.number: one for one in names.rows()}
    assert (rows[3].row.fields["name"], rows[3].row.edited) == ("Eve", ("First name",))
    assert (rows[4].skipped, rows[5].row.quantity) == (True, 2)
    assert (tmp_path / "crew.csv").read_bytes() == table


def test_a_row_put_in_above_loses_no_skip_and_no_change_unsaid(given: Given, bench: Bench) -> None:
    job = given("Ada,Red,1", "Bob,Red,1", "Cyd,Red,1")
    decide(job, bench, "skip", 3)
    decide(job, bench, "edit", 4, cells={"First name": "Cid"})
    assert waiting(job, bench) == []
    given("Zoe,Red,1", "Ada,Red,1", "Bob,Red,1", "Cyd,Red,1")
    assert waiting(job, bench) == [(3, "decided-before"), (4, "decided-before")]
    decide(job, bench, "accept", 3)
    decide(job, bench, "skip", 4)
    decide(job, bench, "edit", 5, cells={"First name": "Cid"})
    assert waiting(job, bench) == []
    made = [one.row.fields["name"] for one in open_list(job, None, bench).rows() if not one.skipped]
    assert made == ["Zoe", "Ada", "Cid"]


def test_a_decision_changes_the_lists_hash(given: Given, bench: Bench) -> None:
    job = given(*ROWS)
    before = open_list(job, None, bench).sha256
    decide(job, bench, "skip", 4)
    after = open_list(job, None, bench).sha256
    decide(job, bench, "forget", 4)
    assert before != after
    assert waiting(job, bench)[2] == (4, "glyph-missing")


def test_what_cannot_be_accepted_is_refused_and_nothing_kept(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given(*ROWS)
    with pytest.raises(WrapwrightError) as caught:
        decide(job, bench, "accept", 3, 5)
    assert "row 5" in str(caught.value)
    assert "cannot be accepted" in str(caught.value)
    assert not (tmp_path / "regatta.names.json").exists()


def test_all_of_one_rule(given: Given, bench: Bench) -> None:
    job = given(" Ada,Red,1", "Eve ,Red,1", "😀,Red,1")
    done = decide(job, bench, "accept", rule="spaces")
    assert (done.rows, done.problems) == (2, 2)
    assert waiting(job, bench) == [(4, "glyph-missing")]
    assert decide(job, bench, "skip", rule="glyph-missing").rows == 1
    assert waiting(job, bench) == []


def test_a_row_that_is_another_by_now_is_asked_about_anew(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given(*ROWS)
    decide(job, bench, "skip", 4)
    decide(job, bench, "edit", 3, cells={"First name": "Eve"})
    table = tmp_path / "crew.csv"
    table.write_text(table.read_text(encoding="utf-8").replace(" Eve,Red", " Eva,Red"), encoding="utf-8")
    checked = check_names(CheckNames(job), bench, Watch())
    assert checked.stale == 1
    assert (3, "spaces") in waiting(job, bench)
    assert (4, "glyph-missing") not in waiting(job, bench)


def test_a_third_of_one_name_is_asked_about_anew(given: Given, bench: Bench) -> None:
    decide(given("Ada,Red,1", "Ada,Blue,1"), bench, "accept", 3)
    job = given("Ada,Red,1", "Ada,Blue,1")
    assert waiting(job, bench) == []
    assert waiting(given("Ada,Red,1", "Ada,Blue,1", "Ada,Green,1"), bench) == [(2, "same-name")]


def test_every_rule_of_rows_is_published() -> None:
    page = (Path(__file__).parents[3] / "docs" / "names.md").read_text(encoding="utf-8")
    table = page.partition("## What is looked at")[2].partition("\n## ")[0]
    told = [re.findall(r"`([a-z-]+)`", line.split("|")[1]) for line in table.splitlines() if line.startswith("| `")]
    assert [rule for line in told for rule in line] == list(ROW_RULES)


@pytest.mark.parametrize(
    ("verb", "rows", "cells", "said", "kind"),
    [
        ("skip", (40,), {}, "no row 40 with something in it", Kind.MISSING),
        ("edit", (2,), {"Frst name": "A"}, 'no column "Frst name". Did you mean "First name"?', Kind.UNUSABLE),
        ("accept", (1,), {}, "no row 1", Kind.MISSING),
    ],
)
def test_what_is_not_there(
    given: Given, bench: Bench, verb: Verb, rows: tuple[int, ...], cells: dict[str, str], said: str, kind: Kind
) -> None:
    with pytest.raises(WrapwrightError) as caught:
        decide(given(*ROWS), bench, verb, *rows, cells=cells)
    assert said in str(caught.value)
    assert caught.value.kind is kind
