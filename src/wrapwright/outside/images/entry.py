"""One file a read picture in the cache: its samples first, then what they mean, then a seal."""

from __future__ import annotations

import contextlib
import json
import mmap
import os
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError

try:
    from isal.isal_zlib import crc32
except ImportError:  # the same sum, slower
    from zlib import crc32

# Layout: samples | ICC profile | JSON | length of samples, profile, JSON (8 bytes each) | CRC-32 of all before | mark.
_MARK = b"wrapwright art 1\n"
_NUMBERS = 3 * 8 + 4
_TAIL = _NUMBERS + len(_MARK)
_BLOCK = 8 << 20
_ATTEMPTS = 20  # a virus scanner or a reader on Windows may hold a file for a moment


@dataclass(frozen=True, eq=False)
class Entry:
    """A sealed entry: where its samples are, its profile and its description."""

    file: Path
    samples: int
    icc: bytes
    words: dict[str, Any]


def seal(samples: Path, destination: Path, *, icc: bytes, words: dict[str, Any]) -> None:
    """Make the child's sample file (which is used up) a sealed entry at `destination`, all at once."""
    text = json.dumps(words, ensure_ascii=False, sort_keys=True).encode("utf-8")
    size = samples.stat().st_size
    with samples.open("r+b") as file:
        check = _crc_of(file.fileno(), size)
        tail = icc + text + b"".join(n.to_bytes(8, "little") for n in (size, len(icc), len(text)))
        check = crc32(tail, check)
        file.seek(size)
        file.write(tail + check.to_bytes(4, "little") + _MARK)
    destination.parent.mkdir(parents=True, exist_ok=True)
    _replace(samples, destination)


def opened(file: Path) -> Entry | None:
    """Return the entry at `file`, or None when there is none or it is cut short, changed or of another make."""
    try:
        with file.open("rb") as stream:
            return _checked(file, stream.fileno(), os.fstat(stream.fileno()).st_size)
    except (OSError, ValueError):
        return None


def _checked(file: Path, number: int, size: int) -> Entry | None:
    """Return the entry when every length and its check sum agree."""
    if size < _TAIL:
        return None
    with mmap.mmap(number, 0, access=mmap.ACCESS_READ) as held:
        tail = held[size - _TAIL :]
        if tail[_NUMBERS:] != _MARK:
            return None
        samples, icc, text = (int.from_bytes(tail[at : at + 8], "little") for at in (0, 8, 16))
        if samples + icc + text + _TAIL != size:
            return None
        with memoryview(held) as view:
            check = _crc(view, size - _TAIL + 24)
        if check != int.from_bytes(tail[24:28], "little"):
            return None
        words = json.loads(held[samples + icc : samples + icc + text])
        return Entry(file, samples, held[samples : samples + icc], dict(words))


def _crc_of(number: int, size: int) -> int:
    """Return the CRC-32 of the first `size` bytes of an open file."""
    if size == 0:
        return 0
    with mmap.mmap(number, size, access=mmap.ACCESS_READ) as held, memoryview(held) as view:
        return _crc(view, size)


def _crc(view: memoryview, size: int) -> int:
    """Return the CRC-32 of the first `size` bytes."""
    check = 0
    for start in range(0, size, _BLOCK):
        with view[start : min(start + _BLOCK, size)] as block:
            check = crc32(block, check)
    return int(check)


def _replace(source: Path, destination: Path) -> None:
    """Rename over the destination, waiting for a reader that holds it (Windows)."""
    for attempt in range(_ATTEMPTS):
        try:
            source.replace(destination)
        except PermissionError:
            if attempt + 1 == _ATTEMPTS:
                break
            time.sleep(0.05)
        else:
            return
    with contextlib.suppress(OSError):
        source.unlink()
    if opened(destination) is None:
        message = "The cache holds a damaged picture that another program keeps open, so it cannot be replaced."
        raise WrapwrightError(Kind.SETUP, message, remedy="Close other programs that read the cache, then try again.")
