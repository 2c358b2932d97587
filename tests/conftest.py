"""Every test has folders of its own: nothing of the person who runs the tests is read or written."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from wrapwright.outside.documents import lettering
from wrapwright.outside.store.place import Store

if TYPE_CHECKING:
    from sqlalchemy import Engine

# The tests are kept compiled, in folders that git passes over: rewriting all their asserts takes 13 s in each process.
sys.dont_write_bytecode = False

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
    places = {here / slow for slow in SLOW}

    @cache
    def slow(file: Path) -> bool:
        return not places.isdisjoint((file, *file.parents))

    for item in items:
        if slow(item.path):
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


@pytest.fixture(scope="session", autouse=True)
def _copies(tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[bool]]:
    """Let a new store begin as a copy of an empty one: bringing its file up to date table by table takes 70 ms.

    Given is a list whose one value says whether that is done.
    """
    really, lock, done = Store._opened, Lock(), [True]

    @cache
    def empty() -> Path:
        store = Store(tmp_path_factory.mktemp("empty"))
        really(store)
        store.close()
        return store.file

    def opened(store: Store) -> Engine:
        if done[0] and not store.file.exists():
            # Where no copy can be put the product says why, as it does for everyone.
            with lock, suppress(OSError):
                store.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
                aside = store.folder / "empty-store"
                shutil.copyfile(empty(), aside)
                aside.rename(store.file) if not store.file.exists() else aside.unlink()
        return really(store)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Store, "_opened", opened)
        yield done


@pytest.fixture
def stores_from_nothing(_copies: list[bool]) -> Iterator[None]:
    """Have every new store made by its migrations, as it is outside of tests."""
    _copies[0] = False
    yield
    _copies[0] = True


@pytest.fixture(scope="session", autouse=True)
def _cut_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[bool]]:
    """Let a new cache begin with letters that were cut before: cutting them takes a second a weight.

    Given is a list whose one value says whether that is done.
    """
    really, lock, done = lettering._cut, Lock(), [True]
    kept = tmp_path_factory.mktemp("lettering")

    def cut(source: Path, weight: int, target: Path) -> None:
        if not done[0]:
            really(source, weight, target)
            return
        with lock:
            copy = kept / f"{source.stem}-{weight}.ttf"
            if not copy.exists():
                really(source, weight, copy)
        aside = target.with_name(f"{target.name}.{os.getpid()}")
        shutil.copyfile(copy, aside)
        aside.replace(target)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(lettering, "_cut", cut)
        yield done


@pytest.fixture
def letters_from_nothing(_cut_once: list[bool]) -> Iterator[None]:
    """Have letters cut anew, as they are outside of tests."""
    _cut_once[0] = False
    yield
    _cut_once[0] = True
