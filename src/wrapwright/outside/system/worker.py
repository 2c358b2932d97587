"""One process of our own that does one long piece of work at a time, and that can be ended at any moment."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from threading import Lock
from typing import Any, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError

Request = TypeVar("Request")
Result = TypeVar("Result")
Progress = Callable[[str, float], None]

_ENDING_S = 5.0
_LOWER = 10  # niceness: others go first
_PR_SET_PDEATHSIG = 1  # linux/prctl.h


class EndedError(WrapwrightError):
    """The process was ended before it had an answer: by `end`, or by something else."""


class Worker:
    """Runs `function(request, progress) -> result` in a spawned process of lower priority, which it keeps for the next.

    All must pickle. One caller runs at a time; `end` may come from any thread.
    """

    def __init__(self) -> None:
        """Start nothing: the process comes with the first piece of work."""
        self._process: SpawnProcess | None = None
        self._line: Connection | None = None
        self._lock = Lock()
        self._ended = False

    def run(self, function: Callable[[Request, Progress], Result], request: Request, progress: Progress) -> Result:
        """Return what the function returns there; `progress` is called here with what it tells there.

        Raises:
            EndedError: stopped when `end` was called, fault when the process ended by itself.
            WrapwrightError: what the function raised.
        """
        line = self._ready()
        try:
            line.send((function, request))
            while True:
                kind, value = line.recv()
                if kind == "progress":
                    progress(*value)
                elif kind == "error":
                    raise value
                else:
                    result: Result = value
                    return result
        except (EOFError, OSError) as error:
            raise self._gone() from error

    def end(self) -> None:
        """End the process at once, with all that it started; the next piece of work gets a new one."""
        with self._lock:
            self._ended = True
            process = self._process
        if process is not None and process.is_alive():
            _kill(process.pid)
            process.join(_ENDING_S)

    def close(self) -> None:
        """End the process for good."""
        self.end()
        self._forget()

    def _ready(self) -> Connection:
        with self._lock:
            self._ended = False
            if self._process is not None and self._process.is_alive() and self._line is not None:
                return self._line
        self._forget()
        # spawn everywhere: a forked copy of a process with threads may hang, and Windows has no fork.
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        process = context.Process(target=_work, args=(theirs,), daemon=True, name="wrapwright-making")
        process.start()
        theirs.close()
        with self._lock:
            self._process, self._line = process, ours
        return ours

    def _gone(self) -> EndedError:
        with self._lock:
            ended, process = self._ended, self._process
        if process is not None:
            process.join(_ENDING_S)
        self._forget()
        if ended:
            return EndedError(Kind.STOPPED, "Stopped; nothing was left half-made.")
        return EndedError(
            Kind.FAULT,
            "The process that made the sheets ended before it had finished, perhaps for want of memory.",
            remedy="Close other programs and ask for it again.",
        )

    def _forget(self) -> None:
        with self._lock:
            line, self._line = self._line, None
            process, self._process = self._process, None
        if line is not None:
            line.close()
        if process is not None and process.is_alive():
            _kill(process.pid)
            process.join(_ENDING_S)


def _kill(pid: int | None) -> None:
    """End a process and all that it started."""
    import psutil

    with contextlib.suppress(psutil.Error):
        process = psutil.Process(pid)
        started = process.children(recursive=True)
        for one in (process, *started):
            with contextlib.suppress(psutil.Error):
                one.kill()


def _work(line: Connection) -> None:
    """The process's own side: one piece of work after another until the line is closed."""
    # Ctrl-C reaches every process of a terminal; when to end is for the one that started us to say.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _step_back()
    while True:
        try:
            function, request = line.recv()
        except (EOFError, OSError):
            return
        line.send(_done(function, request, line))


def _done(function: Callable[[Any, Progress], Any], request: Any, line: Connection) -> tuple[str, Any]:
    try:
        return "result", function(request, lambda words, share: line.send(("progress", (words, share))))
    except WrapwrightError as error:
        return "error", error
    except MemoryError:
        return "error", WrapwrightError(Kind.FAULT, "There was not enough memory.", remedy="Close other programs.")
    except Exception as error:
        import traceback

        traceback.print_exc(file=sys.stderr)
        name = type(error).__name__
        return "error", WrapwrightError(Kind.FAULT, f"Something went wrong inside wrapwright ({name}).")


def _step_back() -> None:
    """Let others go first, and end with the process that started us, as far as the system lets us."""
    import psutil

    with contextlib.suppress(psutil.Error, OSError):
        lower = psutil.BELOW_NORMAL_PRIORITY_CLASS if os.name == "nt" else _LOWER
        psutil.Process().nice(lower)
    if sys.platform == "linux":
        with contextlib.suppress(OSError, AttributeError, ImportError):
            import ctypes

            ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL, 0, 0, 0)
