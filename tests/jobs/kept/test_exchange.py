"""Designs as files: out as one zip, in from it or from a job file, and nothing else gets in."""

from __future__ import annotations

import io
import tomllib
import zipfile
from pathlib import Path

import fontpkg
import pytest
from tests.jobs.kept.given import LEAF, QUIET, STRAIGHT, begun, files_of, leaf, with_leaf
from tests.outside.icc.press import rgb_printer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.blanks import AddBlank, add_blank
from wrapwright.jobs.kept.designs import ListDesigns, SaveDesign, folder_of, list_designs, save_design
from wrapwright.jobs.kept.exchange import (
    AdoptDesign,
    ExportDesign,
    ImportDesign,
    adopt_design,
    export_design,
    import_design,
)
from wrapwright.jobs.kept.pictures import KeepFont, ListPictures, keep_font, list_pictures
from wrapwright.outside.jobfile.writing import job_toml

JOB = """
format = 1
[blank]
kind = "straight"
girth = "9 1/4 in"
wall = "100 mm"
[[element]]
kind = "picture"
file = "art/leaf.svg"
width = 30
mask = "art/deep/leaf.svg"
[[element]]
kind = "picture"
file = "art/leaf.svg"
width = 30
mask = "circle"
"""


def zipped(file: Path, files: dict[str, bytes | str]) -> Path:
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return file


def job_of(file: Path) -> dict:
    with zipfile.ZipFile(file) as archive:
        return tomllib.loads(archive.read("job.toml").decode("utf-8"))


def test_a_design_goes_to_another_machine_and_back(bench: Bench, other: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path)
    out = export_design(ExportDesign(kept.id, 0, tmp_path / "one.zip"), bench, QUIET)
    there = import_design(ImportDesign(out), other, QUIET)
    assert (there.document, there.title, there.revision) == (kept.document, "Weir Street", 1)
    assert (folder_of(there.id, other) / "leaf.svg").read_bytes() == (tmp_path / "leaf.svg").read_bytes()
    assert [one.name for one in list_pictures(ListPictures(), other, QUIET)] == ["leaf.svg"]
    back = export_design(ExportDesign(there.id, 0, tmp_path / "two.zip"), other, QUIET)
    assert back.read_bytes() == out.read_bytes()
    assert [one.split("/")[0] for one in files_of(other)] == ["designs", "pictures"]


def test_the_zip_holds_the_job_and_what_it_names_and_no_more(bench: Bench, tmp_path: Path) -> None:
    kept = with_leaf(bench, tmp_path)
    bare = export_design(ExportDesign(kept.id, 1, tmp_path / "bare.zip"), bench, QUIET)
    full = export_design(ExportDesign(kept.id, 2, tmp_path / "full.zip"), bench, QUIET)
    with zipfile.ZipFile(bare) as one, zipfile.ZipFile(full) as two:
        assert (one.namelist(), two.namelist()) == (["job.toml"], ["job.toml", "leaf.svg"])
        assert {info.date_time for info in two.infolist()} == {(2000, 1, 1, 0, 0, 0)}
    assert job_of(full) == kept.document


def test_a_file_that_stands_is_not_overwritten(bench: Bench, tmp_path: Path) -> None:
    kept, file = begun(bench), tmp_path / "one.zip"
    file.write_bytes(b"mine")
    with pytest.raises(WrapwrightError) as caught:
        export_design(ExportDesign(kept.id, 0, file), bench, QUIET)
    assert (caught.value.kind, file.read_bytes()) == (Kind.REFUSED, b"mine")
    export_design(ExportDesign(kept.id, 0, file, force=True), bench, QUIET)
    assert job_of(file)["title"] == "Weir Street"


