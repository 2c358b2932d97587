"""Addresses of places: what is one, and what is said of one that is not."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.places.opening import open_place


def test_a_folder_need_not_be_there_yet(tmp_path: Path) -> None:
    place = open_place(str(tmp_path / "shared" / "lists"))
    assert place.local
    place.check()
    assert (tmp_path / "shared" / "lists" / "about.txt").is_file()


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("lists", "the place lists is a relative path"),
        ("ftp://host.example/lists", "ftp:// is not known"),
        ("file:///tmp", "file:// is not known"),
        ("s3://", "names no bucket"),
    ],
)
def test_what_is_no_place(address: str, words: str) -> None:
    with pytest.raises(WrapwrightError, match=words) as caught:
        open_place(address)
    assert caught.value.kind is Kind.USAGE
    assert caught.value.remedy


def test_a_file_is_no_place(tmp_path: Path) -> None:
    (tmp_path / "x").write_text("x", encoding="utf-8")
    with pytest.raises(WrapwrightError, match="this is a file") as caught:
        open_place(str(tmp_path / "x"))
    assert caught.value.kind is Kind.UNUSABLE


@pytest.mark.parametrize(("missing", "address"), [("fsspec", "/lists"), ("s3fs", "s3://lists/x")])
def test_without_the_extra_it_is_named(missing: str, address: str, monkeypatch: pytest.MonkeyPatch) -> None:
    import fsspec

    fsspec.registry  # noqa: B018 - loaded before one of its parts is hidden
    from fsspec.registry import _registry

    monkeypatch.delitem(_registry, "s3", raising=False)
    monkeypatch.setitem(sys.modules, missing, None)
    with pytest.raises(WrapwrightError) as caught:
        open_place(address)
    assert caught.value.kind is Kind.SETUP
    assert 'pip install "wrapwright[cluster]"' in caught.value.remedy
