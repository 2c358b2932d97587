"""Files kept once each under their content's hash, and gone when nothing needs them."""

from __future__ import annotations

import hashlib
import os
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.contents import COMING, content_file, settle, staged, tidy
from wrapwright.outside.store.jobfolders import fill, job_folder
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.designs import add_design_row, name_file
from wrapwright.outside.store.rows.files import Looked, add_picture_row, is_kept, remove_picture_row

NOW = datetime(2026, 5, 2, tzinfo=UTC)
LOOKED = Looked("png", 3, 4)


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "data")


def keep(store: Store, file: Path, *, move: bool = False) -> str:
    with staged(store, file, move=move) as come, store.writing() as connection:
        settle(store, connection, come, NOW)
        add_picture_row(connection, come.sha256, file.name, LOOKED, NOW)
    return come.sha256


def files(store: Store) -> list[str]:
    return sorted(one.name for one in (store.folder / "pictures").rglob("*") if one.is_file())


@pytest.mark.parametrize("move", [False, True])
def test_a_file_lies_under_its_hash(store: Store, tmp_path: Path, move: bool) -> None:
    source = tmp_path / "a.png"
    source.write_bytes(b"picture" * 1000)
    sha256 = hashlib.sha256(b"picture" * 1000).hexdigest()
    assert keep(store, source, move=move) == sha256
    assert content_file(store, sha256) == store.folder / "pictures" / sha256[:2] / sha256
    assert content_file(store, sha256).read_bytes() == b"picture" * 1000
    assert source.exists() is not move
    assert files(store) == [sha256]


def test_the_same_content_is_kept_once(store: Store, tmp_path: Path) -> None:
    for name in ("a.png", "b.png"):
        (tmp_path / name).write_bytes(b"same")
        keep(store, tmp_path / name)
    assert len(files(store)) == 1


def test_a_kept_file_may_only_be_read(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"x")
    kept = content_file(store, keep(store, tmp_path / "a.png"))
    assert not kept.stat().st_mode & 0o222


def test_a_kept_file_that_was_cut_short_is_mended_by_bringing_it_again(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"whole")
    kept = content_file(store, keep(store, tmp_path / "a.png"))
    kept.chmod(0o600)
    kept.write_bytes(b"who")
    keep(store, tmp_path / "a.png")
    assert kept.read_bytes() == b"whole"


def test_what_fails_leaves_nothing(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"x")
    with pytest.raises(RuntimeError), staged(store, tmp_path / "a.png"):
        raise RuntimeError
    assert files(store) == []
    with pytest.raises(WrapwrightError) as caught, staged(store, tmp_path / "none.png"):
        pass
    assert caught.value.kind is Kind.UNUSABLE
    assert files(store) == []


def test_a_folder_that_cannot_be_written_is_named(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"x")
    store.folder.mkdir()
    (store.folder / "pictures").write_text("in the way", encoding="utf-8")
    with pytest.raises(WrapwrightError) as caught, staged(store, tmp_path / "a.png"):
        pass
    assert caught.value.kind is Kind.UNREACHABLE


def test_what_nothing_refers_to_goes(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"a")
    (tmp_path / "b.png").write_bytes(b"b")
    one, other = keep(store, tmp_path / "a.png"), keep(store, tmp_path / "b.png")
    assert tidy(store) == ()
    with store.writing() as connection:
        remove_picture_row(connection, one)
    assert tidy(store) == (one,)
    assert files(store) == [other]
    with store.reading() as connection:
        assert (is_kept(connection, one), is_kept(connection, other)) == (False, True)


def test_what_a_crash_left_behind_goes_in_time(store: Store, tmp_path: Path) -> None:
    """A file settled without its row, and files beside their place: yesterday's and one of this moment."""
    (tmp_path / "a.png").write_bytes(b"a")
    keep(store, tmp_path / "a.png")
    home = store.folder / "pictures"
    (home / "ff").mkdir(exist_ok=True)
    (home / "ff" / ("f" * 64)).write_bytes(b"no row")
    for name, age in (("old", 90_000), ("new", 10)):
        file = home / f"{COMING}{name}"
        file.write_bytes(b"half")
        os.utime(file, (time.time() - age, time.time() - age))
    tidy(store)
    assert files(store) == sorted([f"{COMING}new", hashlib.sha256(b"a").hexdigest()])


def test_folders_of_designs_and_makings_that_are_gone(store: Store, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"a")
    sha256 = keep(store, tmp_path / "a.png")
    with store.writing() as connection:
        design = add_design_row(connection, {"format": 1}, (0, 0), NOW)
        name_file(connection, design, sha256, "a.png")
    for number in (design, 77):  # a screen asked for the second just while it was removed
        fill(store, number, [("a.png", sha256)])
    for name in ("78", ".wrapwright-half"):
        (store.folder / "made" / name).mkdir(parents=True)
    tidy(store)
    assert [one.name for one in (store.folder / "designs").iterdir()] == [str(design)]
    assert [one.name for one in (store.folder / "made").iterdir()] == [".wrapwright-half"]
    assert job_folder(store, design).joinpath("a.png").read_bytes() == b"a"
