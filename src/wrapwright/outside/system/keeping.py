"""Keeping a cache within its size: what was used longest ago goes first, what is held elsewhere stays."""

from __future__ import annotations

import contextlib
import os
import shutil
import time
from collections.abc import Iterable
from pathlib import Path

DAY_S = 86_400.0


def used(file: Path) -> None:
    """Mark a file of a cache as used now."""
    with contextlib.suppress(OSError):
        os.utime(file)


def make_room(files: Iterable[Path], *, limit_bytes: int, spared_s: float = 0.0) -> None:
    """Delete the files used longest ago until the rest has at most `limit_bytes`.

    Files used within the last `spared_s` seconds stay: a running job may be about to open them. So does a file that
    another process holds and the system will not let go (Windows).
    """
    found = []
    for file in files:
        with contextlib.suppress(OSError):
            about = file.stat()
            found.append((about.st_mtime, str(file), about.st_size))
    kept = sum(size for _, _, size in found)
    spared_from = time.time() - spared_s
    for last_used, name, size in sorted(found):
        if kept <= limit_bytes or (spared_s > 0.0 and last_used >= spared_from):
            return
        with contextlib.suppress(OSError):
            Path(name).unlink()
            kept -= size


def sweep(folder: Path, pattern: str, *, older_s: float = DAY_S) -> None:
    """Remove the working folders that killed runs have left: those that match and are older than `older_s` seconds."""
    before = time.time() - older_s
    for one in folder.glob(pattern):
        with contextlib.suppress(OSError):
            if one.is_dir() and one.stat().st_mtime < before:
                shutil.rmtree(one, ignore_errors=True)
