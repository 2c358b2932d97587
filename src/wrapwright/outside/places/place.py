"""Files put into a place that many machines reach, and fetched from it: whole or not at all, their hash held to."""

from __future__ import annotations

import secrets
import shutil
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, BinaryIO, TypeVar

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.places.faults import is_final, reason_of
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.system.files import replace as renamed

Result = TypeVar("Result")

TRIES = 6
WAIT_S = 0.5  # before the second try; twice as long before each further one: 15.5 s in all
ANSWER_S = 30.0  # so long a store may say nothing
SLOWEST = 100_000  # bytes a second that it takes at the least
_CHUNK = 1 << 20


@dataclass(frozen=True)
class Place:
    """A folder or a store of objects; names in it are relative, parted by "/".

    Attributes:
        address: as it was given, for sentences and for other machines.
        system: the file system of fsspec.
        root: where it begins there.
        local: whether it is a folder: there a file is written aside and renamed; a store puts an object as a whole.
        wait_s: see WAIT_S.
        answer_s: see ANSWER_S.
        ended: when it is set, nothing is tried again: nobody waits for it any more.
    """

    address: str
    system: Any
    root: str
    local: bool
    wait_s: float = WAIT_S
    answer_s: float = ANSWER_S
    ended: threading.Event = field(default_factory=threading.Event, compare=False, repr=False)

    def put_file(self, source: Path, name: str) -> None:
        """Put a file's content under a name; who reads that name finds the old content or the new one.

        Raises:
            WrapwrightError: unusable, when it may not be written or has no room; unreachable, when it does not answer.
        """
        self._put(name, lambda: self._put_file(source, name))

    def put_bytes(self, data: bytes, name: str) -> None:
        """Put bytes under a name; see `put_file`."""
        self._put(name, lambda: self._put_bytes(data, name))

    def put_part(self, source: Path, sha256: str) -> str:
        """Return the name under which a file stands by its hash, put there unless it stands there already."""
        name = part_name(sha256)
        if not self.has(name):
            self.put_file(source, name)
        return name

    def has(self, name: str) -> bool:
        """Return whether something stands under a name."""
        return bool(self._tried(f"{name} cannot be looked for in", lambda: self.system.exists(self._path(name))))

    def bytes_of(self, name: str) -> bytes | None:
        """Return what stands under a name, None where nothing does; for small things."""
        try:
            data: bytes = self._tried(f"{name} cannot be read from", lambda: self.system.cat_file(self._path(name)))
        except FileNotFoundError:
            return None
        return data

    def fetch(self, name: str, target: Path, sha256: str) -> None:
        """Write what stands under a name into a file, whose folder must exist, if its bytes have this hash.

        Raises:
            WrapwrightError: unusable, when it is not there, when its bytes are others (after some tries), or when the
                file cannot be written; unreachable, when the place does not answer.
        """

        def once() -> None:
            aside = target.with_name(f".{target.name[:60]}.{secrets.token_hex(6)}")
            try:
                self._get(name, aside, sha256)
                renamed(aside, target)
            finally:
                aside.unlink(missing_ok=True)

        try:
            self._tried(f"{name} cannot be fetched from", once)
        except FileNotFoundError as error:
            remedy = "Make it again: what is missing is put there anew."
            raise unusable(f"{name} is not in {self.address} any more.", remedy=remedy) from error
        except _OtherBytesError as error:
            remedy = "Delete it there and make it again."
            raise unusable(f"{name} in {self.address} has other bytes than it should.", remedy=remedy) from error

    def check(self) -> None:
        """Put a few bytes there and read them back, so that what is wrong with the place is told before the work.

        Raises:
            WrapwrightError: as `put_file`; unusable, when it gives back something else.
        """
        data = b"Wrapwright keeps parts of lists here; they may be deleted while none is being made.\n"
        self.put_bytes(data, "about.txt")
        if self.bytes_of("about.txt") != data:
            raise unusable(f"{self.address} does not give back what was put there.", remedy="Name another place.")

    def _path(self, name: str) -> str:
        return f"{self.root}/{name}"

    def _put(self, name: str, step: Callable[[], None]) -> None:
        words = f"{name} cannot be put into"
        try:
            self._tried(words, step)
        except FileNotFoundError as error:
            remedy = (
                f"{'Make a folder that all machines see' if self.local else 'Make the bucket'}, or name another place."
            )
            raise unusable(f"{words} {self.address}: {reason_of(error)}.", remedy=remedy) from error

    def _put_file(self, source: Path, name: str) -> None:
        if self.local:
            self._written(name, lambda stream: _copied(source, stream))
        else:
            self.system.put_file(str(source), self._path(name), timeout=self._longest(source.stat().st_size))

    def _put_bytes(self, data: bytes, name: str) -> None:
        if self.local:
            self._written(name, lambda stream: stream.write(data))
        else:
            self.system.pipe_file(self._path(name), data, timeout=self._longest(len(data)))

    def _longest(self, size: int) -> float:
        """Return how long a store may take so many bytes: its library would wait for leave to send for ever."""
        return self.answer_s + size / SLOWEST

    def _written(self, name: str, write: Callable[[BinaryIO], object]) -> None:
        target = Path(self._path(name))
        target.parent.mkdir(parents=True, exist_ok=True)
        aside = target.with_name(f".{target.name[:60]}.{secrets.token_hex(6)}")
        try:
            with aside.open("xb") as stream:
                write(stream)
            renamed(aside, target)
        finally:
            aside.unlink(missing_ok=True)

    def _get(self, name: str, target: Path, sha256: str) -> None:
        self.system.get_file(self._path(name), str(target))
        if file_sha256(target) != sha256:
            raise _OtherBytesError(name)

    def _tried(self, words: str, step: Callable[[], Result]) -> Result:
        """Return what a step returns, tried again a few times where that may help.

        Raises:
            FileNotFoundError: what it reads is not there.
        """
        wait = self.wait_s
        for left in reversed(range(TRIES)):
            try:
                return step()
            except (WrapwrightError, FileNotFoundError):
                raise
            except _OtherBytesError:
                if not left or self.ended.is_set():
                    raise
            except Exception as error:
                if is_final(error):
                    remedy = "Free some room, mend the rights, or name another place; what was made so far is kept."
                    raise unusable(f"{words} {self.address}: {reason_of(error)}.", remedy=remedy) from error
                if not left or self.ended.is_set():
                    message = f"{words} {self.address}, tried {TRIES - left} times: {reason_of(error)}."
                    remedy = "Start it again when the place answers; what was made so far is kept."
                    raise WrapwrightError(Kind.UNREACHABLE, message, remedy=remedy) from error
            self.ended.wait(wait)
            wait *= 2
        raise AssertionError("the last try returns or raises")  # pragma: no cover


class _OtherBytesError(Exception):
    """What was read is not what its hash says."""


def part_name(sha256: str) -> str:
    """Return the name of a part in a place; 256 folders, since some systems are slow with many files in one."""
    return f"parts/{sha256[:2]}/{sha256}"


def _copied(source: Path, stream: BinaryIO) -> None:
    with source.open("rb") as content:
        shutil.copyfileobj(content, stream, _CHUNK)
