"""A bench without a store, and a small design on a straight and on a tapered blank."""

from __future__ import annotations

import copy
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest

from wrapwright.jobs.bench import Bench, Folders
from wrapwright.outside.system.pool import open_pool

Document = dict[str, Any]

STRAIGHT = {"kind": "straight", "girth": "240 mm", "wall": "100 mm"}
STAR = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 80">'
    '<path d="M10 70L50 5L90 70Z" fill="#0e625b"/><circle cx="50" cy="50" r="14" fill="#f4c20d"/></svg>'
)


@pytest.fixture(scope="session")
def _live_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("live")


@pytest.fixture
def live_bench(tmp_path: Path, _live_cache: Path) -> Bench:
    """A bench that remembers nothing yet; pictures once read stay read."""
    folders = Folders(_live_cache, tmp_path / "data", tmp_path / "fonts")
    return Bench(folders, open_pool(1), lambda: datetime(2026, 1, 1, tzinfo=UTC), 1)


@pytest.fixture
def job_folder(tmp_path: Path) -> Path:
    """A folder with an opaque picture, one with alpha, and a drawing."""
    folder = tmp_path / "job"
    folder.mkdir()
    rows, columns = np.mgrid[0:240, 0:320]
    photo = np.stack([columns * 255 // 319, rows * 255 // 239, (rows + columns) % 256], axis=-1).astype(np.uint8)
    cv2.imwrite(str(folder / "photo.png"), photo)
    away = np.hypot(rows - 120, columns - 160)
    alpha = np.clip((110 - away) * 8, 0, 255).astype(np.uint8)
    cv2.imwrite(str(folder / "badge.png"), np.dstack([photo[..., ::-1], alpha]))
    (folder / "star.svg").write_text(STAR, encoding="utf-8", newline="\n")
    return folder


@pytest.fixture
def design() -> Callable[..., Document]:
    """Return a function that makes a document of a blank and elements."""

    def make(*elements: Document, blank: Document = STRAIGHT, **tables: Any) -> Document:
        return copy.deepcopy({"format": 1, "blank": blank, **tables, "element": list(elements)})

    return make
