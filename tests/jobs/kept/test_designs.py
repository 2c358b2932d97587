"""Designs: begun, saved, undone, copied, printed with a set-up, found and removed."""

from __future__ import annotations

import math
from dataclasses import fields
from datetime import date
from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET, STRAIGHT, begun, files_of, kept_leaf, with_leaf

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.blanks import AddBlank, RemoveBlank, add_blank, remove_blank
from wrapwright.jobs.kept.designs import (
    CopyDesign,
    FindDesign,
    ListDesigns,
    NewDesign,
    PutFile,
    RedoDesign,
    RemoveDesign,
    SaveDesign,
    ShowDesign,
    UndoDesign,
    UseSetup,
    copy_design,
    find_design,
    folder_of,
    list_designs,
    new_design,
    put_file,
    redo_design,
    remove_design,
    save_design,
    show_design,
    undo_design,
    use_setup,
)
from wrapwright.jobs.kept.made import AskMaking, FinishMaking, ListMade, ask_making, finish_making, list_made
from wrapwright.jobs.kept.pictures import KeepPicture, keep_picture
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.live.drawing import DrawDesign, draw_design


def test_a_design_is_begun_on_a_blank_of_the_shelf(bench: Bench) -> None:
    blank = add_blank(AddBlank("Mug", STRAIGHT, {"bleed": "1 mm"}), bench, QUIET)
    kept = new_design(NewDesign("Regatta", blank_id=blank.id), bench, QUIET)
    assert kept.document == {
        "format": 1, "title": "Regatta", "blank": {"name": "Mug", **STRAIGHT}, "wrap": {"bleed": "1 mm"}, "element": [],
    }  # fmt: skip
    assert (kept.revision, kept.newest, kept.can_undo, kept.can_redo) == (1, 1, False, False)
    assert (kept.blank_id, kept.blank_version) == (blank.id, 1)
    assert [one.blank for one in list_designs(ListDesigns(), bench, QUIET)] == ["Mug"]
    remove_blank(RemoveBlank(blank.id), bench, QUIET)
    assert show_design(ShowDesign(kept.id), bench, QUIET) == kept


def test_a_design_is_begun_on_a_shape_or_a_document(bench: Bench) -> None:
    mug = new_design(NewDesign("Cup", starter="mug"), bench, QUIET)
    assert mug.document["blank"]["handle"]["at"] == "back"
    whole = {"format": 1, "title": "Old", "blank": STRAIGHT, "date": date(2026, 5, 2)}
    kept = new_design(NewDesign("", whole), bench, QUIET)
    assert (kept.title, kept.document["date"]) == ("Old", "2026-05-02")
    assert new_design(NewDesign("New", whole), bench, QUIET).title == "New"


@pytest.mark.parametrize(
    ("asked", "kind"),
    [
        (NewDesign("x"), Kind.UNUSABLE),
        (NewDesign("x", starter="teapot"), Kind.MISSING),
        (NewDesign("x", blank_id=7), Kind.MISSING),
        (NewDesign("x", {"format": 2}), Kind.UNUSABLE),
    ],
)
def test_nothing_to_begin_on(bench: Bench, asked: NewDesign, kind: Kind) -> None:
    with pytest.raises(WrapwrightError) as caught:
        new_design(asked, bench, QUIET)
    assert caught.value.kind is kind
    assert list_designs(ListDesigns(), bench, QUIET) == ()


def test_saving_undoing_and_redoing(bench: Bench) -> None:
    first = begun(bench)
    second = save_design(SaveDesign(first.id, {**first.document, "title": "Two"}, 1), bench, QUIET)
    assert (second.title, second.revision, second.can_undo) == ("Two", 2, True)
    back = undo_design(UndoDesign(first.id, 2), bench, QUIET)
    assert (back.title, back.revision, back.newest, back.can_undo, back.can_redo) == ("Weir Street", 1, 1, False, True)
    assert undo_design(UndoDesign(first.id, 1), bench, QUIET) == back
    again = redo_design(RedoDesign(first.id, 1), bench, QUIET)
    assert (again.title, again.revision, again.can_redo) == ("Two", 2, False)
    assert redo_design(RedoDesign(first.id, 2), bench, QUIET) == again
    assert show_design(ShowDesign(first.id, 1), bench, QUIET).title == "Weir Street"


