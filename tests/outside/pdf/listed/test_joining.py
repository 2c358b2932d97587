"""Documents of a few pages joined: every page once and in order, however many they are, and the same bytes."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from wrapwright.outside.pdf.listed.joining import _OPEN, joined_pdf


@pytest.mark.parametrize("count", [1, _OPEN, _OPEN + 1, 2 * _OPEN + 5])
def test_every_page_stands_once_and_in_order(tmp_path: Path, count: int) -> None:
    parts = []
    for number in range(count):
        parts.append(tmp_path / f"{number}.pdf")
        with pikepdf.new() as pdf:
            for page in range(2):
                pdf.add_blank_page(page_size=(100 + number, 200 + page))
            pdf.save(parts[-1])
    for name in ("one.pdf", "other.pdf"):
        joined_pdf(parts, tmp_path / name, title="Crew", on="2026-05-02")
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "other.pdf").read_bytes()
    with pikepdf.open(tmp_path / "one.pdf") as whole:
        found = [tuple(map(int, page.MediaBox[2:])) for page in whole.pages]  # type: ignore[arg-type]
        assert str(whole.docinfo.Title) == "Crew"
    assert found == [(100 + number, 200 + page) for number in range(count) for page in range(2)]
