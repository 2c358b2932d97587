"""A design's job folder: kept files under the names that documents use."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.contents import content_file
from wrapwright.outside.store.jobfolders import clear, fill, job_folder
from wrapwright.outside.store.place import Store

SHA = "ab" * 32


@pytest.fixture
def store(tmp_path: Path) -> Store:
    store = Store(tmp_path)
    file = content_file(store, SHA)
    file.parent.mkdir(parents=True)
    file.write_bytes(b"picture")
    file.chmod(0o400)
    return store


def no_links(_source: object, _target: object) -> None:
    raise OSError(errno.EPERM, "no links here")


@pytest.mark.parametrize("links", [True, False])
def test_files_are_brought_linked_or_copied(store: Store, monkeypatch: pytest.MonkeyPatch, links: bool) -> None:
    if not links:
        monkeypatch.setattr(os, "link", no_links)
    fill(store, 7, [("crest.png", SHA)])
    file = job_folder(store, 7) / "crest.png"
    assert file.read_bytes() == b"picture"
    assert file.samefile(content_file(store, SHA)) is links
    assert [one.name for one in file.parent.iterdir()] == ["crest.png"]


def test_what_is_missing_or_cut_short_is_brought_again(store: Store) -> None:
    fill(store, 7, [("a.png", SHA), ("b.png", SHA)])
    folder = job_folder(store, 7)
    (folder / "a.png").unlink()
    (folder / "b.png").unlink()
    (folder / "b.png").write_bytes(b"pic")
    fill(store, 7, [("a.png", SHA), ("b.png", SHA)])
    assert {one.name: one.read_bytes() for one in folder.iterdir()} == {"a.png": b"picture", "b.png": b"picture"}


def test_a_stranger_of_the_same_size_is_replaced_when_asked(store: Store) -> None:
    folder = job_folder(store, 7)
    folder.mkdir(parents=True)
    (folder / "a.png").write_bytes(b"PICTURE")
    fill(store, 7, [("a.png", SHA)])
    assert (folder / "a.png").read_bytes() == b"PICTURE"
    fill(store, 7, [("a.png", SHA)], anew=True)
    assert (folder / "a.png").read_bytes() == b"picture"


def test_a_kept_file_that_is_gone_is_named(store: Store) -> None:
    with pytest.raises(WrapwrightError) as caught:
        fill(store, 7, [("lost.png", "cd" * 32)])
    assert caught.value.kind is Kind.UNREACHABLE
    assert "lost.png" in caught.value.message


def test_a_folder_is_cleared_and_its_content_stays(store: Store) -> None:
    fill(store, 7, [("a.png", SHA)])
    clear(store, 7)
    clear(store, 8)
    assert not job_folder(store, 7).exists()
    assert content_file(store, SHA).read_bytes() == b"picture"
