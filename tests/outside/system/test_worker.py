"""Work in a process of its own: kept for the next piece, ended at any moment, gone with the one that started it."""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
import pytest
from tests.house.tree import ROOT
from tests.outside.system import pieces_of_work as pieces

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system.worker import EndedError, Worker

PATIENCE_S = 20.0


@pytest.fixture
def worker(monkeypatch: pytest.MonkeyPatch) -> Iterator[Worker]:
    """Give a worker that can import this folder's pieces of work."""
    monkeypatch.setenv("PYTHONPATH", str(ROOT))
    made = Worker()
    yield made
    made.close()


def gone(pid: int) -> bool:
    """Return whether a process ends soon."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        try:
            if psutil.Process(pid).status() == psutil.STATUS_ZOMBIE:
                return True
        except psutil.NoSuchProcess:
            return True
        time.sleep(0.01)
    return False


def nothing(_words: str, _share: float) -> None:
    """Listen to no progress."""


def test_one_process_for_one_piece_after_another(worker: Worker) -> None:
    told: list[tuple[str, float]] = []
    first = worker.run(pieces.doubled, 21, lambda *words: told.append(words))
    second = worker.run(pieces.doubled, 4, nothing)
    assert (first[0], second[0]) == (42, 8)
    assert first[1] == second[1] != psutil.Process().pid
    assert told == [("half of it", 0.5)]


@pytest.mark.skipif(sys.platform == "win32", reason="niceness is a notion of POSIX")
def test_others_go_first(worker: Worker) -> None:
    own = psutil.Process().nice()
    assert worker.run(pieces.niceness, None, nothing) == min(19, own + 10) or own >= 10


def test_problems_come_back_as_they_are(worker: Worker) -> None:
    with pytest.raises(WrapwrightError, match="Too few pixels") as refused:
        worker.run(pieces.refusing, "Too few pixels.", nothing)
    assert (refused.value.kind, refused.value.remedy, refused.value.where) == (Kind.CHECKS, "Mend it.", "crest")
    with pytest.raises(WrapwrightError, match=r"inside wrapwright \(ZeroDivisionError\)\.$") as fault:
        worker.run(pieces.failing, None, nothing)
    assert fault.value.kind is Kind.FAULT
    assert worker.run(pieces.doubled, 1, nothing)[0] == 2


def test_a_crash_is_told_and_the_next_piece_gets_a_new_process(worker: Worker) -> None:
    with pytest.raises(EndedError, match="ended before it had finished") as ended:
        worker.run(pieces.crashing, None, nothing)
    assert ended.value.kind is Kind.FAULT
    assert worker.run(pieces.doubled, 1, nothing)[0] == 2


def test_ended_at_once_with_all_that_it_started(worker: Worker, tmp_path: Path) -> None:
    file = tmp_path / "numbers"
    begun = threading.Event()
    ended: list[EndedError] = []

    def work() -> None:
        try:
            worker.run(pieces.waiting, str(file), lambda *_words: begun.set())
        except EndedError as error:
            ended.append(error)

    thread = threading.Thread(target=work)
    thread.start()
    assert begun.wait(PATIENCE_S)
    worker.end()
    thread.join(PATIENCE_S)
    assert [one.kind for one in ended] == [Kind.STOPPED]
    assert all(gone(int(pid)) for pid in file.read_text(encoding="utf-8").split())
    assert worker.run(pieces.doubled, 1, nothing)[0] == 2


def test_it_does_not_outlive_the_one_that_started_it(worker: Worker, tmp_path: Path) -> None:
    del worker
    file = tmp_path / "numbers"
    code = (
        "from tests.outside.system import pieces_of_work as pieces\n"
        "from wrapwright.outside.system.worker import Worker\n"
        f"Worker().run(pieces.waiting, {str(file)!r}, lambda *words: print(*words, flush=True))\n"
    )
    parent = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    assert parent.stdout.readline().startswith("begun")
    parent.kill()
    parent.communicate()
    working, beside = (int(pid) for pid in file.read_text(encoding="utf-8").split())
    assert gone(working)
    psutil.Process(beside).kill()  # its own children are its own affair
