"""Files appear whole or not at all, and their names are taken by every system."""

from __future__ import annotations

from pathlib import Path
from typing import BinaryIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system import files
from wrapwright.outside.system.files import NAME_BYTES, clean_name, file_sha256, write_aside


def test_bytes_and_writers_replace_the_old_file(tmp_path: Path) -> None:
    place = tmp_path / "a.txt"
    write_aside(place, b"one")
    assert place.read_bytes() == b"one"
    write_aside(place, lambda file: file.write(b"two") and None)
    assert place.read_bytes() == b"two"
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


def test_the_sum_is_that_of_the_content(tmp_path: Path) -> None:
    # "abc" and one million of "a": NIST, examples of SHA-256 (FIPS 180-4).
    (tmp_path / "abc").write_bytes(b"abc")
    (tmp_path / "long").write_bytes(b"a" * 1_000_000)
    assert file_sha256(tmp_path / "abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert file_sha256(tmp_path / "long") == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"


def test_a_failing_writer_leaves_the_old_file_and_nothing_else(tmp_path: Path) -> None:
    place = tmp_path / "a.txt"
    place.write_bytes(b"old")

    def half(file: BinaryIO) -> None:
        file.write(b"ne")
        raise RuntimeError("midway")

    with pytest.raises(RuntimeError, match="midway"):
        write_aside(place, half)
    assert place.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


def test_a_missing_folder_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError, match="cannot be written") as caught:
        write_aside(tmp_path / "none" / "a.txt", b"")
    assert caught.value.kind is Kind.UNUSABLE
    assert "Name a folder that is there" in caught.value.remedy


def _held(monkeypatch: pytest.MonkeyPatch, times: int) -> list[float]:
    """Make renaming fail as on Windows while a reader holds the target, so many times; return the waits."""
    real = Path.replace
    left = [times]
    waits: list[float] = []

    def renaming(self: Path, target: Path) -> Path:
        if left[0] > 0:
            left[0] -= 1
            raise PermissionError(13, "held by a reader")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", renaming)
    monkeypatch.setattr(files.time, "sleep", waits.append)
    return waits


def test_it_waits_for_a_reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "a.txt"
    place.write_bytes(b"old")
    waits = _held(monkeypatch, 3)
    write_aside(place, b"new")
    assert place.read_bytes() == b"new"
    assert len(waits) == 3


def test_a_reader_that_never_lets_go_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "a.txt"
    place.write_bytes(b"old")
    waits = _held(monkeypatch, 10_000)
    with pytest.raises(WrapwrightError, match=r"keeps a\.txt open") as caught:
        write_aside(place, b"new")
    assert caught.value.kind is Kind.REFUSED
    assert sum(waits) == pytest.approx(2.0)
    assert place.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


# Names refused by Windows: the Win32 page "Naming Files, Paths, and Namespaces" (from memory).
@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Weir Street regatta", "Weir Street regatta"),
        ("a/b\\c:d", "a-b-c-d"),
        ("con", "-con"),
        ("LPT1.txt", "-LPT1.txt"),
        ("aux .x", "-aux .x"),
        ("console", "console"),
        ("..", "unnamed"),
        ("  name. ", "name"),
        ("a\x00b\nc", "a-b-c"),
        ("right\u202etxt.exe", "right-txt.exe"),
        ("", "unnamed"),
        ("Zoe\u0308", "Zo\u00eb"),
    ],
)
def test_names(text: str, name: str) -> None:
    assert clean_name(text) == name


@settings(derandomize=True, max_examples=150, deadline=None)
@given(st.text(max_size=300))
def test_any_text_becomes_a_name_that_can_be_written(text: str) -> None:
    name = clean_name(text)
    assert 0 < len(name.encode("utf-8")) <= NAME_BYTES + 1
    assert not set(name) & set('<>:"/\\|?*')
    assert name == name.strip(" .")
    assert clean_name(name) == name
