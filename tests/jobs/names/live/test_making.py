"""A design's list made: only when nothing waits, and as the exported job file is made."""

from __future__ import annotations

import csv
import zipfile
from pathlib import Path

import pytest
from tests.jobs.names.live.conftest import Listed
from tests.jobs.names.live.given import QUIET, ROWS

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import folder_of
from wrapwright.jobs.kept.exchange import ExportDesign, export_design
from wrapwright.jobs.names.live.deciding import DecideRows, decide_rows
from wrapwright.jobs.names.live.making import AskNames, MakeKeptNames, ask_names, make_kept_names


def test_nothing_is_asked_for_while_something_waits(bench: Bench, listed: Listed) -> None:
    design = listed(ROWS)
    with pytest.raises(WrapwrightError, match="3 problems wait for a decision") as caught:
        ask_names(AskNames(design), bench, QUIET)
    assert caught.value.kind is Kind.CHECKS
    decide_rows(DecideRows(design, "skip"), bench, QUIET)
    with pytest.raises(WrapwrightError, match="no row 99"):
        ask_names(AskNames(design, rows=(99,)), bench, QUIET)
    made = ask_names(AskNames(design, "piles", (2,), 10), bench, QUIET)
    assert (made.state, made.names) == ("waiting", {"order": "piles", "rows": [2], "sheets_a_file": 10})


def test_what_is_made_is_the_exported_job_file(bench: Bench, listed: Listed, tmp_path: Path) -> None:
    design = listed("name,team\nAda,Weir\nBen,Lock\nCid,Weir\n")
    decide_rows(DecideRows(design, "skip", (3,)), bench, QUIET)
    made = make_kept_names(MakeKeptNames(design, 0, {"rows": [2, 3]}, (), tmp_path / "made"), bench, QUIET)
    assert (made.report["names"]["made"], made.report["names"]["skipped"]) == (1, 1)
    with (tmp_path / "made" / "manifest.csv").open(encoding="utf-8", newline="") as stream:
        assert [(one["row"], one["state"]) for one in csv.DictReader(stream)] == [("2", "made"), ("3", "skipped")]
    out = export_design(ExportDesign(design, 0, tmp_path / "one.zip"), bench, QUIET)
    folder = folder_of(design, bench)
    with zipfile.ZipFile(out) as archive:
        assert archive.namelist() == ["job.toml", "job.names.json", "list/crew.csv"]
        assert [archive.read(one) for one in archive.namelist()] == [
            (folder / one).read_bytes() for one in archive.namelist()
        ]
