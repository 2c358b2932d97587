"""What had to give way on the page is told by check, in the report and on the ticket."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.make_sheets import make_sheets
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import CheckRequest, MakeRequest

# 250 mm of wrap beside 271.4 printable, 204 beside 207.9: the trim fits on Letter, hardly anything else.
TALL = """
format = 1
[blank]
kind = "straight"
girth = "245 mm"
wall = "204 mm"
[wrap]
overlap = "5 mm"
[[element]]
kind = "fill"
colour = "#0e3a5a"
"""
ROOMY = TALL.replace("204 mm", "90 mm")


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)


def test_a_tall_wrap_on_letter_says_what_gave_way(bench: Bench, tmp_path: Path) -> None:
    told = check_job(CheckRequest(None, TALL), bench, Watch()).notes
    assert any("check bars" in note for note in told)
    made = make_sheets(MakeRequest(None, TALL, tmp_path / "out"), bench, Watch())
    assert made.report["notes"] == list(told)
    with pikepdf.open(tmp_path / "out" / "ticket.pdf") as ticket:
        assert len(ticket.pages) == 1


def test_where_all_has_room_nothing_is_said(bench: Bench) -> None:
    assert not any("no room" in note.lower() for note in check_job(CheckRequest(None, ROOMY), bench, Watch()).notes)
