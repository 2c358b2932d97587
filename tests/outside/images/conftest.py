"""What the tests of pictures share."""

from __future__ import annotations

import mmap
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import pyvips

from wrapwright.outside.images import reading
from wrapwright.outside.images.child import decode


@pytest.fixture
def without_child(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Run the child's work in this process: the same code without the start of an interpreter each time."""

    def here(_module: str, request: dict[str, Any], *, folder: Path, content: Path) -> dict[str, Any]:
        before = Path.cwd()
        os.chdir(folder)
        try:
            with content.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as data:
                return decode.by_kind(data, request)
        finally:
            os.chdir(before)

    monkeypatch.setattr(reading, "run_child", here)
    yield
    pyvips.block_untrusted_set(False)
    pyvips.cache_set_max(100)
