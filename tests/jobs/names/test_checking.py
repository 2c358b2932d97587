"""The check of a list: every row looked at, each doubt told once, and nothing ready while one waits."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest
from tests.jobs.names.conftest import Given

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names import checking
from wrapwright.jobs.names.checking import check_names, ready_names
from wrapwright.jobs.names.opening import open_list, opened_of
from wrapwright.jobs.names.values import CheckNames, NamesChecked, NamesWaitError


def check(job: Path, bench: Bench) -> NamesChecked:
    return check_names(CheckNames(job), bench, Watch())


def told(checked: NamesChecked) -> list[tuple[int, str, str]]:
    return [(one.problem.row, one.problem.field, one.problem.rule) for one in checked.problems]


def test_a_good_list_is_ready(given: Given, bench: Bench) -> None:
    job = given("Ada,Red,1", "Zoë,Blue,3", ",,", "Ярослав,Red,")
    names, checked = ready_names(CheckNames(job), bench, Watch())
    assert told(checked) == []
    assert (checked.rows, checked.empty, checked.pieces, checked.waiting) == (3, 1, 5, 0)
    assert checked.fields == {"name": "First name", "Team": "Team"}
    rows = list(names.rows())
    assert [(one.row.number, one.row.fields["name"], one.row.quantity, one.skipped) for one in rows] == [
        (2, "Ada", 1, False), (3, "Zoë", 3, False), (5, "Ярослав", 1, False),
    ]  # fmt: skip
    one = opened_of(names.opened, rows[1].row).job
    assert (one.quantity, one.fields, one.names) == (1, {"name": "Zoë", "Team": "Blue"}, None)
    assert [element.name for element in one.elements] == ["name", "team", "crest"]


def test_every_doubt_has_its_row_and_field(given: Given, bench: Bench) -> None:
    job = given(
        "Ada,Red,1",
        "  Eve,Red,1",
        "😀,Red,1",
        "\u0410nna,Red,1",
        ",Red,1",
        "=1+1,Red,1",
        "Bea,Red,many",
        f"{'Wolfeschlegelsteinhausenbergerdorff ' * 4},Red,1",
        "Dot,a very long team indeed with words that reach round,1",
        "ADA,Blue,1",
        "Fay,Red,1,more",
        f"{'x' * 300},Red,1",
    )
    assert told(check(job, bench)) == [
        (2, "name", "same-name"),
        (3, "name", "spaces"),
        (4, "name", "glyph-missing"),
        (5, "name", "look-alikes"),
        (6, "name", "text-empty"),
        (7, "First name", "formula"),
        (8, "Pieces", "quantity"),
        (9, "name", "spaces"),
        (9, "name", "long"),
        (9, "name", "text-does-not-fit"),
        (9, "name", "stroke-thin"),
        (9, "name", "text-too-long"),
        (10, "team", "crosses-seam"),
        (10, "team", "text-too-long"),
        (12, "", "cells-too-many"),
        (13, "name", "long"),
        (13, "name", "text-does-not-fit"),
        (13, "name", "stroke-thin"),
        (13, "name", "crosses-seam"),
        (13, "name", "text-too-long"),
    ]


def test_a_missing_glyph_is_named(given: Given, bench: Bench) -> None:
    (one,) = check(given("😀,Red,1"), bench).problems
    assert one.problem.problem == "no font has 😀 (U+1F600 GRINNING FACE)."
    assert "Emoji need a font" in one.problem.remedy


def test_too_small_to_read(given: Given, bench: Bench) -> None:
    checked = check(given("Bartholomew Featherstonehaugh of the Weir Street rowers,Red,1"), bench)
    assert told(checked) == [(2, "name", "text-small"), (2, "name", "stroke-thin")]
    one = checked.problems[0]
    assert one.problem.figure.endswith("mm of 2 mm")


def test_right_to_left_and_stacked_scripts_set_without_a_question(given: Given, bench: Bench) -> None:
    """Arabic and Devanagari have fonts in the extra; what is told is a note that stops nothing."""
    checked = check(given("مريم,Red,1", "अनिता,Red,1", "សុខ,Red,1"), bench)
    assert [one for one in told(checked) if one[2] != "right-to-left"] == [(4, "name", "glyph-missing")]
    assert [one.state for one in checked.problems if one.problem.rule == "right-to-left"] == ["note"]


def test_pictures_colours_and_what_is_shown(given: Given, bench: Bench, tmp_path: Path) -> None:
    (tmp_path / "ada.svg").write_text("<svg/>", encoding="utf-8")
    (tmp_path / "words.txt").write_text("no picture", encoding="utf-8")
    (tmp_path.parent / "outside.svg").write_text("<svg/>", encoding="utf-8")
    job = given(
        "Ada,Red,1,ada.svg,#112233,yes",
        "Bea,Red,1,../outside.svg,,yes",
        "Cay,Red,1,/etc/hostname,,yes",
        "Dot,Red,1,C:\\outside.svg,,yes",
        "Eve,Red,1,lost.svg,,yes",
        "Fay,Red,1,words.txt,blue,yes",
        "Gwen,Red,1,lost.svg,,no",
        "Hal,Red,1,,,x",
        header="First name,Team,Pieces,Crest,Ink,Badge",
        more='[names.pictures]\ncrest = "Crest"\n[names.colours]\nteam = "Ink"\n[names.shown]\ncrest = "Badge"\n',
    )
    checked = check(job, bench)
    assert told(checked) == [
        (3, "crest", "picture-outside"),
        (4, "crest", "picture-outside"),
        (5, "crest", "picture-outside"),
        (6, "crest", "picture-missing"),
        (7, "team", "colour"),
        (7, "crest", "picture-missing"),
    ]
    assert not any(one.problem.acceptable for one in checked.problems)


def test_a_link_out_of_the_folder_is_outside(given: Given, bench: Bench, tmp_path: Path) -> None:
    outside = tmp_path.parent / f"{tmp_path.name}-outside.svg"
    outside.write_text("<svg/>", encoding="utf-8")
    try:
        (tmp_path / "link.svg").symlink_to(outside)
    except OSError:  # Windows gives the right to it to few
        pytest.skip("no links can be made here")
    more = '[names.pictures]\ncrest = "Crest"\n'
    job = given("Ada,Red,1,link.svg", header="First name,Team,Pieces,Crest", more=more)
    assert told(check(job, bench)) == [(2, "crest", "picture-outside")]


def test_a_picture_of_the_design_that_is_not_there_is_told_where_no_row_exchanges_it(
    given: Given, bench: Bench, tmp_path: Path
) -> None:
    (tmp_path / "ada.svg").write_text("<svg/>", encoding="utf-8")
    header, rows = "First name,Team,Pieces,Crest", ("Ada,Red,1,ada.svg", "Eve,Red,1,")
    job = given(*rows, header=header, more='[names.pictures]\ncrest = "Crest"\n')
    (tmp_path / "crest.svg").unlink()
    checked = check(job, bench)
    assert told(checked) == [(3, "crest", "picture-missing")]
    names = open_list(job, None, bench)
    first, second = (opened_of(names.opened, one.row) for one in names.rows())
    assert (list(first.absent), list(second.absent)) == ([], ["crest.svg"])
    given(*rows, header=header)
    (tmp_path / "crest.svg").unlink()
    with pytest.raises(WrapwrightError, match=r'"crest\.svg" is not there'):
        check(job, bench)


def test_what_is_rows_twice_and_what_a_name_twice(given: Given, bench: Bench) -> None:
    checked = check(given("Ada,Red,1", "Eve,Red,1", "Ada,Red,4", "eve,Blue,1", "Eve ,Green,1"), bench)
    groups = [(one.problem.rule, one.problem.rows) for one in checked.problems if one.problem.rows]
    assert groups == [("row-twice", (2, 4)), ("same-name", (3, 5, 6))]


def test_what_waits_stops_the_making(given: Given, bench: Bench) -> None:
    with pytest.raises(NamesWaitError) as caught:
        ready_names(CheckNames(given(" Ada,Red,1", "😀,Red,1")), bench, Watch())
    assert caught.value.kind is Kind.CHECKS
    assert "2 problems wait for a decision: glyph-missing, spaces." in str(caught.value)
    assert [(one.problem.row, one.state) for one in caught.value.checked.problems] == [(2, "waits"), (3, "waits")]
    again = pickle.loads(pickle.dumps(caught.value))
    assert again.checked == caught.value.checked


def test_all_problems_are_counted_and_the_first_listed(
    given: Given, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checking, "MOST_LISTED", 5)
    checked = check(given(*(f" Ada{at:x},Red,1" for at in range(2, 25))), bench)
    assert [one.problem.row for one in checked.problems] == [2, 3, 4, 5, 6]
    assert (checked.waiting, checked.counts["spaces"].waiting) == (23, 23)


@pytest.mark.parametrize(
    ("job", "said"),
    [
        ({"job": 'format = 1\n[blank]\nkind = "straight"\ngirth = 235\nwall = 165\n'}, "this job has no list of names"),
        ({"more": 'team = "Boat"\n'}, 'the table has no column "Boat"'),
        ({"header": "First name,Pieces,Boat"}, "texts use {Team}, and neither a column nor [fields] gives it"),
        ({"more": '[names.pictures]\ncrst = "Team"\n'}, 'no element is called "crst". Did you mean "crest"?'),
    ],
)
def test_what_cannot_be_opened(given: Given, bench: Bench, job: dict[str, str], said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        check(given("Ada,Red,1", **job), bench)
    assert said in str(caught.value)


def test_a_list_without_rows_and_a_table_that_is_not_there(given: Given, bench: Bench, tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError, match="no row with something in it"):
        check(given(",,", ",,"), bench)
    (tmp_path / "crew.csv").unlink()
    with pytest.raises(WrapwrightError, match=r'names: file: "crew\.csv" is not there'):
        check(tmp_path / "regatta.toml", bench)


def test_a_stop_is_noticed(given: Given, bench: Bench) -> None:
    with pytest.raises(WrapwrightError) as caught:
        check_names(CheckNames(given("Ada,Red,1")), bench, Watch(cancelled=lambda: True))
    assert caught.value.kind is Kind.STOPPED
