"""One process of our own that does one long piece of work at a time, and that can be ended at any moment."""

from __future__ import annotations

import contextlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from threading import Lock
from typing import IO, Any, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError

Request = TypeVar("Request")
Result = TypeVar("Result")
Progress = Callable[[str, float], None]

_INSIDE = "wrapwright.outside.system.worker_inside"
_ENDING_S = 5.0
_LENGTH = 8  # bytes before each message that say how long it is


class EndedError(WrapwrightError):
    """The process was ended before it had an answer: by `end`, or by something else."""


class Worker:
    """Runs `function(request, progress) -> result` in a process of lower priority, which it keeps for the next.

    All must pickle, and the function's module must be one that can be imported. One caller runs at a time; `end` may
    come from any thread. The process ends when this one does, however that comes about.
    """

    def __init__(self) -> None:
        """Start nothing: the process comes with the first piece of work."""
        self._process: subprocess.Popen[bytes] | None = None
        self._lock = Lock()
        self._ended = False

    def run(self, function: Callable[[Request, Progress], Result], request: Request, progress: Progress) -> Result:
        """Return what the function returns there; `progress` is called here with what it tells there.

        Raises:
            EndedError: stopped when `end` was called, fault when the process ended by itself.
            WrapwrightError: what the function raised.
        """
        process = self._ready()
        try:
            send(process.stdin, (function, request))
            while True:
                kind, value = receive(process.stdout)
                if kind == "progress":
                    progress(*value)
                elif kind == "error":
                    raise value
                else:
                    result: Result = value
                    return result
        except (EOFError, OSError, ValueError) as error:
            raise self._gone() from error

    def end(self) -> None:
        """End the process at once, with all that it started; the next piece of work gets a new one."""
        with self._lock:
            self._ended = True
            process = self._process
        if process is not None:
            _kill(process)

    def close(self) -> None:
        """End the process and let go of it."""
        self.end()
        self._forget()

    def _ready(self) -> subprocess.Popen[bytes]:
        with self._lock:
            self._ended = False
            if self._process is not None and self._process.poll() is None:
                return self._process
        self._forget()
        # Our own interpreter anew, never a copy of this process: a copy of one with threads may hang. -P keeps the
        # folder that one happens to be in out of its way; without a console of its own, Ctrl-C is not for it.
        process = subprocess.Popen(
            [sys.executable, "-P", "-X", "utf8", "-m", _INSIDE],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            close_fds=True,
            start_new_session=os.name == "posix",
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
        with self._lock:
            self._process = process
        return process

    def _gone(self) -> EndedError:
        with self._lock:
            ended = self._ended
        self._forget()
        if ended:
            return EndedError(Kind.STOPPED, "Stopped; nothing was left half-made.")
        return EndedError(
            Kind.FAULT,
            "The process that makes the sheets ended before it had finished, perhaps for want of memory.",
            remedy="Close other programs and ask for it again.",
        )

    def _forget(self) -> None:
        with self._lock:
            process, self._process = self._process, None
        if process is None:
            return
        _kill(process)
        for pipe in (process.stdin, process.stdout):
            with contextlib.suppress(OSError):  # what was still to be sent has nobody to go to
                if pipe is not None:
                    pipe.close()


def send(pipe: IO[bytes] | None, message: Any) -> None:
    """Write one message into a pipe."""
    data = pickle.dumps(message)
    if pipe is None:  # pragma: no cover - both ends of ours are pipes
        raise EOFError
    pipe.write(len(data).to_bytes(_LENGTH, "little") + data)
    pipe.flush()


def receive(pipe: IO[bytes] | None) -> Any:
    """Return the next message of a pipe; both its ends are programs of ours.

    Raises:
        EOFError: the other side is gone.
    """
    head = pipe.read(_LENGTH) if pipe is not None else b""
    length = int.from_bytes(head, "little")
    data = pipe.read(length) if pipe is not None and len(head) == _LENGTH else b""
    if not length or len(data) < length:
        raise EOFError
    return pickle.loads(data)


def _kill(process: subprocess.Popen[bytes]) -> None:
    """End a process and all that it started."""
    import psutil

    if process.poll() is None:
        with contextlib.suppress(psutil.Error):
            started = psutil.Process(process.pid).children(recursive=True)
            process.kill()
            for one in started:
                with contextlib.suppress(psutil.Error):
                    one.kill()
        process.kill()
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(_ENDING_S)
