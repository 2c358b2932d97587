"""Pieces of work for a process of its own: each tells, waits, fails or ends as its request says."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError

Progress = Callable[[str, float], None]


def doubled(request: int, progress: Progress) -> tuple[int, int]:
    """Return twice the number, and the process that worked it out."""
    print("libraries may print")  # noqa: T201 - on purpose: it must not mix with the answer
    progress("half of it", 0.5)
    return 2 * request, os.getpid()


def niceness(_request: None, _progress: Progress) -> int:
    """Return by how much it lets others go first."""
    return os.getpriority(os.PRIO_PROCESS, 0)


def waiting(request: str, progress: Progress) -> None:
    """Start a process of its own, write both numbers into the file, and wait for ever."""
    beside = subprocess.Popen([sys.executable, "-c", "import time; time.sleep(60)"])
    Path(request).write_text(f"{os.getpid()} {beside.pid}", encoding="utf-8")
    progress("begun", 0.1)
    time.sleep(60)


def refusing(request: str, _progress: Progress) -> None:
    """Raise a problem of ours."""
    raise WrapwrightError(Kind.CHECKS, request, remedy="Mend it.", where="crest")


def failing(_request: None, _progress: Progress) -> None:
    """Raise something unforeseen."""
    raise ZeroDivisionError("secret words")


def crashing(_request: None, _progress: Progress) -> None:
    """End the process without a word."""
    os._exit(7)
