"""What others see in our PDFs."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pypdfium2 as pdfium
from tests.witness import need


def spoken(pdf: bytes, folder: Path) -> str:
    """The words that poppler reads, spaces evened out."""
    file = folder / "read.pdf"
    file.write_bytes(pdf)
    done = subprocess.run([need("pdftotext"), "-raw", str(file), "-"], capture_output=True, check=True)
    return re.sub(r"\s+", " ", done.stdout.decode("utf-8"))


def fonts(pdf: bytes, folder: Path) -> list[list[str]]:
    """Poppler's table of fonts: rows of name, ..., emb, sub, uni, object, generation."""
    file = folder / "fonts.pdf"
    file.write_bytes(pdf)
    done = subprocess.run([need("pdffonts"), str(file)], capture_output=True, check=True)
    return [line.split() for line in done.stdout.decode("utf-8").splitlines()[2:]]


def letters(pdf: bytes) -> list[tuple[int, str, float, tuple[float, float, float, float]]]:
    """Page, letter, size in points and box (left, bottom, right, top in points) of each visible letter, by PDFium."""
    document = pdfium.PdfDocument(pdf)
    out = []
    for number, page in enumerate(document):
        text = page.get_textpage()
        whole = text.get_text_range()
        out.extend(
            (number, whole[i], pdfium.raw.FPDFText_GetFontSize(text, i), text.get_charbox(i))
            for i in range(min(text.count_chars(), len(whole)))
            if not whole[i].isspace()
        )
        text.close()
        page.close()
    document.close()
    return out


def pages(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of each page in points, by PDFium."""
    document = pdfium.PdfDocument(pdf)
    sizes = [page.get_size() for page in document]
    document.close()
    return sizes
