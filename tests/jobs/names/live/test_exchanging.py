"""A design leaves with its list, and comes in with it."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from tests.jobs.kept.given import kept_leaf
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, ROWS, checked

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import (
    CopyDesign,
    PutFile,
    SaveDesign,
    ShowDesign,
    copy_design,
    folder_of,
    put_file,
    save_design,
    show_design,
)
from wrapwright.jobs.kept.exchange import (
    AdoptDesign,
    ExportDesign,
    ImportDesign,
    adopt_design,
    export_design,
    import_design,
)
from wrapwright.jobs.names.live.deciding import ChangeCells, change_cells
from wrapwright.jobs.names.live.showing import SeeRow, see_row


def test_out_and_in_again_with_what_was_decided(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(ROWS)
    change_cells(ChangeCells(design, 3, {"Name": "Bob"}), bench, QUIET)
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        assert archive.namelist() == ["job.toml", "job.names.json", "list/crew.csv"]
    there = import_design(ImportDesign(out), bench, QUIET)
    assert "names" not in there.document
    checked(there.id, bench)
    assert see_row(SeeRow(there.id, 3), bench, QUIET).file_cells == {"Name": "Bob  "}
    again = export_design(ExportDesign(there.id, 0, tmp_path / "two.zip"), bench, QUIET)
    assert again.read_bytes() == out.read_bytes()


def test_a_job_file_of_this_machine_is_taken_with_its_list(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(ROWS)
    change_cells(ChangeCells(design, 3, {"Name": "Bob"}), bench, QUIET)
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        archive.extractall(tmp_path / "job")
    there = adopt_design(AdoptDesign(tmp_path / "job" / "job.toml"), bench, QUIET)
    assert see_row(SeeRow(there.id, 3), bench, QUIET).cells[0] == "Bob"


def test_a_copy_has_a_list_of_its_own(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    change_cells(ChangeCells(design, 3, {"Name": "Bob"}), bench, QUIET)
    copy = copy_design(CopyDesign(design), bench, QUIET).id
    change_cells(ChangeCells(copy, 3, {"Name": "Rob"}), bench, QUIET)
    assert [see_row(SeeRow(one, 3), bench, QUIET).cells[0] for one in (design, copy)] == ["Bob", "Rob"]


def test_pictures_that_rows_name_go_along(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(
        "name,team,crest\nAda,Weir,red.svg\n",
    )
    own, red = kept_leaf(bench, tmp_path / "a"), kept_leaf(bench, tmp_path / "b", "red.svg", "#ff0000")
    for one in (own, red):
        put_file(PutFile(design, one.sha256, one.name), bench, QUIET)
    kept = show_design(ShowDesign(design), bench, QUIET)
    picture = {"kind": "picture", "name": "crest", "file": "leaf.svg", "width": "20 mm", "up": "70 mm"}
    save_design(SaveDesign(design, {**kept.document, "element": [*kept.document["element"], picture]}, 1), bench, QUIET)
    from wrapwright.jobs.names.live.keeping import MapList, map_list

    map_list(MapList(design, {"pictures": {"crest": "crest"}}, 1), bench, QUIET)
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    there = import_design(ImportDesign(out), bench, QUIET)
    assert {"leaf.svg", "red.svg"} <= {one.name for one in folder_of(there.id, bench).iterdir()}


def test_a_zip_file_names_no_table_outside_itself(bench: Bench, tmp_path: Path) -> None:
    (tmp_path / "secret.csv").write_text("name\nAda\n", encoding="utf-8")
    text = 'format = 1\n[blank]\nkind = "straight"\ngirth = "235 mm"\nwall = "100 mm"\n'
    text += '[names]\nfile = "../../../secret.csv"\n'
    with zipfile.ZipFile(tmp_path / "bad.zip", "w") as archive:
        archive.writestr("job.toml", text)
    with pytest.raises(WrapwrightError, match="outside the design's folder"):
        import_design(ImportDesign(tmp_path / "bad.zip"), bench, QUIET)
