"""Documents of a few pages joined: every page once and in order, however many they are, and the same bytes."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from numpy.typing import NDArray

from wrapwright.outside.pdf.listed.joining import joined_pdf


@pytest.mark.parametrize("count", [1, 2, 70])
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


def test_pages_look_as_they_did_and_keep_their_words(tmp_path: Path) -> None:
    """Held against what pdfium draws of each part: fonts, what is inherited from above, odd names and strings."""
    from wrapwright.outside.documents.names.handling import (
        HandlingList,
        TrayGroup,
        TrayLine,
        handling_part,
        handling_words,
    )

    data = HandlingList("Crew", "All.", ("So.",), ("Hot.",), [TrayGroup("Stack 1", 110)], "Foot (1)", "", "A4")
    lines = (TrayLine(number, f"Zoë (Ångst) \\ {number}", number + 1, "mug", 1) for number in range(1, 111))
    parts = []
    for number, made in enumerate(handling_words(data, lines)):
        parts.append(tmp_path / f"{number}.pdf")
        parts[-1].write_bytes(handling_part(made, cache=tmp_path / "cache", on=""))
    parts.append(tmp_path / "odd.pdf")
    with pikepdf.new() as pdf:
        pdf.add_blank_page(page_size=(90, 60))
        pdf.pages[0].obj["/Odd#Name (1)"] = pikepdf.String("Łódź)\\(")
        pdf.pages[0].obj["/Back"] = pdf.pages[0].obj
        box = pdf.pages[0].obj.MediaBox
        del pdf.pages[0].obj["/MediaBox"]
        pdf.Root.Pages.MediaBox = box
        pdf.save(parts[-1])
    joined_pdf(parts, tmp_path / "whole.pdf", title="Łódź (1)")
    seen = [one for part in parts for one in drawn(part)]
    whole = drawn(tmp_path / "whole.pdf")
    assert len(parts) > 2
    assert len(whole) == len(seen)
    for (ours, words), (theirs, said) in zip(whole, seen, strict=True):
        assert words == said
        assert np.array_equal(ours, theirs)
    assert "Zoë (Ångst) \\ 110" in whole[-2][1]
    with pikepdf.open(tmp_path / "whole.pdf", attempt_recovery=False) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.docinfo.Title) == "Łódź (1)"
        assert str(pdf.pages[-1].obj["/Odd#Name (1)"]) == "Łódź)\\("
        assert pdf.pages[-1].obj.Back.objgen == pdf.pages[-1].obj.objgen


def drawn(file: Path) -> list[tuple[NDArray[np.uint8], str]]:
    with pypdfium2.PdfDocument(file) as document:
        return [
            (np.array(page.render(scale=1.0).to_numpy()), page.get_textpage().get_text_range()) for page in document
        ]
