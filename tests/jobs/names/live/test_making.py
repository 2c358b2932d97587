"""A design's list made: only when nothing waits, and as the exported job file is made."""

from __future__ import annotations

import hashlib
import json
import zipfile
from pathlib import Path

import pytest
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, ROWS

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.exchange import ExportDesign, export_design
from wrapwright.jobs.names.checking import ready_names
from wrapwright.jobs.names.contact.show_contact import ShowContact
from wrapwright.jobs.names.live.deciding import DecideRows, decide_rows
from wrapwright.jobs.names.live.making import AskNames, MakeKeptNames, ask_names, make_kept_names
from wrapwright.jobs.names.make_names import MakeNames, NamesMade
from wrapwright.jobs.names.values import CheckNames


def test_nothing_is_asked_for_while_something_waits(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    with pytest.raises(WrapwrightError, match="3 problems wait for a decision") as caught:
        ask_names(AskNames(design), bench, QUIET)
    assert caught.value.kind is Kind.CHECKS
    decide_rows(DecideRows(design, "skip"), bench, QUIET)
    with pytest.raises(WrapwrightError, match="no row 99"):
        ask_names(AskNames(design, rows=(99,)), bench, QUIET)
    made = ask_names(AskNames(design, "piles", (2,), 10), bench, QUIET)
    assert (made.state, made.names) == ("waiting", {"order": "piles", "rows": [2], "sheets_a_file": 10, "only": ""})


def test_what_is_made_is_the_exported_job_file(
    bench: Bench, listed: Listed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The making itself is tested where it is; here, that it is handed the same files and what was asked for."""
    design = listed("name,team\nAda,Weir\nBen,Lock\nCid,Weir\n")
    decide_rows(DecideRows(design, "skip", (3,)), bench, QUIET)
    handed: list[MakeNames] = []

    def made(request: MakeNames, bench: Bench, watch: Watch) -> NamesMade:
        handed.append(request)
        _, checked = ready_names(CheckNames(request.job), bench, watch)
        return NamesMade({"pieces": checked.pieces})

    monkeypatch.setattr("wrapwright.jobs.names.make_names.make_names", made)
    how = {"order": "piles", "rows": [2, 3], "sheets_a_file": 7}
    found = make_kept_names(MakeKeptNames(design, 0, how, ("Art-Short",), tmp_path / "made"), bench, QUIET)
    assert found.report == {"pieces": 2}
    asked = handed[0]
    assert (asked.folder, asked.order, asked.rows, asked.sheets_a_file, asked.accept) == (
        tmp_path / "made", "piles", (2, 3), 7, {"art-short"},
    )  # fmt: skip
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    with zipfile.ZipFile(out) as archive:
        assert archive.namelist() == ["job.toml", "job.names.json", "list/crew.csv"]
        left = [(asked.job.parent / one).read_bytes() for one in archive.namelist()]
        assert [archive.read(one) for one in archive.namelist()] == left


def test_the_contact_sheet_is_made_alone(
    bench: Bench, listed: Listed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sheet itself is tested where it is drawn; here, that it is left with a report that tells its hash."""

    def drawn(request: ShowContact, bench: Bench, watch: Watch) -> str:
        names, _ = ready_names(CheckNames(request.job), bench, watch)
        request.file.write_bytes(b"%PDF-")
        return names.sha256

    monkeypatch.setattr("wrapwright.jobs.names.contact.show_contact.show_contact", drawn)
    design = listed("name,team\nAda,Weir\n")
    found = make_kept_names(MakeKeptNames(design, 0, {"only": "contact"}, (), tmp_path / "made"), bench, QUIET)
    left = {one.name: one.read_bytes() for one in (tmp_path / "made").iterdir()}
    assert sorted(left) == ["contact.pdf", "report.json"]
    assert json.loads(left["report.json"]) == found.report
    assert found.report["files"] == [
        {"path": "contact.pdf", "sha256": hashlib.sha256(b"%PDF-").hexdigest(), "bytes": 5}
    ]
