"""A sign-off is kept row by row, whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.signing import SignedRow, SignOff
from wrapwright.outside.tables.signed import read_signed, signed_file, signed_rows, write_signed

SIGNED = SignOff("Zoë", "2026-05-02", "a" * 64, "b" * 64, 2)
ROWS = [SignedRow(2, "aa"), SignedRow(4, "bb")]


def test_what_is_written_is_read(tmp_path: Path) -> None:
    file = signed_file(tmp_path / "regatta.toml")
    assert file.name == "regatta.signed.jsonl"
    assert read_signed(file) is None
    write_signed(file, SIGNED, ROWS)
    assert read_signed(file) == SIGNED
    assert list(signed_rows(file)) == ROWS


def test_rows_that_fail_leave_the_earlier_sign_off(tmp_path: Path) -> None:
    file = tmp_path / "regatta.signed.jsonl"
    write_signed(file, SIGNED, ROWS)

    def failing() -> object:
        yield ROWS[0]
        raise WrapwrightError(Kind.UNUSABLE, "the table ends")

    with pytest.raises(WrapwrightError):
        write_signed(file, SIGNED, failing())  # type: ignore[arg-type]
    assert list(signed_rows(file)) == ROWS
    assert [one.name for one in tmp_path.iterdir()] == [file.name]


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    file = tmp_path / "regatta.signed.jsonl"
    file.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(WrapwrightError, match="not UTF-8"):
        read_signed(file)


def test_a_sign_off_cut_short_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "regatta.signed.jsonl"
    write_signed(file, SIGNED, ROWS)
    whole = file.read_text(encoding="utf-8").splitlines(keepends=True)
    file.write_text("".join(whole[:-1]), encoding="utf-8")
    with pytest.raises(WrapwrightError, match="damaged: it holds 1 rows and says 2"):
        list(signed_rows(file))
    file.write_bytes(b"")
    with pytest.raises(WrapwrightError, match=r"empty \(0 bytes\)"):
        read_signed(file)
