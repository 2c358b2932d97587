"""A table given to a design: read, mapped, replaced, taken away with all that was read of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, ROWS, checked, crew

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import RemoveDesign, folder_of, remove_design
from wrapwright.jobs.names.live.deciding import ChangeCells, change_cells
from wrapwright.jobs.names.live.keeping import BringList, DropList, MapList, bring_list, drop_list, map_list
from wrapwright.jobs.names.live.showing import SeeList, SeeRow, see_list, see_row


def brought(bench: Bench, design: int, file: Path, content: bytes, name: str = "crew.csv") -> None:
    file.write_bytes(content)
    bring_list(BringList(design, name, file), bench, QUIET)


def test_columns_give_the_fields_of_their_names(bench: Bench, listed: Listed) -> None:
    view = see_list(SeeList(listed(ROWS)), bench, QUIET)
    assert [(one.name, one.feeds) for one in view.columns] == [
        ("Name", ("{name}",)),
        ("Team", ("{team}",)),
        ("Note", ()),
    ]
    assert view.troubles == ()


def test_a_field_that_no_column_gives_is_told_and_never_printed(bench: Bench, listed: Listed) -> None:
    """The design's own value for it is only the field's name, standing in for one to come."""
    design = listed("Name,Rowing in\nAda,Weir\n")
    view = see_list(SeeList(design), bench, QUIET)
    assert view.check is None
    assert "{team}" in view.troubles[0].message
    map_list(MapList(design, {"fields": {"team": "Rowing in"}}, view.list_revision), bench, QUIET)
    assert see_list(SeeList(design), bench, QUIET).troubles == ()


def test_a_mapping_that_a_job_file_could_not_have_is_refused(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    with pytest.raises(WrapwrightError) as caught:
        map_list(MapList(design, {"quantitty": "Note"}, 1), bench, QUIET)
    assert (caught.value.kind, "quantity" in caught.value.remedy) == (Kind.UNUSABLE, True)
    with pytest.raises(WrapwrightError, match="revision 1") as caught:
        map_list(MapList(design, {}, 7), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"%PDF-1.4 and so on", "it is a PDF, not a table"),
        (b"name\n", "no row below it"),
        (b"a,a\n1,2\n", "two columns"),
    ],
)
def test_what_is_no_table_is_told_by_its_name_and_leaves_what_was_there(
    bench: Bench, listed: Listed, tmp_path: Path, content: bytes, said: str
) -> None:
    design = listed(ROWS)
    with pytest.raises(WrapwrightError, match=said) as caught:
        brought(bench, design, tmp_path / "other", content, "crew 2026.csv")
    assert caught.value.where == "crew 2026.csv"
    assert see_list(SeeList(design), bench, QUIET).table.file == "crew.csv"


def test_another_table_keeps_what_was_decided_about_rows_that_are_the_same(
    bench: Bench, listed: Listed, tmp_path: Path
) -> None:
    design = listed(ROWS)
    change_cells(ChangeCells(design, 3, {"Name": "Bob"}), bench, QUIET)
    change_cells(ChangeCells(design, 5, {"Name": "Dan"}), bench, QUIET)
    brought(bench, design, tmp_path / "new.csv", ROWS.replace(",Weir,z", "Dora,Weir,z").encode())
    checked(design, bench)
    assert see_row(SeeRow(design, 3), bench, QUIET).cells[0] == "Bob"
    assert see_row(SeeRow(design, 5), bench, QUIET).cells[0] == "Dora"
    check = see_list(SeeList(design), bench, QUIET).check
    assert check is not None
    assert check.stale == 1


def test_nothing_is_left_of_a_list_that_is_taken_away(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    text = ROWS.replace("Eve", f"Only {tmp_path.name}")  # no other test reads this table
    design = listed(text)

    def holding() -> list[str]:
        folders = (bench.folders.data / "pictures", bench.folders.data / "designs", bench.folders.cache / "tables")
        files = (file for folder in folders for file in folder.rglob("*") if file.is_file())
        return [file.name for file in files if tmp_path.name.encode() in file.read_bytes()]

    assert len(holding()) == 3  # kept, in the job folder, and as read
    drop_list(DropList(design), bench, QUIET)
    assert holding() == []
    assert not (folder_of(design, bench) / "list").exists()
    with pytest.raises(WrapwrightError, match="no list of names"):
        see_list(SeeList(design), bench, QUIET)


def test_a_list_goes_with_its_design(bench: Bench, tmp_path: Path) -> None:
    design = crew(bench)
    brought(bench, design, tmp_path / "crew.csv", f"name,team\nOnly {tmp_path.name},x\n".encode())
    remove_design(RemoveDesign(design), bench, QUIET)
    assert [one.name for one in (bench.folders.data / "pictures").rglob("*") if one.is_file()] == []
