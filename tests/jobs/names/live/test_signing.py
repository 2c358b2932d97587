"""A sign-off stands in the store: it is told, goes out and comes in with its design, and is gone with it."""

from __future__ import annotations

import shutil
import zipfile
from pathlib import Path

import pytest
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, checked

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import CopyDesign, RemoveDesign, copy_design, folder_of, remove_design
from wrapwright.jobs.kept.exchange import (
    AdoptDesign,
    ExportDesign,
    ImportDesign,
    adopt_design,
    export_design,
    import_design,
)
from wrapwright.jobs.names.live.deciding import ChangeCells, DecideRows, change_cells, decide_rows
from wrapwright.jobs.names.live.keeping import BringList, DropList, bring_list, drop_list
from wrapwright.jobs.names.live.making import AskNames, ask_names
from wrapwright.jobs.names.live.opening import job_file_of
from wrapwright.jobs.names.live.signing import SeeSigned, SignedView, SignList, see_signed, sign_list
from wrapwright.jobs.names.opening import open_list

ROWS = "name,team\nAda,Weir\nBen,Lock\nCid,Weir\n"


def signed(design: int, bench: Bench) -> SignedView:
    checked(design, bench)
    return see_signed(SeeSigned(design), bench, QUIET)


def holding(word: str, *folders: Path) -> list[str]:
    """Return the files below some folders in which a word stands, or whose name has it."""
    files = (file for folder in folders for file in folder.rglob("*") if file.is_file())
    return [file.name for file in files if word.encode() in file.read_bytes() or word in file.name]


def test_who_signed_and_what_was_edited_after_that(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    nobody = signed(design, bench)
    assert (nobody.words, nobody.whole) == ((), False)
    told = sign_list(SignList(design, "Mrs Weir"), bench, QUIET)
    words = (f"Signed off by Mrs Weir on {bench.clock().date()}, 3 rows.",)
    assert told == SignedView(words, whole=True, list_sha256=nobody.list_sha256)
    shutil.rmtree(folder_of(design, bench))  # the job folder can be filled again from the store alone
    assert signed(design, bench) == told
    change_cells(ChangeCells(design, 3, {"name": "Bea"}), bench, QUIET)
    later = signed(design, bench)
    assert later.words[1:] == ("1 row was edited after the sign-off: 3.",)
    assert not later.whole
    survey = checked(design, bench)
    job = job_file_of(survey.opened.design, survey.opened.kept, bench)
    assert told.list_sha256 != later.list_sha256 == open_list(job, None, bench).sha256


def test_a_second_sign_off_takes_the_place_of_the_first(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    for by in ("Firstly Signed", "Mr Lock"):
        sign_list(SignList(design, by), bench, QUIET)
    assert signed(design, bench).words[0].startswith("Signed off by Mr Lock ")
    assert holding("Firstly Signed", bench.folders.data) == []


def test_it_goes_out_and_comes_in_with_its_design(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(ROWS)
    change_cells(ChangeCells(design, 3, {"name": "Bea"}), bench, QUIET)
    told = sign_list(SignList(design, "Mrs Weir"), bench, QUIET)
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        assert "job.signed.jsonl" in archive.namelist()
        archive.extractall(tmp_path / "job")
    there = import_design(ImportDesign(out), bench, QUIET).id
    adopted = adopt_design(AdoptDesign(tmp_path / "job" / "job.toml"), bench, QUIET).id
    assert [signed(one, bench) for one in (there, adopted)] == [told, told]
    # The command line finds the same beside the job file.
    assert open_list(tmp_path / "job" / "job.toml", None, bench).sha256 in holding_text(tmp_path / "job")
    copy = copy_design(CopyDesign(design), bench, QUIET).id
    assert signed(copy, bench).words == ()  # nobody has agreed to that one


def holding_text(folder: Path) -> str:
    return (folder / "job.signed.jsonl").read_text(encoding="utf-8")


def test_a_sign_off_that_is_damaged_is_not_taken_in(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(ROWS)
    sign_list(SignList(design, "Mrs Weir"), bench, QUIET)
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive, zipfile.ZipFile(tmp_path / "bad.zip", "w") as bad:
        for name in archive.namelist():
            bad.writestr(name, archive.read(name) + (b"no row\n" if name.endswith(".jsonl") else b""))
    with pytest.raises(WrapwrightError, match="a line of the sign-off is no row"):
        import_design(ImportDesign(tmp_path / "bad.zip"), bench, QUIET)


def test_nothing_is_signed_or_exchanged_while_it_is_being_made(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed(ROWS)
    ask_names(AskNames(design), bench, QUIET)
    (tmp_path / "other.csv").write_text("name,team\nDora,x\n", encoding="utf-8")
    for refused in (
        lambda: sign_list(SignList(design, "Mrs Weir"), bench, QUIET),
        lambda: bring_list(BringList(design, "other.csv", tmp_path / "other.csv"), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError, match="being made just now") as caught:
            refused()
        assert caught.value.kind is Kind.REFUSED
    assert signed(design, bench).words == ()


@pytest.mark.parametrize("away", ["list", "design"])
def test_no_name_stays_behind(bench: Bench, listed: Listed, tmp_path: Path, away: str) -> None:
    """Of the table, of changed cells, of who signed, of a run that was stopped: neither in the store nor the cache."""
    own = f"Only {tmp_path.name}"
    design = listed(f"name,team\n{own} A,Weir\nBen,Lock\n")
    change_cells(ChangeCells(design, 3, {"name": f"{own} B"}), bench, QUIET)
    decide_rows(DecideRows(design, "accept"), bench, QUIET)
    sign_list(SignList(design, f"{own} C"), bench, QUIET)
    survey = checked(design, bench)
    assert survey.opened.names is not None
    job_file_of(survey.opened.design, survey.opened.kept, bench)
    run = bench.folders.cache / "lists" / tmp_path.name
    run.mkdir(parents=True)
    (run / f"{survey.opened.kept.sha256}.table").write_bytes(b"")
    (run / "rows.jsonl").write_text(f"{own} A", encoding="utf-8")
    folders = (bench.folders.data, bench.folders.cache)
    assert len(holding(own, *folders)) >= 6
    if away == "list":
        drop_list(DropList(design), bench, QUIET)
    else:
        remove_design(RemoveDesign(design), bench, QUIET)
    assert holding(own, *folders) == []
    assert not run.exists()