def test_fonts_of_ones_own_go_along(bench: Bench, other: Bench, tmp_path: Path) -> None:
    """Noto Sans added by hand comes before the installed one, and so it must on the other machine."""
    for name, family in (("Mine.ttf", "noto-sans"), ("Named.ttf", "open-sans")):
        face = next(one.path for one in fontpkg.families()[family].files if "Italic" not in one.path.name)
        keep_font(KeepFont(name, Path(str(face))), bench, QUIET)
    kept = begun(bench)
    texts = [
        {"kind": "text", "text": "Ada", "size": "6 mm", "font": "noto  SANS"},
        {"kind": "text", "text": "Ben", "size": "6 mm", "font": "Named.ttf", "at": "back"},
    ]
    save_design(SaveDesign(kept.id, {**kept.document, "element": texts}, 1), bench, QUIET)
    out = export_design(ExportDesign(kept.id, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        assert archive.namelist() == ["job.toml", "Mine.ttf", "Named.ttf"]
    there = import_design(ImportDesign(out), other, QUIET)
    assert there.document["element"] == texts
    assert sorted(one.name for one in folder_of(there.id, other).iterdir()) == ["Mine.ttf", "Named.ttf"]
    again = export_design(ExportDesign(there.id, 0, tmp_path / "two.zip"), other, QUIET)
    assert again.read_bytes() == out.read_bytes()


def test_a_job_file_comes_in_with_its_files_under_plain_names(bench: Bench, tmp_path: Path) -> None:
    leaf(tmp_path / "art")
    leaf(tmp_path / "art" / "deep", colour="#ff0000")
    (tmp_path / "bottle.toml").write_text(JOB, encoding="utf-8")
    kept = adopt_design(AdoptDesign(tmp_path / "bottle.toml"), bench, QUIET)
    assert kept.title == "bottle"
    assert [(one["file"], one["mask"]) for one in kept.document["element"]] == [
        ("leaf.svg", "leaf-2.svg"),
        ("leaf.svg", "circle"),
    ]
    red = (folder_of(kept.id, bench) / "leaf-2.svg").read_text(encoding="utf-8")
    assert red == LEAF.format("#ff0000")
    assert len(list_pictures(ListPictures(), bench, QUIET)) == 2
    assert (tmp_path / "art" / "leaf.svg").is_file()


def test_a_blank_of_the_shelf_is_written_out(bench: Bench, tmp_path: Path) -> None:
    add_blank(AddBlank("Mug", STRAIGHT, {"bleed": "1 mm"}), bench, QUIET)
    (tmp_path / "use.toml").write_text('format = 1\ntitle = "T"\nblank = { use = "mug" }\n', encoding="utf-8")
    kept = adopt_design(AdoptDesign(tmp_path / "use.toml"), bench, QUIET)
    assert kept.document["blank"] == {"name": "Mug", **STRAIGHT}
    assert kept.document["wrap"] == {"bleed": "1 mm"}


def test_a_blank_that_a_document_only_names_goes_along(bench: Bench, tmp_path: Path) -> None:
    add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    kept = begun(bench)
    save_design(SaveDesign(kept.id, {**kept.document, "blank": {"use": "mug"}}, 1), bench, QUIET)
    out = export_design(ExportDesign(kept.id, 0, tmp_path / "one.zip"), bench, QUIET)
    assert job_of(out)["blank"] == {"name": "Mug", **STRAIGHT}


def test_a_profile_comes_in_too(bench: Bench, tmp_path: Path) -> None:
    (tmp_path / "ink.icc").write_bytes(rgb_printer())
    text = JOB.split("[[element]]")[0] + '[colour]\nroute = "convert"\nprofile = "ink.icc"\n'
    (tmp_path / "bottle.toml").write_text(text, encoding="utf-8")
    kept = adopt_design(AdoptDesign(tmp_path / "bottle.toml"), bench, QUIET)
    assert (folder_of(kept.id, bench) / "ink.icc").read_bytes() == rgb_printer()
    assert list_pictures(ListPictures(), bench, QUIET) == ()


def test_all_that_is_wrong_with_a_job_file_is_told_and_nothing_is_kept(bench: Bench, tmp_path: Path) -> None:
    file = tmp_path / "bottle.toml"
    with pytest.raises(WrapwrightError) as caught:
        adopt_design(AdoptDesign(file), bench, QUIET)
    assert caught.value.kind is Kind.MISSING
    file.write_text(JOB, encoding="utf-8")
    with pytest.raises(SeveralProblemsError) as several:
        adopt_design(AdoptDesign(file), bench, QUIET)
    assert {one.message for one in several.value.problems} == {
        '"art/leaf.svg" is not there.',
        '"art/deep/leaf.svg" is not there.',
    }
    leaf(tmp_path / "art" / "deep")
    (tmp_path / "art" / "leaf.svg").write_text("no drawing", encoding="utf-8")
    with pytest.raises(WrapwrightError, match="not a picture"):
        adopt_design(AdoptDesign(file), bench, QUIET)
    assert (list_designs(ListDesigns(), bench, QUIET), files_of(bench)) == ((), [])


def test_a_design_that_cannot_be_drawn_yet_comes_in_as_it_is(bench: Bench, tmp_path: Path) -> None:
    text = 'format = 1\n[blank]\nkind = "?"\n[[element]]\nkind = "picture"\nfile = "lost.svg"\n'
    text += '[[element]]\nkind = "picture"\nfile = "broken.svg"\n'
    file = zipped(tmp_path / "one.zip", {"job.toml": text, "broken.svg": "no drawing"})
    kept = import_design(ImportDesign(file), bench, QUIET)
    assert kept.document == tomllib.loads(text)
    assert (folder_of(kept.id, bench) / "broken.svg").read_text(encoding="utf-8") == "no drawing"
    assert list_pictures(ListPictures(), bench, QUIET) == ()


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({"leaf.svg": "x"}, "holds no job.toml"),
        ({"job.toml": "format = "}, "is not TOML"),
        ({"job.toml": "format = 7"}, "the format 7 is not known"),
        ({"job.toml": "format = 1\nquantity = inf"}, "inf cannot stand in a job file"),
        ({"job.toml": b"format = 1\ntitle = '\xff'"}, "not UTF-8"),
        ({"job.toml": "format = 1", "../leaf.svg": "x"}, "outside its folder"),
    ],
)
def test_zip_files_that_are_no_design(bench: Bench, tmp_path: Path, files: dict, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        import_design(ImportDesign(zipped(tmp_path / "one.zip", files)), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    assert said in str(caught.value)
    assert (list_designs(ListDesigns(), bench, QUIET), files_of(bench)) == ((), [])


def test_a_job_file_that_comes_from_elsewhere_is_not_taken_for_one_of_this_machine(
    bench: Bench, tmp_path: Path
) -> None:
    leaf(tmp_path / "art")
    leaf(tmp_path / "art" / "deep")
    (tmp_path / "upload").write_text(JOB, encoding="utf-8")
    with pytest.raises(WrapwrightError, match="no zip file") as caught:
        import_design(ImportDesign(tmp_path / "upload"), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    with pytest.raises(WrapwrightError) as caught:
        import_design(ImportDesign(tmp_path / "none.zip"), bench, QUIET)
    assert caught.value.kind is Kind.MISSING
    assert list_designs(ListDesigns(), bench, QUIET) == ()


def test_a_job_in_a_zip_gets_nothing_from_elsewhere_on_this_machine(bench: Bench, tmp_path: Path) -> None:
    leaf(tmp_path, "secret.svg")
    for stolen in (str(tmp_path / "secret.svg"), "../../../secret.svg", "..\\secret.svg"):
        job = {"format": 1, "blank": STRAIGHT, "element": [{"kind": "picture", "file": stolen, "width": "30 mm"}]}
        file = zipped(tmp_path / "one.zip", {"job.toml": job_toml(job)})
        kept = import_design(ImportDesign(file), bench, QUIET)
        assert not folder_of(kept.id, bench).exists()
        out = export_design(ExportDesign(kept.id, 0, tmp_path / f"{kept.id}.zip"), bench, QUIET)
        with zipfile.ZipFile(io.BytesIO(out.read_bytes())) as archive:
            assert archive.namelist() == ["job.toml"]
