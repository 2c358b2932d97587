"""What was made, in words."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from wrapwright.faces.web.pages.history import AT_ONCE, made_shown, size_words
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.blanks import list_starters
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.kept.made import AskMaking, ask_making
from wrapwright.outside.store.records import FileMade, MadeKept

WHEN = datetime(2026, 5, 2, 10, 30, tzinfo=UTC)


def kept(**changes: Any) -> MadeKept:
    values: dict[str, Any] = {
        "id": 4, "design": 1, "revision": 3, "title": "Regatta", "output": "pdf", "accept": (), "state": "done",
        "words": "", "share": 1.0, "asked": WHEN, "ended": WHEN,
    }  # fmt: skip
    return MadeKept(**(values | changes))


def test_findings_stand_in_their_order() -> None:
    checks = [
        {"severity": "note", "message": "n"},
        {"severity": "error", "message": "e", "accepted": True},
        {"severity": "warning", "message": "w"},
    ]
    shown = made_shown(kept(report={"checks": checks, "blank": {"kind": "tapered"}}), "")
    assert [one.severity for one in shown.findings] == ["error", "warning", "note"]
    assert shown.findings[0].accepted
    assert shown.blank == "tapered blank"


def test_the_designs_blank_goes_before_its_shape() -> None:
    assert made_shown(kept(report={"blank": {"kind": "straight"}}), "Mug of May").blank == "Mug of May"


def test_a_failure_is_told_with_what_to_do() -> None:
    error = {"error": {"message": "It is too tall.", "remedy": "Take A4."}, "checks": []}
    shown = made_shown(kept(state="failed", error=error), "")
    assert shown.trouble == "It is too tall. Take A4."
    assert not shown.running


def test_the_checks_that_said_no_are_told() -> None:
    error = {"error": {"message": "No."}, "checks": [{"severity": "error", "message": "Name is cut."}]}
    assert [one.message for one in made_shown(kept(state="failed", error=error), "").findings] == ["Name is cut."]


def test_files_say_what_they_are_for() -> None:
    files = (FileMade("ticket.pdf", 54_321, "a" * 64), FileMade("sheet-1.png", 2_500_000, "b" * 64))
    shown = made_shown(kept(files=files), "").files
    assert [one.size for one in shown] == ["54 kB", "2.5 MB"]
    assert shown[0].words == "the page that goes with the work"


@pytest.mark.parametrize(
    ("count", "words"), [(0, "0 bytes"), (999, "999 bytes"), (1000, "1 kB"), (1_000_000, "1.0 MB")]
)
def test_sizes_in_words(count: int, words: str) -> None:
    assert size_words(count) == words


def test_an_empty_history_says_what_comes_here(client: Any) -> None:
    text = client.get("/history").text
    assert "Nothing was made yet" in text
    assert 'href="/"' in text


def test_a_long_history_goes_back_in_pages(client: Any, bench: Bench) -> None:
    design = new_design(NewDesign("Regatta", starter=list_starters()[0].key), bench, Watch()).id
    asked = [ask_making(AskMaking(design), bench, Watch()).id for _ in range(AT_ONCE + 2)]
    first = client.get("/history").text
    assert f'id="made-{asked[-1]}"' in first
    assert f'id="made-{asked[0]}"' not in first
    older = f"/history?before={asked[2]}"
    assert older in first
    second = client.get(older).text
    assert f'id="made-{asked[0]}"' in second
    assert f'id="made-{asked[2]}"' not in second
    assert "Older" not in second
    assert "personal data" in second


def test_sheets_made_before_and_after_a_calibration_are_told_apart() -> None:
    told = [
        made_shown(kept(report=report), "").scale
        for report in (
            {"scale": [1.002, 0.999], "scale_date": "2026-05-02", "setup": "Desk", "checks": []},
            {"scale": [1.002, 0.999], "scale_date": None, "setup": None, "checks": []},
            {"scale": [1.0, 1.0], "checks": []},
            {},
        )
    ]
    assert told == [
        "Printed with the scale of Desk of 2026-05-02.",
        "Printed with the scale that was typed in.",
        "Printed with no measured scale.",
        "",
    ]
