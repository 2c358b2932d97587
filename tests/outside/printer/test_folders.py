"""Sheets into a watched folder: whole or not there, each copy a file, no other file's place taken."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.printer import folders
from wrapwright.outside.printer.folders import PATTERN, drop, pattern_of

FIELDS = {"title": "Weir Street: the 2nd/3rd", "date": "2026-05-02", "time": "091500", "setup": "Desk"}
CONTENT = b"%PDF-1.7\n" + bytes(3_000_000)


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    file = tmp_path / "sheets.pdf"
    file.write_bytes(CONTENT)
    return file


@pytest.fixture
def watched(tmp_path: Path) -> Path:
    folder = tmp_path / "watched"
    folder.mkdir()
    return folder


def test_each_copy_is_a_file(sheet: Path, watched: Path) -> None:
    made = drop(sheet, watched, PATTERN, FIELDS, copies=3)
    names = [f"Weir-Street--the-2nd-3rd-2026-05-02-{copy}.pdf" for copy in (1, 2, 3)]
    assert [one.name for one in made] == names
    assert sorted(one.name for one in watched.iterdir()) == names
    assert {one.read_bytes() for one in made} == {CONTENT}


def test_a_name_that_is_taken_is_left_alone(sheet: Path, watched: Path) -> None:
    first = drop(sheet, watched, "a-{copy}", FIELDS)
    first[0].write_bytes(b"another's")
    second = drop(sheet, watched, "a-{copy}", FIELDS)
    assert [one.name for one in second] == ["a-1-2.pdf"]
    assert first[0].read_bytes() == b"another's"


def test_no_name_is_seen_before_all_copies_are_whole(
    sheet: Path, watched: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a driver could take up has every byte, and the last copy is whole before the first is to be seen."""
    link = os.link

    def looked(source: Path, target: Path) -> None:
        asides = [one for one in watched.iterdir() if one.name.startswith(".")]
        assert len(asides) == 3
        assert {one.stat().st_size for one in watched.iterdir()} == {len(CONTENT)}
        link(source, target)

    monkeypatch.setattr(folders.os, "link", looked)
    assert len(drop(sheet, watched, PATTERN, FIELDS, copies=3)) == 3


def test_a_full_disk_leaves_nothing(sheet: Path, watched: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    copied: list[None] = []
    copy = folders.shutil.copyfileobj

    def full(*words: object) -> None:
        copied.append(None)
        if len(copied) == 3:
            raise OSError(errno.ENOSPC, "No space left on device")
        copy(*words)

    monkeypatch.setattr(folders.shutil, "copyfileobj", full)
    with pytest.raises(WrapwrightError, match="cannot be written: No space left on device") as caught:
        drop(sheet, watched, PATTERN, FIELDS, copies=4)
    assert caught.value.kind is Kind.UNREACHABLE
    assert "0 of 4 copies were put there" in caught.value.remedy
    assert list(watched.iterdir()) == []


def test_a_stop_leaves_nothing(sheet: Path, watched: Path) -> None:
    def stop(copy: int) -> None:
        if copy == 2:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        drop(sheet, watched, PATTERN, FIELDS, copies=2, step=stop)
    assert list(watched.iterdir()) == []


def test_a_disk_without_links(sheet: Path, watched: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(folders.os, "link", none)
    assert [one.name for one in drop(sheet, watched, "a-{copy}", FIELDS, copies=2)] == ["a-1.pdf", "a-2.pdf"]
    assert [one.name for one in drop(sheet, watched, "a-{copy}", FIELDS)] == ["a-1-2.pdf"]
    assert {one.read_bytes() for one in watched.iterdir()} == {CONTENT}


def test_a_folder_out_of_reach(sheet: Path, tmp_path: Path, watched: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(WrapwrightError, match="is not there") as caught:
        drop(sheet, tmp_path / "none", PATTERN, FIELDS)
    assert caught.value.kind is Kind.UNREACHABLE
    opened = Path.open

    def shut(self: Path, mode: str = "r", **words: object) -> object:  # whoever runs the tests may write anywhere
        if self.parent == watched and "x" in mode:
            raise PermissionError(errno.EACCES, "Permission denied")
        return opened(self, mode, **words)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", shut)
    with pytest.raises(WrapwrightError, match="cannot be written: Permission denied") as caught:
        drop(sheet, watched, PATTERN, FIELDS)
    assert (caught.value.kind, caught.value.where) == (Kind.UNREACHABLE, str(watched))


def test_a_file_that_is_gone(watched: Path, tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError, match="file cannot be read") as caught:
        drop(tmp_path / "none.pdf", watched, PATTERN, FIELDS)
    assert caught.value.kind is Kind.UNUSABLE
    assert list(watched.iterdir()) == []


def test_patterns() -> None:
    assert pattern_of("") == PATTERN
    assert pattern_of("{setup} {title} {copy}.pdf") == "{setup} {title} {copy}"
    for pattern, words in {
        "{titel}-{copy}": r"did you mean \{title\}",
        "{title}": r"has no \{copy\}",
        "{title}-{copy": "without its other half",
        "{copy}}": "without its other half",
    }.items():
        with pytest.raises(WrapwrightError, match=words) as caught:
            pattern_of(pattern)
        assert caught.value.kind is Kind.UNUSABLE


def test_names_that_no_system_would_take(sheet: Path, watched: Path) -> None:
    fields = {**FIELDS, "title": "../../etc/passwd\n" + "x" * 300}
    made = drop(sheet, watched, "{title}-{copy}", fields)
    assert [one.parent for one in made] == [watched]
    assert made[0].suffix == ".pdf"
    assert len(made[0].name.encode()) <= 120
