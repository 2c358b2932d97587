"""What is asked to be made, made one after another in a process of its own."""

from __future__ import annotations

import contextlib
import shutil
import threading
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.faults import fault_of
from wrapwright.jobs.bench import Bench, Folders, Watch
from wrapwright.jobs.kept.made import (
    BeginMaking,
    FinishMaking,
    ListMade,
    ShowMade,
    TellProgress,
    begin_making,
    finish_making,
    folder_made,
    list_made,
    show_made,
    tell_progress,
)
from wrapwright.jobs.kept.making import MakeKept, make_kept
from wrapwright.jobs.lay.requests import MadeTogether
from wrapwright.jobs.names.live.making import MakeKeptNames, make_kept_names
from wrapwright.jobs.names.make_names import NamesMade
from wrapwright.jobs.requests import Made
from wrapwright.jobs.tray.making import MakeTray, make_tray
from wrapwright.jobs.tray.values import tray_of
from wrapwright.outside.store.records import MadeKept, State
from wrapwright.outside.system.worker import EndedError, Progress, Worker

_QUIET = Watch()
_TELL_S = 0.25  # progress is written to the store at most this often
_CLOSING_S = 10.0
_LOOK_S = 5.0  # another program may have asked for something

Describe = Callable[[WrapwrightError], dict[str, object]]


@dataclass(frozen=True)
class Order:
    """One making as the process gets it: where things are kept, and what to make."""

    folders: Folders
    threads: int
    make: MakeKept | MakeTray | MakeKeptNames


def made_apart(order: Order, progress: Progress) -> Made | MadeTogether | NamesMade:
    """Return what was made, in the process that makes."""
    from wrapwright.jobs.open_bench import open_bench

    places = order.folders
    bench = open_bench(cache=places.cache, data=places.data, fonts=places.fonts, threads=order.threads)
    try:
        watch = Watch(progress=progress)
        if isinstance(order.make, MakeTray):
            return make_tray(order.make, bench, watch)
        if isinstance(order.make, MakeKeptNames):
            return make_kept_names(order.make, bench, watch)
        return make_kept(order.make, bench, watch)
    finally:
        bench.kept().close()


class Makings:
    """Takes up what waits to be made, in the order it was asked for, one at a time.

    Args:
        bench: whose store holds the rows.
        describe: turns a failure into the document that its row keeps.
    """

    def __init__(self, bench: Bench, describe: Describe) -> None:
        self._bench = bench
        self._describe = describe
        self._worker = Worker()
        self._called = threading.Event()
        self._closing = False
        self._lock = threading.Lock()
        self._current = 0
        self._unwanted = 0
        self._thread: threading.Thread | None = None

    def open(self) -> None:
        """Begin: first with what a loss of power left, then with what waits."""
        self._closing = False
        self._thread = threading.Thread(target=self._work, name="makings", daemon=True)
        self._thread.start()

    def close(self) -> None:
        """Stop the making under way and take up no other; those that wait go on waiting."""
        self._closing = True
        self._called.set()
        self._worker.close()
        if self._thread is not None:
            self._thread.join(_CLOSING_S)

    def wake(self) -> None:
        """Look at once for what waits."""
        self._called.set()

    def stop(self, number: int) -> MadeKept:
        """Return the making as it stands once it is stopped; one that has ended stays as it is."""
        with self._lock:
            found = show_made(ShowMade(number), self._bench, _QUIET)
            if found.state == "waiting":
                return finish_making(FinishMaking(number, "stopped"), self._bench, _QUIET)
            running = self._current == number
            self._unwanted = number if running else self._unwanted
        if running:
            self._worker.end()
            self._ended(number)
        return show_made(ShowMade(number), self._bench, _QUIET)

    def _ended(self, number: int) -> None:
        """Wait until the row of a making that was stopped says so."""
        until = time.monotonic() + 10
        while self._current == number and time.monotonic() < until:
            time.sleep(0.01)

    def _work(self) -> None:
        mended = False
        while not self._closing:
            self._called.clear()
            try:
                if not mended:
                    self._mend()
                    mended = True
                waiting = self._waiting()
                for number in waiting:
                    if not self._closing:
                        self._make(number)
            except Exception as error:
                # A store that is out of reach for now is asked again later; then what could not be written down as
                # ended is mended too.
                mended, waiting = False, []
                if not isinstance(error, WrapwrightError):
                    traceback.print_exc()
            if not waiting:
                self._called.wait(_LOOK_S)

    def _waiting(self) -> list[int]:
        if not self._bench.kept().exists():
            return []
        return sorted(one.id for one in list_made(ListMade(states=("waiting",)), self._bench, _QUIET))

    def _make(self, number: int) -> None:
        """Make one, and write down how it ended."""
        with self._lock:
            if show_made(ShowMade(number), self._bench, _QUIET).state != "waiting":
                return  # stopped meanwhile
            row = begin_making(BeginMaking(number), self._bench, _QUIET)
            self._current = number
        try:
            self._run(row)
            finish_making(FinishMaking(number, "done"), self._bench, _QUIET)
        except EndedError as error:
            self._undo(number)
            state: State = "stopped" if error.kind is Kind.STOPPED and not self._closing else "failed"
            told = interrupted() if self._closing else error
            document = {} if state == "stopped" else self._describe(told)
            finish_making(FinishMaking(number, state, document), self._bench, _QUIET)
        except Exception as error:
            self._undo(number)
            told = error if isinstance(error, WrapwrightError) else fault_of(error)
            finish_making(FinishMaking(number, "failed", self._describe(told)), self._bench, _QUIET)
        finally:
            self._current = 0

    def _run(self, row: MadeKept) -> None:
        told = [0.0]

        def progress(words: str, share: float) -> None:
            if self._closing or self._unwanted == row.id:
                self._worker.end()  # the wish came before there was a process to end
            now = time.monotonic()
            if now - told[0] >= _TELL_S:
                told[0] = now
                tell_progress(TellProgress(row.id, words, share), self._bench, _QUIET)

        output = row.output if row.output in {"png", "tiff"} else "pdf"
        folder = folder_made(row.id, self._bench)
        make: MakeKept | MakeTray | MakeKeptNames
        make = MakeKept(row.design, row.revision, output, row.accept, folder)  # type: ignore[arg-type]
        if row.names:
            make = MakeKeptNames(row.design, row.revision, row.names, row.accept, folder)
        if row.tray:
            make = MakeTray(tray_of(row.tray), row.accept, folder)
        self._worker.run(made_apart, Order(self._bench.folders, self._bench.threads, make), progress)

    def _mend(self) -> None:
        if not self._bench.kept().exists():
            return
        for one in list_made(ListMade(states=("making",)), self._bench, _QUIET):
            self._undo(one.id)
            finish_making(FinishMaking(one.id, "failed", self._describe(interrupted())), self._bench, _QUIET)

    def _undo(self, number: int) -> None:
        """Remove what a making that did not end left behind."""
        folder = folder_made(number, self._bench)
        leftovers = [folder, *half_made(folder.parent)]
        for one in leftovers:
            with contextlib.suppress(OSError):
                shutil.rmtree(one, ignore_errors=True)


def half_made(folder: Path) -> list[Path]:
    """Return the work folders that a making which was ended left in the folder of what is made."""
    return sorted(folder.glob(".wrapwright-*"))


def interrupted() -> WrapwrightError:
    """Return why a making that was under way when the bench ended did not end well."""
    return WrapwrightError(
        Kind.FAULT,
        "The bench was ended while this was being made; nothing was left half-made.",
        remedy="Ask for it again.",
    )
