"""The exact table: the device codes of every 8-bit working colour, computed once and shared by all processes.

Entry r + 256 g + 65536 b holds the device codes in its four bytes (an RGB printer's fourth is 0). It gives the
same bytes as the conversion it was made from, several times faster.
"""

from __future__ import annotations

import contextlib
import hashlib
import mmap
import os
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.outside.icc.conversion import Bytes, Conversion, engine
from wrapwright.outside.system.keeping import make_room, used

ENTRIES = 2**24
FILE_BYTES = 4 * ENTRIES
KEPT_BYTES = 2**30
SLICES = 64
SAMPLES = 4096
THIRD = 3
STALE_SECONDS = 60.0
_FORMAT = "rgb8-u32-1"
_ENDING = ".table"


def table_name(conversion: Conversion) -> str:
    """Return the table's name: SHA-256 of both profiles, intent, black point, LittleCMS version and format."""
    parts = (
        conversion.source.sha256,
        conversion.device.sha256,
        conversion.intent,
        str(conversion.black_point),
        engine(),
        _FORMAT,
    )
    return hashlib.sha256("\n".join(parts).encode("utf-8")).hexdigest()


@dataclass(frozen=True, eq=False)
class Table:
    """An open table. Close it before its file is deleted; no strip may be running then."""

    channels: int
    held: mmap.mmap

    def strip(self, pixels: Bytes) -> Bytes:
        """Return device codes, uint8 (h, w, n), of working codes, uint8 (h, w, 3); safe from several threads."""
        at = cv2.cvtColor(np.ascontiguousarray(pixels), cv2.COLOR_RGB2RGBA).view("<u4")[..., 0]
        np.bitwise_and(at, 0xFFFFFF, out=at)
        found = np.take(np.frombuffer(self.held, "<u4"), at, mode="clip").view(np.uint8)
        found = found.reshape(*pixels.shape[:-1], 4)
        return found if self.channels == 4 else np.ascontiguousarray(found[..., :3])

    def close(self) -> None:
        """Give the memory map back."""
        with contextlib.suppress(BufferError):
            self.held.close()


def open_table(folder: Path, conversion: Conversion) -> Table | None:
    """Return the table when it stands in `folder`, has its size and agrees with the conversion on 4096 colours."""
    file = folder / (table_name(conversion) + _ENDING)
    try:
        if file.stat().st_size != FILE_BYTES:
            file.unlink()
            return None
        with file.open("rb") as stream:
            table = Table(conversion.channels, mmap.mmap(stream.fileno(), 0, access=mmap.ACCESS_READ))
    except OSError:
        return None
    if not _agrees(table, conversion):
        table.close()
        with contextlib.suppress(OSError):
            file.unlink()
        return None
    used(file)
    return table


def _agrees(table: Table, conversion: Conversion) -> bool:
    at = (np.arange(SAMPLES, dtype=np.uint32) * 40503 * 101 + 7) % ENTRIES
    at[:2] = (0, ENTRIES - 1)
    colours = at.astype("<u4").view(np.uint8).reshape(1, -1, 4)[..., :3]
    return bool(np.array_equal(table.strip(colours), conversion.strip(np.ascontiguousarray(colours))))


def build(
    folder: Path, conversion: Conversion, progress: Callable[[float], None] = lambda _share: None
) -> Table | None:
    """Return the table, made now if it is absent; None while another process makes it or the disk refuses.

    Needs about 5 s of one core and, beside the table itself, under 40 MB. `progress` hears shares 0..1.
    """
    table = open_table(folder, conversion)
    if table is not None:
        return table
    file = folder / (table_name(conversion) + _ENDING)
    lock, aside = file.with_suffix(".lock"), file.with_suffix(".part")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if not _locked(lock):
            return None
        try:
            _write(aside, lock, conversion, progress)
            aside.replace(file)
            make_room(folder.glob("*" + _ENDING), limit_bytes=KEPT_BYTES, spared_s=60.0)
        finally:
            for one in (aside, lock):
                one.unlink(missing_ok=True)
    except OSError:
        return None
    return open_table(folder, conversion)


def _locked(lock: Path) -> bool:
    """Return whether the lock is ours now; a lock whose holder has not touched it for a minute is taken over."""
    for _ in range(2):
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
        except FileExistsError:
            with contextlib.suppress(FileNotFoundError):
                if time.time() - lock.stat().st_mtime < STALE_SECONDS:
                    return False
                lock.unlink()
        else:
            return True
    return False


def _write(aside: Path, lock: Path, conversion: Conversion, progress: Callable[[float], None]) -> None:
    size = ENTRIES // SLICES
    with aside.open("wb") as stream:
        for part in range(SLICES):
            at: NDArray[np.uint32] = np.arange(part * size, (part + 1) * size, dtype="<u4")
            colours = np.ascontiguousarray(at.view(np.uint8).reshape(-1, 256, 4)[..., :3])
            codes = np.zeros((size // 256, 256, 4), dtype=np.uint8)
            codes[..., : conversion.channels] = conversion.strip(colours)
            stream.write(codes.data)
            os.utime(lock)
            progress((part + 1) / SLICES)
        stream.flush()
        os.fsync(stream.fileno())


def wanted(folder: Path, conversion: Conversion) -> Table | None:
    """Return the table for one page: the one that stands, or from the third page that wants it a new one.

    None means: convert strip by strip with the conversion itself, which gives the same bytes.
    """
    table = open_table(folder, conversion)
    if table is not None:
        return table
    wishes = folder / (table_name(conversion) + ".wishes")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with wishes.open("ab") as stream:
            stream.write(b".")
        if wishes.stat().st_size < THIRD:
            return None
    except OSError:
        return None
    return build(folder, conversion)
