"""The shelf: blanks found by name, versions of their readings, and shapes to start from."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET, STRAIGHT

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.blanks import (
    AddBlank,
    AdoptBlank,
    ChangeBlank,
    ListBlanks,
    RemoveBlank,
    ShowBlank,
    add_blank,
    adopt_blank,
    change_blank,
    list_blanks,
    list_starters,
    remove_blank,
    show_blank,
)

THICKER = {**STRAIGHT, "girth": "9 3/8 in"}


def test_readings_stay_as_they_were_written(bench: Bench) -> None:
    kept = add_blank(AddBlank(" Big  tumbler", STRAIGHT, {"band": {"from": "5 mm"}}), bench, QUIET)
    assert (kept.name, kept.version, kept.newest) == ("Big tumbler", 1, 1)
    assert (kept.table, kept.wrap) == (STRAIGHT, {"band": {"from": "5 mm"}})
    assert show_blank(ShowBlank(name="BIG TUMBLER"), bench, QUIET) == kept


def test_a_change_is_a_new_version_and_the_old_one_stays(bench: Bench) -> None:
    first = add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    second = change_blank(ChangeBlank(first.id, "Tall mug", THICKER, {}, base=1), bench, QUIET)
    assert (second.id, second.name, second.version, second.newest) == (first.id, "Tall mug", 2, 2)
    old = show_blank(ShowBlank(first.id, version=1), bench, QUIET)
    assert (old.table, old.name, old.newest) == (STRAIGHT, "Tall mug", 2)
    assert second.added > first.added
    renamed = change_blank(ChangeBlank(first.id, "Mug", THICKER, {}, base=2), bench, QUIET)
    assert (renamed.name, renamed.version) == ("Mug", 2)


def test_a_change_of_an_old_version_is_refused(bench: Bench) -> None:
    kept = add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    change_blank(ChangeBlank(kept.id, "Mug", THICKER, {}, base=1), bench, QUIET)
    with pytest.raises(WrapwrightError, match="version 2 by now") as caught:
        change_blank(ChangeBlank(kept.id, "Mug", {**STRAIGHT, "wall": "90 mm"}, {}, base=1), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert show_blank(ShowBlank(kept.id), bench, QUIET).table == THICKER


def test_a_name_is_given_once(bench: Bench) -> None:
    add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    other = add_blank(AddBlank("Cup", STRAIGHT), bench, QUIET)
    for clash in (
        lambda: add_blank(AddBlank("mug ", STRAIGHT), bench, QUIET),
        lambda: change_blank(ChangeBlank(other.id, "MUG", STRAIGHT, {}, base=1), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError) as caught:
            clash()
        assert caught.value.kind is Kind.REFUSED
    assert [one.name for one in list_blanks(ListBlanks(), bench, QUIET)] == ["Cup", "Mug"]
    assert [one.name for one in list_blanks(ListBlanks("uG"), bench, QUIET)] == ["Mug"]


@pytest.mark.parametrize(
    ("table", "wrap", "said"),
    [
        ({"kind": "straight", "girth": "9 1/4 in"}, {}, "wall is missing"),
        ({"kind": "straight", "girth": 9, "wall": "100 mm"}, {}, "Was it 9 in"),
        ({**STRAIGHT, "girht": 3}, {}, '"girht" is not known'),
        (STRAIGHT, {"band": {"from": "5 mm", "height": "200 mm"}}, "does not lie on the wall"),
        ({"use": "Mug"}, {}, "needs its own readings"),
        ("straight", {}, "a table is expected"),
        ({**STRAIGHT, "coating": None}, {}, "empty (null)"),
    ],
)
def test_readings_of_which_no_wrap_can_be_made(bench: Bench, table: dict, wrap: dict, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        add_blank(AddBlank("Mug", table, wrap), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    assert said in str(caught.value)
    assert list_blanks(ListBlanks(), bench, QUIET) == ()


def test_all_that_is_wrong_is_told(bench: Bench) -> None:
    with pytest.raises(SeveralProblemsError) as caught:
        add_blank(AddBlank("Mug", {"kind": "straight", "girth": "x", "coating": "blue"}), bench, QUIET)
    assert len(caught.value.problems) == 3


def test_what_is_not_on_the_shelf(bench: Bench) -> None:
    kept = add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    remove_blank(RemoveBlank(kept.id), bench, QUIET)
    for lost in (
        lambda: show_blank(ShowBlank(kept.id), bench, QUIET),
        lambda: show_blank(ShowBlank(name="Mug"), bench, QUIET),
        lambda: show_blank(ShowBlank(), bench, QUIET),
        lambda: remove_blank(RemoveBlank(kept.id), bench, QUIET),
        lambda: change_blank(ChangeBlank(0, "Mug", STRAIGHT, {}, base=1), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError) as caught:
            lost()
        assert caught.value.kind is Kind.MISSING
    assert add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET).id > kept.id


def test_a_job_files_blank_is_put_on_the_shelf(bench: Bench, tmp_path: Path) -> None:
    job = tmp_path / "bottle.toml"
    job.write_text(
        'format = 1\n[blank]\nname = "Old"\nkind = "straight"\ngirth = "9 1/4 in"\nwall = "100 mm"\n'
        '[wrap]\nbleed = "1 mm"\n[[element]]\nkind = "picture"\nfile = "lost.svg"\nwidth = 30\n',
        encoding="utf-8",
    )
    kept = adopt_blank(AdoptBlank("New", job), bench, QUIET)
    assert (kept.name, kept.table, kept.wrap) == ("New", STRAIGHT, {"bleed": "1 mm"})


def test_every_shape_to_start_from_can_be_put_on_the_shelf(bench: Bench) -> None:
    shapes = list_starters()
    assert len(shapes) == 12
    for shape in shapes:
        assert "Measure yours" in shape.words
        assert add_blank(AddBlank(shape.name, shape.table, shape.wrap), bench, QUIET).table == shape.table