def test_a_station_that_comes_late_is_told_the_newest(bench: Bench) -> None:
    first = begun(bench)
    save_design(SaveDesign(first.id, {**first.document, "title": "Two"}, 1), bench, QUIET)
    for late in (
        lambda: save_design(SaveDesign(first.id, {**first.document, "title": "Three"}, 1), bench, QUIET),
        lambda: undo_design(UndoDesign(first.id, 1), bench, QUIET),
        lambda: redo_design(RedoDesign(first.id, 1), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError, match="revision 2") as caught:
            late()
        assert caught.value.kind is Kind.REFUSED
    assert show_design(ShowDesign(first.id), bench, QUIET).title == "Two"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"format": 2}, "format 2 is not known"),
        ({"quantity": None}, "quantity: a value is empty (null)"),
        ({"quantity": math.inf}, "quantity: inf cannot stand in a job file"),
        ({"quantity": 2**63}, "quantity: a whole number beyond 64 bits cannot stand in a job file"),
        ({"title": "half \ud83d of a pair"}, "title: character 6 of a text cannot be written"),
        ({"title": "x" * 2_000_001}, "the limit is 2000000"),
        ({"blank": {3: "x"}}, "blank: the key 3 is not text"),
        ({"element": [[[[[[[[[[[[[[]]]]]]]]]]]]]]}, "more than 12 deep"),
    ],
)
def test_documents_that_cannot_be_kept(bench: Bench, change: dict, said: str) -> None:
    first = begun(bench)
    with pytest.raises(WrapwrightError) as caught:
        save_design(SaveDesign(first.id, {**first.document, **change}, 1), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    assert said in str(caught.value)
    assert show_design(ShowDesign(first.id), bench, QUIET).revision == 1


def test_what_cannot_be_drawn_yet_is_kept(bench: Bench) -> None:
    first = begun(bench)
    unready = {**first.document, "element": [{"kind": "text", "text": ""}, {"kind": "fill"}, {"kind": "?"}]}
    assert save_design(SaveDesign(first.id, unready, 1), bench, QUIET).document == unready


def test_files_come_into_the_job_folder(bench: Bench, tmp_path: Path) -> None:
    kept = begun(bench)
    green, red = kept_leaf(bench, tmp_path), kept_leaf(bench, tmp_path, "red.svg", "#ff0000")
    assert put_file(PutFile(kept.id, green.sha256, "leaf.svg"), bench, QUIET) == "leaf.svg"
    assert put_file(PutFile(kept.id, red.sha256, "LEAF.svg"), bench, QUIET) == "LEAF-2.svg"
    assert put_file(PutFile(kept.id, green.sha256, "again.svg"), bench, QUIET) == "leaf.svg"
    folder = folder_of(kept.id, bench)
    assert sorted(one.name for one in folder.iterdir()) == ["LEAF-2.svg", "leaf.svg"]
    assert (folder / "LEAF-2.svg").read_bytes() == (tmp_path / "red.svg").read_bytes()
    for wrong in (PutFile(kept.id, "0" * 64, "x.svg"), PutFile(99, green.sha256, "x.svg")):
        with pytest.raises(WrapwrightError) as caught:
            put_file(wrong, bench, QUIET)
        assert caught.value.kind is Kind.MISSING


def test_a_lost_job_folder_is_filled_again(bench: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path)
    (folder_of(kept.id, bench) / "leaf.svg").unlink()
    show_design(ShowDesign(kept.id), bench, QUIET)
    assert (folder_of(kept.id, bench) / "leaf.svg").read_bytes() == (tmp_path / "leaf.svg").read_bytes()


def test_a_copy_lives_on_its_own(bench: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path)
    copy = copy_design(CopyDesign(kept.id), bench, QUIET)
    assert (copy.title, copy.revision, copy.document["element"]) == (
        "Copy of Weir Street", 1, kept.document["element"],
    )  # fmt: skip
    assert copy_design(CopyDesign(kept.id, 1, "Bare"), bench, QUIET).document["element"] == []
    remove_design(RemoveDesign(kept.id), bench, QUIET)
    assert (folder_of(copy.id, bench) / "leaf.svg").is_file()


def test_a_set_up_is_written_into_the_document(bench: Bench) -> None:
    kept = begun(bench)
    setup = add_setup(AddSetup("Desk", {"paper": "A4", "scale": [1.001, 0.998]}, {"route": "driver"}), bench, QUIET)
    printed = use_setup(UseSetup(kept.id, setup.id, 1), bench, QUIET)
    assert printed.document["sheet"] == {"paper": "A4", "scale": [1.001, 0.998], "setup": "Desk"}
    assert (printed.document["colour"], printed.revision) == ({"route": "driver"}, 2)
    with pytest.raises(WrapwrightError) as caught:
        use_setup(UseSetup(kept.id, setup.id, 1), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    with pytest.raises(WrapwrightError) as caught:
        use_setup(UseSetup(kept.id, 99, 2), bench, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_designs_are_found(bench: Bench) -> None:
    one, other = begun(bench, "Straße"), begun(bench, "Weir")
    third = begun(bench, "weir")
    assert [row.id for row in list_designs(ListDesigns("STRASSE"), bench, QUIET)] == [one.id]
    assert [row.id for row in list_designs(ListDesigns(), bench, QUIET)] == [third.id, other.id, one.id]
    assert find_design(FindDesign("strasse"), bench, QUIET) == one.id
    assert find_design(FindDesign(f" {other.id} "), bench, QUIET) == other.id
    for words, kind in (("Weir", Kind.USAGE), ("Mill", Kind.MISSING), ("99", Kind.MISSING)):
        with pytest.raises(WrapwrightError) as caught:
            find_design(FindDesign(words), bench, QUIET)
        assert caught.value.kind is kind


def test_a_removed_design_leaves_nothing_of_its_customer(bench: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path, "For Persephone Featherstonehaugh")
    made = ask_making(AskMaking(kept.id), bench, QUIET)
    with pytest.raises(WrapwrightError, match="being made") as caught:
        remove_design(RemoveDesign(kept.id), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    finish_making(FinishMaking(made.id, "stopped"), bench, QUIET)
    draw_design(DrawDesign(kept.document, folder_of(kept.id, bench), design=kept.id), bench, QUIET)
    assert bench.recent.compositions
    remove_design(RemoveDesign(kept.id, made=True), bench, QUIET)
    assert not any(getattr(bench.recent, one.name) for one in fields(bench.recent))
    assert (files_of(bench), list_made(ListMade(), bench, QUIET)) == ([], ())
    assert not folder_of(kept.id, bench).exists()
    for file in bench.folders.data.iterdir():
        assert not file.is_file() or b"Persephone" not in file.read_bytes()
    with pytest.raises(WrapwrightError) as caught:
        remove_design(RemoveDesign(kept.id), bench, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_what_was_made_stays_without_its_design(bench: Bench) -> None:
    kept = begun(bench)
    made = finish_making(FinishMaking(ask_making(AskMaking(kept.id), bench, QUIET).id, "failed"), bench, QUIET)
    remove_design(RemoveDesign(kept.id), bench, QUIET)
    (left,) = list_made(ListMade(), bench, QUIET)
    assert (left.id, left.design, left.title, left.state) == (made.id, 0, "Weir Street", "failed")


def test_pictures_kept_for_other_designs_do_not_go(bench: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path)
    keep_picture(KeepPicture("red.svg", kept_leaf_file(tmp_path)), bench, QUIET)
    remove_design(RemoveDesign(kept.id), bench, QUIET)
    assert len(files_of(bench)) == 1


def kept_leaf_file(folder: Path) -> Path:
    file = folder / "red.svg"
    file.write_text((folder / "leaf.svg").read_text(encoding="utf-8").replace("#224400", "#ff0000"), encoding="utf-8")
    return file
