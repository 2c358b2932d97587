"""Every test has folders of its own: nothing of the person who runs the tests is read or written."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("house", derandomize=True, deadline=None, database=None)
settings.load_profile("house")

# Left out of the fast subset: whole jobs, other programs as witnesses, children, documents, browsers, long series of
# pictures.
SLOW = (
    "browser",
    "house/docs",
    "house/test_run.py",
    "jobs/kept/test_making.py",
    "jobs/names/spread/test_spreading.py",
    "jobs/tray",
    "outside/documents",
    "outside/icc",
    "outside/images",
    "outside/raster/measuring",
    "outside/raster/piece",
    "outside/raster/test_against_naive.py",
    "outside/system/test_child.py",
    "sheet_on_paper",
    "whole",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the slow ones by the place they stand in."""
    here = Path(__file__).parent
    places = [here / slow for slow in SLOW]
    for item in items:
        if any(item.path == place or place in item.path.parents for place in places):
            item.add_marker("slow")


@pytest.fixture(scope="session")
def _own_folders(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    place = tmp_path_factory.mktemp("wrapwright")
    return {f"WRAPWRIGHT_{name.upper()}": place / name for name in ("cache", "data", "fonts")}


@pytest.fixture(autouse=True)
def _apart(_own_folders: dict[str, Path], monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in os.environ if name.startswith("WRAPWRIGHT_")]:
        monkeypatch.delenv(name)
    for name, folder in _own_folders.items():
        monkeypatch.setenv(name, str(folder))
