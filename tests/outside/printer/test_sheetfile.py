"""What is to be printed: the size of its pages, and files that cannot be printed as sheets."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pikepdf
import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import Page
from wrapwright.outside.printer.sheetfile import page_of, sha256_of

LETTER = (612, 792)  # points


def pdf(file: Path, *sizes: tuple[float, float], turn: int = 0, password: str = "") -> Path:
    with pikepdf.new() as made:
        for size in sizes:
            page = made.add_blank_page(page_size=size)
            if turn:
                page.Rotate = turn
        made.save(file, encryption=pikepdf.Encryption(user=password, owner=password) if password else None)
    return file


def test_the_size_of_the_pages(tmp_path: Path) -> None:
    assert page_of(pdf(tmp_path / "a.pdf", LETTER, LETTER)) == Page(pytest.approx(215.9), pytest.approx(279.4), 2)
    lying = page_of(pdf(tmp_path / "b.pdf", LETTER, turn=90))
    assert (lying.width_mm, lying.height_mm) == (pytest.approx(279.4), pytest.approx(215.9))


@pytest.mark.parametrize("sizes", [(), (LETTER, (595.28, 841.89))], ids=["no pages", "two sizes"])
def test_pages_that_are_no_sheets(tmp_path: Path, sizes: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(WrapwrightError, match=r"no pages|Page 2 is 210\.0 x 297\.0 mm, page 1 215") as caught:
        page_of(pdf(tmp_path / "a.pdf", *sizes))
    assert caught.value.kind is Kind.UNUSABLE


def test_what_is_no_pdf(tmp_path: Path) -> None:
    file = tmp_path / "a.pdf"
    for content in (b"", b"\x89PNG\r\n", b"%PDF-1.7\nnonsense"):
        file.write_bytes(content)
        with pytest.raises(WrapwrightError, match=r"no PDF|no pages") as caught:
            page_of(file)
        assert (caught.value.kind, caught.value.where) == (Kind.UNUSABLE, str(file))
    with pytest.raises(WrapwrightError, match="wants a password"):
        page_of(pdf(tmp_path / "locked.pdf", LETTER, password="secret"))


def test_its_content_is_known_again(tmp_path: Path) -> None:
    file = tmp_path / "a.pdf"
    file.write_bytes(bytes(3_000_000) + b"x")
    assert sha256_of(file) == hashlib.sha256(file.read_bytes()).hexdigest()
    for lost, kind in ((tmp_path / "none.pdf", Kind.MISSING), (tmp_path, Kind.UNUSABLE)):
        with pytest.raises(WrapwrightError) as caught:
            sha256_of(lost)
        assert caught.value.kind is kind
