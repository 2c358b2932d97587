"""Makings: one after another in the order asked for, watched, stopped, and mended after a loss of power."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import NewDesign, new_design
from wrapwright.jobs.kept.made import (
    AskMaking,
    BeginMaking,
    FinishMaking,
    ShowMade,
    ask_making,
    begin_making,
    finish_making,
    folder_made,
    show_made,
)
from wrapwright.jobs.live import worker
from wrapwright.jobs.live.worker import Makings, Order
from wrapwright.jobs.open_bench import open_bench
from wrapwright.outside.store.records import MadeKept
from wrapwright.outside.system.worker import EndedError

QUIET = Watch()
PATIENCE_S = 60.0
DOCUMENT = {
    "format": 1,
    "title": "Plain",
    "blank": {"kind": "straight", "girth": "120 mm", "wall": "40 mm"},
    "element": [{"kind": "fill", "colour": "#0e3a5a"}],
    "sheet": {"ppi": 150},
}


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = open_bench(cache=tmp_path / "cache", data=tmp_path / "data", fonts=tmp_path / "fonts", threads=1)
    yield made
    made.kept().close()


@pytest.fixture
def makings(bench: Bench) -> Iterator[Makings]:
    made = Makings(bench, lambda error: {"message": str(error), "kind": error.kind.value})
    yield made
    made.close()


class StandIn:
    """A worker that makes nothing, and waits while `held` is clear."""

    def __init__(self) -> None:
        self.held = threading.Event()
        self.begun: list[int] = []
        self.problem: Exception | None = None
        self._ended = threading.Event()

    def run(self, _function: Any, order: Order, progress: Callable[[str, float], None]) -> None:
        self._ended.clear()
        self.begun.append(order.make.design)
        order.make.folder.mkdir(parents=True)
        beside = order.make.folder.parent / ".wrapwright-half"
        beside.mkdir(exist_ok=True)
        progress("making the sheets", 0.4)
        while not self.held.wait(0.01):
            if self._ended.is_set():
                raise EndedError(Kind.STOPPED, "Stopped.")
        if self.problem is not None:
            raise self.problem
        (order.make.folder / "report.json").write_text('{"files": []}', encoding="utf-8")
        beside.rmdir()

    def end(self) -> None:
        self._ended.set()

    close = end


@pytest.fixture
def stand_in(makings: Makings) -> StandIn:
    made = StandIn()
    makings._worker = made  # type: ignore[assignment]
    return made


def asked(bench: Bench, title: str = "Plain") -> MadeKept:
    design = new_design(NewDesign(title, {**DOCUMENT, "title": title}), bench, QUIET)
    return ask_making(AskMaking(design.id), bench, QUIET)


def until(bench: Bench, number: int, *states: str) -> MadeKept:
    """Return a making once it is in one of the states."""
    ends = time.monotonic() + PATIENCE_S
    while time.monotonic() < ends:
        found = show_made(ShowMade(number), bench, QUIET)
        if found.state in states:
            return found
        time.sleep(0.01)
    raise AssertionError(f"{number} is still {found.state}")


def test_sheets_are_made_apart(bench: Bench, makings: Makings) -> None:
    makings.open()
    waiting = asked(bench)
    assert waiting.state == "waiting"
    makings.wake()
    done = until(bench, waiting.id, "done", "failed")
    assert (done.state, done.error) == ("done", {})
    folder = folder_made(done.id, bench)
    assert sorted(one.name for one in folder.iterdir()) == ["proof.pdf", "report.json", "sheets.pdf", "ticket.pdf"]
    assert done.report["title"] == "Plain"
    assert done.ended is not None
    assert done.share == 1.0


def test_what_the_checks_refuse_is_told(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    stand_in.held.set()
    stand_in.problem = WrapwrightError(Kind.CHECKS, "The checks say no.")
    row = asked(bench)
    makings.open()
    failed = until(bench, row.id, "done", "failed")
    assert (failed.state, failed.error) == ("failed", {"message": "The checks say no.", "kind": "checks"})
    assert not folder_made(failed.id, bench).exists()


def test_one_at_a_time_in_the_order_asked_for(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    rows = [asked(bench, title) for title in ("one", "two", "three")]
    makings.open()
    first = until(bench, rows[0].id, "making")
    assert [show_made(ShowMade(one.id), bench, QUIET).state for one in rows] == ["making", "waiting", "waiting"]
    assert first.share <= 0.4
    stand_in.held.set()
    assert [until(bench, one.id, "done", "failed").state for one in rows] == ["done"] * 3
    assert stand_in.begun == [one.design for one in rows]


def test_stopped_while_it_waits_and_while_it_is_made(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    running, waiting = asked(bench, "one"), asked(bench, "two")
    makings.open()
    until(bench, running.id, "making")
    assert makings.stop(waiting.id).state == "stopped"
    stopped = makings.stop(running.id)
    assert (stopped.state, stopped.error) == ("stopped", {})
    assert not folder_made(running.id, bench).exists()
    assert list(folder_made(running.id, bench).parent.glob(".*")) == []
    assert stand_in.begun == [running.design]
    assert makings.stop(running.id) == stopped
    with pytest.raises(WrapwrightError, match="has the number 99"):
        makings.stop(99)


def test_a_real_one_is_stopped_and_leaves_nothing(bench: Bench, makings: Makings) -> None:
    row = asked(bench)
    makings.open()
    until(bench, row.id, "making")
    assert makings.stop(row.id).state == "stopped"
    assert not folder_made(row.id, bench).exists()
    again = ask_making(AskMaking(row.design), bench, QUIET)
    makings.wake()
    assert until(bench, again.id, "done", "failed").state == "done"


def test_whatever_goes_wrong_is_told_and_the_next_is_made(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    stand_in.held.set()
    stand_in.problem = ZeroDivisionError("secret words")
    first = asked(bench, "one")
    makings.open()
    failed = until(bench, first.id, "failed")
    assert failed.error == {"message": "Something went wrong inside wrapwright (ZeroDivisionError).", "kind": "fault"}
    assert not folder_made(failed.id, bench).exists()
    stand_in.problem = None
    second = asked(bench, "two")
    makings.wake()
    assert until(bench, second.id, "done", "failed").state == "done"


def test_what_a_loss_of_power_left_can_be_asked_for_again(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    row = asked(bench)
    begin_making(BeginMaking(row.id), bench, QUIET)
    half = folder_made(row.id, bench).parent / ".wrapwright-0123"
    half.mkdir(parents=True)
    (half / "sheets.pdf").write_bytes(b"%PDF-")
    stand_in.held.set()
    makings.open()
    failed = until(bench, row.id, "failed")
    assert "was ended while this was being made" in failed.error["message"]
    assert not half.exists()
    again = ask_making(AskMaking(row.design), bench, QUIET)
    makings.wake()
    assert until(bench, again.id, "done", "failed").state == "done"


def test_closing_ends_what_is_under_way(bench: Bench, makings: Makings, stand_in: StandIn) -> None:
    running, waiting = asked(bench, "one"), asked(bench, "two")
    makings.open()
    until(bench, running.id, "making")
    makings.close()
    assert "Ask for it again" in until(bench, running.id, "failed").error["message"]
    assert show_made(ShowMade(waiting.id), bench, QUIET).state == "waiting"
    stand_in.held.set()
    makings.open()
    assert until(bench, waiting.id, "done", "failed").state == "done"


def test_a_store_out_of_reach_at_the_end_of_a_making(
    bench: Bench, makings: Makings, stand_in: StandIn, monkeypatch: pytest.MonkeyPatch
) -> None:
    refusals = [WrapwrightError(Kind.UNREACHABLE, "The store is held."), ZeroDivisionError()]
    written = threading.Event()

    def finish(request: FinishMaking, *rest: Any) -> MadeKept:
        if refusals:
            raise refusals.pop(0)
        written.set()
        return finish_making(request, *rest)

    monkeypatch.setattr(worker, "finish_making", finish)
    stand_in.held.set()
    row = asked(bench)
    makings.open()
    while not written.is_set():
        makings.wake()
        time.sleep(0.01)
    failed = until(bench, row.id, "failed")
    assert "was ended while this was being made" in failed.error["message"]
    again = ask_making(AskMaking(row.design), bench, QUIET)
    makings.wake()
    assert until(bench, again.id, "done", "failed").state == "done"
