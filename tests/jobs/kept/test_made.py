"""What was made: asked for, taken up once, told of, ended once."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.jobs.kept.given import QUIET, begun, files_of

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.made import (
    AskMaking,
    BeginMaking,
    FinishMaking,
    ListMade,
    RemoveMade,
    ShowMade,
    TellProgress,
    ask_making,
    begin_making,
    finish_making,
    folder_made,
    list_made,
    remove_made,
    show_made,
    tell_progress,
)


def left(folder: Path) -> None:
    """What a making leaves, in small."""
    folder.mkdir(parents=True)
    (folder / "sheets.pdf").write_bytes(b"%PDF")
    report = {"title": "Weir Street", "files": [{"path": "sheets.pdf", "sha256": "0" * 64, "bytes": 4}]}
    (folder / "report.json").write_text(json.dumps(report), encoding="utf-8", newline="\n")


def test_a_making_goes_its_way(bench: Bench) -> None:
    design = begun(bench)
    asked = ask_making(AskMaking(design.id, accept=("Picture-PPI", "picture-ppi")), bench, QUIET)
    assert (asked.state, asked.revision, asked.title, asked.accept) == ("waiting", 1, "Weir Street", ("picture-ppi",))
    assert begin_making(BeginMaking(asked.id), bench, QUIET).state == "making"
    with pytest.raises(WrapwrightError) as caught:
        begin_making(BeginMaking(asked.id), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    told = tell_progress(TellProgress(asked.id, "making the sheets", 0.45), bench, QUIET)
    assert (told.words, told.share) == ("making the sheets", 0.45)
    left(folder_made(asked.id, bench))
    done = finish_making(FinishMaking(asked.id, "done"), bench, QUIET)
    assert (done.state, done.share, [one.name for one in done.files]) == ("done", 1.0, ["sheets.pdf", "report.json"])
    assert done.ended is not None
    assert done.ended > done.asked
    assert show_made(ShowMade(asked.id), bench, QUIET) == done
    assert finish_making(FinishMaking(asked.id, "failed"), bench, QUIET) == done


def test_a_stopped_making_stays_stopped(bench: Bench) -> None:
    asked = ask_making(AskMaking(begun(bench).id), bench, QUIET)
    begin_making(BeginMaking(asked.id), bench, QUIET)
    stopped = finish_making(FinishMaking(asked.id, "stopped"), bench, QUIET)
    assert tell_progress(TellProgress(asked.id, "on", 0.9), bench, QUIET) == stopped
    assert stopped.share == 0.0


def test_a_failure_keeps_its_document(bench: Bench) -> None:
    asked = ask_making(AskMaking(begun(bench).id), bench, QUIET)
    error = {"format": 1, "error": {"kind": "unusable", "message": "No."}}
    assert finish_making(FinishMaking(asked.id, "failed", error), bench, QUIET).error == error


def test_the_list_has_the_newest_first(bench: Bench) -> None:
    one, other = begun(bench), begun(bench)
    ids = [ask_making(AskMaking(design.id), bench, QUIET).id for design in (one, other, one)]
    assert [made.id for made in list_made(ListMade(), bench, QUIET)] == ids[::-1]
    assert [made.id for made in list_made(ListMade(one.id), bench, QUIET)] == [ids[2], ids[0]]


@pytest.mark.parametrize(
    ("asked", "kind"),
    [
        (AskMaking(99), Kind.MISSING),
        (AskMaking(1, revision=9), Kind.MISSING),
        (AskMaking(1, output="docx"), Kind.USAGE),
        (AskMaking(1, accept=("picture-pip",)), Kind.USAGE),
        (AskMaking(1, accept=("does-not-fit",)), Kind.USAGE),
    ],
)
def test_what_cannot_be_asked_for(bench: Bench, asked: AskMaking, kind: Kind) -> None:
    assert begun(bench).id == 1
    with pytest.raises(WrapwrightError) as caught:
        ask_making(asked, bench, QUIET)
    assert caught.value.kind is kind
    assert list_made(ListMade(), bench, QUIET) == ()


def test_done_without_a_report_is_our_fault(bench: Bench) -> None:
    asked = ask_making(AskMaking(begun(bench).id), bench, QUIET)
    with pytest.raises(WrapwrightError) as caught:
        finish_making(FinishMaking(asked.id, "done"), bench, QUIET)
    assert caught.value.kind is Kind.FAULT
    assert show_made(ShowMade(asked.id), bench, QUIET).state == "waiting"
    with pytest.raises(WrapwrightError) as caught:
        finish_making(FinishMaking(asked.id, "making"), bench, QUIET)
    assert caught.value.kind is Kind.USAGE


def test_a_removed_making_is_gone_with_its_files(bench: Bench) -> None:
    asked = ask_making(AskMaking(begun(bench).id), bench, QUIET)
    with pytest.raises(WrapwrightError) as caught:
        remove_made(RemoveMade(asked.id), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    left(folder_made(asked.id, bench))
    finish_making(FinishMaking(asked.id, "done"), bench, QUIET)
    remove_made(RemoveMade(asked.id), bench, QUIET)
    assert files_of(bench) == []
    with pytest.raises(WrapwrightError) as caught:
        remove_made(RemoveMade(asked.id), bench, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_only_those_that_are_asked_for(bench: Bench) -> None:
    one, two = begun(bench), begun(bench, "Quay")
    rows = [ask_making(AskMaking(each.id), bench, QUIET).id for each in (one, two, one, two)]
    begin_making(BeginMaking(rows[1]), bench, QUIET)

    def found(**asked: Any) -> list[int]:
        return [each.id for each in list_made(ListMade(**asked), bench, QUIET)]

    assert found() == rows[::-1]
    assert found(design=one.id) == [rows[2], rows[0]]
    assert found(states=("making",)) == [rows[1]]
    assert found(states=("waiting",), before=rows[3]) == [rows[2], rows[0]]
    assert found(most=2) == rows[:1:-1]
