"""Profiles: ours, and those of users, sound or not."""

from __future__ import annotations

import struct
from pathlib import Path

import pytest
from tests.outside.icc.press import cmyk_file, rgb_printer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.icc.profiles import parse, read_printer, srgb_profile


def _refused(tmp_path: Path, data: bytes) -> str:
    file = tmp_path / "printer.icc"
    file.write_bytes(data)
    with pytest.raises(WrapwrightError) as caught:
        read_printer(file, named="printer.icc")
    assert caught.value.kind is Kind.UNUSABLE
    assert "printer.icc" in caught.value.message
    return caught.value.message


def test_our_srgb_has_no_date_of_today_and_opens() -> None:
    ours = srgb_profile()
    assert parse(ours.data, named="x").description == "sRGB IEC61966-2.1"
    assert struct.unpack_from(">6H", ours.data, 24) == (2000, 1, 1, 0, 0, 0)
    assert struct.unpack_from(">I", ours.data)[0] == len(ours.data)
    # ICC.1 clause 7.2: the mark, and D50 as the illuminant.
    assert ours.data[36:40] == b"acsp"
    assert struct.unpack_from(">3i", ours.data, 68) == (63190, 65536, 54061)


def test_printer_profiles_are_read() -> None:
    assert read_printer(cmyk_file(), named="p").space == "cmyk"


def test_an_rgb_printer_is_read(tmp_path: Path) -> None:
    file = tmp_path / "p.icc"
    file.write_bytes(rgb_printer())
    assert (read_printer(file, named="p").space, read_printer(file, named="p").kind) == ("rgb", "prtr")


def test_a_missing_file_is_unusable(tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError, match="cannot be read") as caught:
        read_printer(tmp_path / "none.icc", named="none.icc")
    assert caught.value.kind is Kind.UNUSABLE


def test_damaged_profiles_say_what_is_wrong(tmp_path: Path) -> None:
    whole = rgb_printer()
    assert "0 bytes" in _refused(tmp_path, b"")
    assert "acsp" in _refused(tmp_path, whole[:36] + b"nope" + whole[40:])
    assert f"the file has {len(whole) - 9}" in _refused(tmp_path, whole[:-9])
    assert "colour space" in _refused(tmp_path, whole[:16] + b"HSV " + whole[20:])
    assert "class mntr" in _refused(tmp_path, rgb_printer(kind=b"mntr"))
    assert "from ink to colour" in _refused(tmp_path, rgb_printer(with_back=False))
    _refused(tmp_path, whole[:132] + bytes(len(whole) - 132))


def test_a_screen_profile_is_no_printer(tmp_path: Path) -> None:
    assert "class mntr" in _refused(tmp_path, srgb_profile().data)
