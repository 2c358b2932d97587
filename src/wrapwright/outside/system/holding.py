"""One program at a time: a file held by the system for as long as the program runs, however it ends."""

from __future__ import annotations

import contextlib
import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_FAR = 1 << 30  # Windows lets nobody read bytes that are locked: these are beyond all that is written
_HELD = {errno.EACCES, errno.EAGAIN, errno.EDEADLK}


class Held(Exception):  # noqa: N818 - no fault: an answer
    """Another program holds the file; `words` is what it wrote there."""

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self.words = words


class Hold:
    """A file that is held; `say` writes what others may read in it."""

    def __init__(self, number: int) -> None:
        self._number = number

    def say(self, words: str) -> None:
        """Write what others may read, in place of what stood there."""
        data = words.encode("utf-8")
        os.ftruncate(self._number, 0)
        os.lseek(self._number, 0, os.SEEK_SET)
        os.write(self._number, data)


@contextmanager
def holding(file: Path) -> Iterator[Hold]:
    """Give the file, held until the block ends; its folder must exist. Where a disk knows no locks nothing is held.

    Raises:
        Held: another program holds it.
    """
    number = os.open(file, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        try:
            _lock(number)
        except OSError as error:
            if error.errno in _HELD:
                raise Held(_words(file)) from error
        hold = Hold(number)
        hold.say("")
        yield hold
        with contextlib.suppress(OSError):
            hold.say("")
    finally:
        os.close(number)


def _words(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8", errors="replace").strip()[:200]
    except OSError:
        return ""


def _lock(number: int) -> None:
    if os.name == "nt":
        import msvcrt

        os.lseek(number, _FAR, os.SEEK_SET)
        msvcrt.locking(number, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
        return
    import fcntl

    fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
