"""A stored design is made byte for byte as its exported job file is."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import fontpkg
import pytest
from tests.jobs.kept.given import QUIET, STRAIGHT, kept_leaf
from tests.outside.icc.press import rgb_printer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import (
    NewDesign,
    PutFile,
    SaveDesign,
    UseSetup,
    folder_of,
    new_design,
    put_file,
    save_design,
    use_setup,
)
from wrapwright.jobs.kept.exchange import ExportDesign, export_design
from wrapwright.jobs.kept.made import (
    AskMaking,
    BeginMaking,
    FinishMaking,
    ask_making,
    begin_making,
    finish_making,
    folder_made,
)
from wrapwright.jobs.kept.making import MakeKept, make_kept
from wrapwright.jobs.kept.pictures import KeepFont, keep_font
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.live.sheet_view import SeeSheet, see_sheet
from wrapwright.jobs.make_sheets import make_sheets
from wrapwright.jobs.requests import MakeRequest
from wrapwright.jobs.verdict import ChecksSayNoError
from wrapwright.outside.store.records import NO_TITLE, DesignKept

NAMES = ["proof.pdf", "report.json", "sheets.pdf", "ticket.pdf"]
SMALL = {"paper": "A4", "ppi": 100, "scale": [1.0012, 0.9987]}


def designed(bench: Bench, folder: Path) -> DesignKept:
    """A design as a screen leaves it: lengths to six decimals, a picture, a font of one's own, a profile."""
    face = next(one.path for one in fontpkg.families()["noto-sans"].files if "Italic" not in one.path.name)
    keep_font(KeepFont("Mine.ttf", Path(str(face))), bench, QUIET)
    blank = {"kind": "tapered", "girth_top": "281 mm", "girth_bottom": "225 mm", "wall": "60 mm"}
    kept = new_design(NewDesign("Weir — “Straße”", {"format": 1, "blank": blank, "element": []}), bench, QUIET)
    picture = kept_leaf(bench, folder)
    name = put_file(PutFile(kept.id, picture.sha256, picture.name), bench, QUIET)
    elements = [
        {"kind": "fill", "gradient": {"from": "#f0d8b2", "to": "#fcf5e8", "along": "up"}},
        {"kind": "tile", "file": name, "width": "18.333333 mm", "opacity": 0.4},
        {"kind": "picture", "file": name, "width": "21.123457 mm", "at": ["0.000001 deg", "180.000001 deg"]},
        {"kind": "text", "text": "{name}\n2026", "font": "Noto Sans", "size": "6.5 mm", "at": "91.25 deg", "turn": 3},
    ]
    document = {**kept.document, "element": elements, "fields": {"name": "Zoë"}, "date": "2026-05-02"}
    save_design(SaveDesign(kept.id, document, 1), bench, QUIET)
    (folder / "press.icc").write_bytes(rgb_printer())
    setup = AddSetup("Desk", SMALL, {"route": "convert", "ink_limit": 300.0}, profile=folder / "press.icc")
    return use_setup(UseSetup(kept.id, add_setup(setup, bench, QUIET).id, 2), bench, QUIET)


def test_the_bytes_are_those_of_the_exported_job_file(bench: Bench, other: Bench, tmp_path: Path) -> None:
    kept = designed(bench, tmp_path)
    made = make_kept(MakeKept(kept.id, kept.revision, "pdf", ("all",), tmp_path / "stored"), bench, QUIET)
    out = export_design(ExportDesign(kept.id, kept.revision, tmp_path / "design.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        archive.extractall(tmp_path / "unpacked")
    # On another machine: a bench without our font, without our store.
    job = MakeRequest(tmp_path / "unpacked" / "job.toml", None, tmp_path / "exported", accept=frozenset({"all"}))
    make_sheets(job, other, QUIET)
    stored, exported = (
        {one.name: one.read_bytes() for one in sorted((tmp_path / name).iterdir())} for name in ("stored", "exported")
    )
    assert list(stored) == NAMES
    assert stored["sheets.pdf"] == exported["sheets.pdf"]
    assert stored == exported
    inputs = {one["path"]: one["sha256"] for one in made.report["inputs"]}
    assert set(inputs) >= {"job.toml", "leaf.svg", "Mine.ttf", "press.icc"}
    assert made.report["title"] == "Weir — “Straße”"
    assert made.report == json.loads(stored["report.json"])


def test_a_making_from_asking_to_its_files(bench: Bench) -> None:
    document = {"format": 1, "title": "Plain", "blank": {**STRAIGHT, "wall": "50 mm"}, "sheet": SMALL, "element": []}
    kept = new_design(NewDesign("", document), bench, QUIET)
    asked = ask_making(AskMaking(kept.id), bench, QUIET)
    begun = begin_making(BeginMaking(asked.id), bench, QUIET)
    make_kept(MakeKept(kept.id, begun.revision, "pdf", begun.accept, folder_made(begun.id, bench)), bench, QUIET)
    done = finish_making(FinishMaking(begun.id, "done"), bench, QUIET)
    assert sorted(one.name for one in done.files) == NAMES
    for one in done.files:
        assert (folder_made(done.id, bench) / one.name).stat().st_size == one.bytes
    assert done.report["title"] == "Plain"
    assert (done.state, done.share) == ("done", 1.0)


def test_what_the_checks_say_no_to_leaves_no_folder(bench: Bench, tmp_path: Path) -> None:
    element = {"kind": "text", "text": "hidden", "size": "6 mm", "at": "left"}  # over the seam
    document = {"format": 1, "title": "Seam", "blank": STRAIGHT, "sheet": SMALL, "element": [element]}
    kept = new_design(NewDesign("", document), bench, QUIET)
    with pytest.raises(ChecksSayNoError):
        make_kept(MakeKept(kept.id, 0, "pdf", (), tmp_path / "out"), bench, QUIET)
    assert not (tmp_path / "out").exists()


def test_a_document_reads_no_file_of_this_machine(bench: Bench, tmp_path: Path) -> None:
    kept_leaf(bench, tmp_path, "secret.svg")
    element = {"kind": "picture", "file": str(tmp_path / "secret.svg"), "width": "30 mm"}
    document = {"format": 1, "title": "Thief", "blank": STRAIGHT, "sheet": SMALL, "element": [element]}
    kept = new_design(NewDesign("", document), bench, QUIET)
    with pytest.raises(WrapwrightError, match="lies outside the design's folder") as caught:
        make_kept(MakeKept(kept.id, 0, "pdf", (), tmp_path / "out"), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE


def test_a_design_without_a_title_is_called_the_same_everywhere(bench: Bench, tmp_path: Path) -> None:
    document = {"format": 1, "blank": {**STRAIGHT, "wall": "50 mm"}, "sheet": SMALL, "element": []}
    kept = new_design(NewDesign("", document), bench, QUIET)
    made = make_kept(MakeKept(kept.id, 0, "pdf", (), tmp_path / "out"), bench, QUIET)
    seen = see_sheet(SeeSheet(kept.document, folder_of(kept.id, bench)), bench, QUIET)
    assert {kept.title, made.report["title"], seen.title} == {NO_TITLE}
