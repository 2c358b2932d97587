"""Zip files written the same way every time, and hostile ones refused before anything is unpacked."""

from __future__ import annotations

import errno
import stat
import struct
import zipfile
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system import zips
from wrapwright.outside.system.zips import is_zip, unzip, write_zip


def refused(file: Path, folder: Path) -> str:
    with pytest.raises(WrapwrightError) as caught:
        unzip(file, folder)
    assert caught.value.kind is Kind.UNUSABLE
    return caught.value.message


def zipped(folder: Path, *names: str, **about: int) -> Path:
    file = folder / "x.zip"
    with zipfile.ZipFile(file, "w") as archive:
        for name in names:
            info = zipfile.ZipInfo(name)
            for key, value in about.items():
                setattr(info, key, value)
            archive.writestr(info, b"content")
    return file


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "out").mkdir()
    return tmp_path / "out"


def test_the_same_entries_give_the_same_bytes(tmp_path: Path, folder: Path) -> None:
    (tmp_path / "leaf.svg").write_bytes(b"leaf" * 100_000)
    entries = [("job.toml", "tïtle".encode()), ("leaf.svg", tmp_path / "leaf.svg"), ("Straße.png", b"")]
    write_zip(tmp_path / "one.zip", entries)
    write_zip(tmp_path / "two.zip", entries)
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["job.toml", "leaf.svg", "Straße.png"]
        assert {(one.create_system, one.external_attr >> 16) for one in archive.infolist()} == {(3, 0o100644)}
    unzip(tmp_path / "one.zip", folder)
    assert {one.name: one.read_bytes() for one in folder.iterdir()} == {
        "job.toml": "tïtle".encode(), "leaf.svg": b"leaf" * 100_000, "Straße.png": b"",
    }  # fmt: skip


def test_folders_within_are_kept(tmp_path: Path, folder: Path) -> None:
    unzip(zipped(tmp_path, "art/", "art/deep/leaf.svg"), folder)
    assert (folder / "art" / "deep" / "leaf.svg").read_bytes() == b"content"


@pytest.mark.parametrize(
    "name", ["../out.svg", "a/../../b", "/etc/x", "\\\\host\\x", "c:\\x", "C:x", "..\\x", "a\\..\\..\\x", "d:/x"]
)
def test_places_outside_the_folder(tmp_path: Path, folder: Path, name: str) -> None:
    assert "outside its folder" in refused(zipped(tmp_path, "job.toml", name), folder)
    assert list(folder.iterdir()) == []


def test_links_and_doubles_and_locks(tmp_path: Path, folder: Path) -> None:
    assert "is a link" in refused(zipped(tmp_path, "a", external_attr=(stat.S_IFLNK | 0o777) << 16), folder)
    assert "twice" in refused(zipped(tmp_path, "a.svg", "A.SVG"), folder)
    file = zipped(tmp_path, "a")
    data = bytearray(file.read_bytes())
    for mark, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):  # the general purpose flags, bit 0: encrypted
        place = data.index(mark) + at
        data[place : place + 2] = struct.pack("<H", 1)
    file.write_bytes(bytes(data))
    assert "locked" in refused(file, folder)
    assert list(folder.iterdir()) == []


def test_too_many_and_too_much(tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zips, "MOST_FILES", 2)
    assert "holds 3 files; the most is 2" in refused(zipped(tmp_path, "a", "b", "c"), folder)
    monkeypatch.setattr(zips, "MOST_BYTES", 13)
    assert "the most is 1.3e-08" in refused(zipped(tmp_path, "a", "b"), folder)
    assert list(folder.iterdir()) == []


def test_a_bomb_is_held_to_the_size_it_states(tmp_path: Path, folder: Path) -> None:
    """A file that unpacks to more than its header says ends there, and its sum does not agree."""
    file = tmp_path / "bomb.zip"
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("job.toml", b"\0" * 5_000_000)
    data = bytearray(file.read_bytes())
    for mark, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):  # the uncompressed size
        place = data.index(mark) + at
        data[place : place + 4] = struct.pack("<I", 10)
    file.write_bytes(bytes(data))
    assert "damaged" in refused(file, folder)
    assert sum(one.stat().st_size for one in folder.iterdir()) <= 10


def test_what_is_damaged_or_no_zip_file(tmp_path: Path, folder: Path) -> None:
    (tmp_path / "words.zip").write_text("words", encoding="utf-8")
    assert not is_zip(tmp_path / "words.zip")
    assert not is_zip(tmp_path / "none.zip")
    assert "damaged" in refused(tmp_path / "words.zip", folder)
    file = zipped(tmp_path, "a", "b")
    assert is_zip(file)
    data = bytearray(file.read_bytes())
    data[data.index(b"content")] ^= 1
    file.write_bytes(bytes(data))
    assert "damaged" in refused(file, folder)


def test_folders_too_deep_to_be_removed_again(tmp_path: Path, folder: Path) -> None:
    deep = "/".join(["a"] * 400)
    assert "16 deep" in refused(zipped(tmp_path, "job.toml", f"{deep}/f", f"{deep}/{deep}/f"), folder)
    assert list(folder.iterdir()) == []
    unzip(zipped(tmp_path, "/".join(["a"] * zips.MOST_DEEP)), folder)


def test_a_list_of_files_too_long_to_be_read_at_once(tmp_path: Path, folder: Path) -> None:
    entry = b"PK\x01\x02" + struct.pack("<HHHHHHIIIHHHHHII", 20, 20, *[0] * 7, 1, *[0] * 6) + b"a"
    many = 1 + zips.MOST_LISTED // len(entry)
    end = b"PK\x05\x06" + struct.pack("<HHHHIIH", 0, 0, many & 0xFFFF, many & 0xFFFF, many * len(entry), 0, 0)
    file = tmp_path / "long.zip"
    file.write_bytes(entry * many + end)
    assert "list of files is larger than 8 MB" in refused(file, folder)


def test_a_full_disk_is_not_the_files_fault(tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    file = zipped(tmp_path, "job.toml")
    monkeypatch.setattr(zips.shutil, "copyfileobj", full)
    with pytest.raises(WrapwrightError, match="No space left") as caught:
        unzip(file, folder)
    assert caught.value.kind is Kind.UNREACHABLE
