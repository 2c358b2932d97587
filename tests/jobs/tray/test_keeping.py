"""The tray is kept, two windows do not overwrite each other, and its sheets are made."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.tray.keeping import AskTray, KeepTray, ShowTray, ask_tray, keep_tray, show_tray
from wrapwright.jobs.tray.making import MakeTray, make_tray
from wrapwright.jobs.tray.values import Tray, TrayPiece, TrayPin, TrayTrimmer, tray_document, tray_of

QUIET = Watch()
TRAY = Tray(
    pieces=(TrayPiece(1, 2), TrayPiece(2, 3, "ADA")),
    pins=(TrayPin(1, 0, 0, 20.0, 20.0, 90),),
    trimmer=TrayTrimmer(longest_mm=380.0),
    title="Friday",
    seconds=0.1,
)


def test_a_tray_survives_its_document():
    assert tray_of(json.loads(json.dumps(tray_document(TRAY)))) == TRAY
    assert tray_of({}) == Tray()


def test_it_is_kept_and_the_slower_window_is_refused(bench: Bench):
    assert show_tray(ShowTray(), bench, QUIET).revision == 0
    first = keep_tray(KeepTray(TRAY, 0), bench, QUIET)
    assert (first.tray, first.revision) == (TRAY, 1)
    with pytest.raises(WrapwrightError, match="revision 1") as caught:
        keep_tray(KeepTray(Tray(), 0), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert show_tray(ShowTray(), bench, QUIET) == first
    assert keep_tray(KeepTray(replace(TRAY, title="Monday"), 1), bench, QUIET).revision == 2


def test_its_making_waits_with_all_that_is_needed(bench: Bench):
    row = ask_tray(AskTray(TRAY, ("picture-ppi",)), bench, QUIET)
    assert (row.design, row.state, row.title, row.accept) == (0, "waiting", "Friday", ("picture-ppi",))
    assert tray_of(row.tray) == TRAY
    with pytest.raises(WrapwrightError, match="empty"):
        ask_tray(AskTray(Tray()), bench, QUIET)
    with pytest.raises(WrapwrightError, match="holds 20000 pieces; the limit here is 3000"):
        ask_tray(AskTray(Tray(pieces=(TrayPiece(1, 10_000), TrayPiece(2, 10_000)))), bench, QUIET)
    with pytest.raises(WrapwrightError, match="does-not-fit"):
        ask_tray(AskTray(TRAY, ("does-not-fit",)), bench, QUIET)


def test_it_is_made_whole(bench: Bench, tmp_path: Path):
    report = make_tray(MakeTray(TRAY, (), tmp_path / "out"), bench, QUIET).report
    assert [(job["title"], job["quantity"]) for job in report["jobs"]] == [("Cup", 2), ("Tag", 3)]
    assert sum(len(sheet["pieces"]) for sheet in report["sheets"]) == 5
    names = {one.name for one in (tmp_path / "out").iterdir()}
    assert {"sheets.pdf", "cut-list.pdf", "report.json"} <= names
    # What a hand put somewhere is printed there: the tag's lower left corner, from the paper's.
    tags = [piece for piece in report["sheets"][0]["pieces"] if piece["turn_deg"] == 90 and piece["x_mm"] < 20.2]
    assert any(abs(piece["x_mm"] - 20.0) < 0.3 and abs(piece["y_mm"] - 20.0) < 0.3 for piece in tags)


def test_a_design_that_is_gone_stops_the_making(bench: Bench, tmp_path: Path):
    with pytest.raises(WrapwrightError, match="no design"):
        make_tray(MakeTray(Tray(pieces=(TrayPiece(9),)), (), tmp_path / "out"), bench, QUIET)
    assert not (tmp_path / "out").exists()
