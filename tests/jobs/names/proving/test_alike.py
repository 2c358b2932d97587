"""What stands in a piece's place and does not show as its row's is found: hidden, cut off, filled or coloured wrongly.

What each operator does: ISO 32000-1:2008, 8.4.4 (line width), 8.5.3 (filling), 8.5.4 (clipping), 14.11.2 (page boxes).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from tests.jobs.names.proving.conftest import Spoilt, contents, words


def own_of(body: bytes, piece: int) -> tuple[bytes, bytes]:
    """Return the content of a piece of a page, and the operators that draw its own outlines."""
    whole = re.search(rb"/Piece <<[^\n]*/Number %d .*?\nEMC" % piece, body, re.DOTALL)
    assert whole is not None
    lines = re.search(rb"q 1 0 0 1 [\d.]+ [\d.]+ cm 0\.015 [^\n]*\n(?:(?!EMC)[^\n]*\n)*f\nQ", whole[0])
    assert lines is not None
    return whole[0], lines[0]


def test_what_hides_cuts_off_or_fills_a_name_otherwise_is_found(spoilt: Spoilt) -> None:
    def change(pages: list[bytes]) -> list[bytes]:
        below, name = own_of(pages[0], 1)
        ground = re.search(rb"q [^\n]*/P\w+ Do Q\n", below)
        assert ground is not None
        pages[0] = pages[0].replace(below, below.replace(name, b"").replace(ground[0], name + b"\n" + ground[0]))
        _, cut = own_of(pages[0], 2)
        pages[0] = pages[0].replace(cut, b"q 0 0 30 30 re W n " + cut + b" Q")
        _, filled = own_of(pages[0], 3)
        pages[0] = pages[0].replace(filled, filled.replace(b"\nf\nQ", b"\nf*\nQ"))
        _, seen = own_of(pages[1], 4)
        pages[1] = pages[1].replace(seen, b"/GS1 gs " + seen)
        return pages

    found = spoilt(lambda folder: contents(folder, change))
    assert words(found) == (
        'Piece 1 (row 2, "Ada") on page 1 of sheets.pdf is drawn in another order: something lies over it.\n'
        'Piece 2 (row 3, "Bob") on page 1 of sheets.pdf is cut off where its row\'s is not.\n'
        'Piece 3 (row 4, "Zoë (2)") on page 1 of sheets.pdf has lines or fillings that are not its row\'s.\n'
        'Piece 4 (row 5, "Łukasz") on page 2 of sheets.pdf has what no piece of ours has: gs.'
    )


def form_in(pdf: pikepdf.Pdf, kind: str) -> pikepdf.Object:
    return next(one for name, one in pdf.pages[0].resources.XObject.items() if name.startswith(f"/{kind}"))


def recoloured(pdf: pikepdf.Pdf) -> None:
    form = form_in(pdf, "V")
    form.write(form.read_bytes().replace(b"cs 0 0 0 scn", b"cs 0 0 0.2 scn"))


def hidden(pdf: pikepdf.Pdf) -> None:
    form_in(pdf, "V").BBox = pikepdf.Array([0, 0, 3, 3])


def shifted(pdf: pikepdf.Pdf) -> None:
    form_in(pdf, "V").Matrix = pikepdf.Array([1, 0, 0, 1, 2, 0])


def inverted(pdf: pikepdf.Pdf) -> None:
    form_in(pdf, "P").Resources.XObject["/Im0"].Decode = pikepdf.Array([1, 0, 1, 0, 1, 0])


def reshaped(pdf: pikepdf.Pdf) -> None:
    image = form_in(pdf, "P").Resources.XObject["/Im0"]
    pixels = image.read_bytes()
    wide = int(image.Width)
    image.write(pixels)
    image.Width, image.Height = image.Height, wide


@pytest.mark.parametrize("change", [recoloured, hidden, shifted, inverted, reshaped])
def test_shared_art_that_shows_otherwise_is_found(spoilt: Spoilt, change: Callable[[pikepdf.Pdf], None]) -> None:
    def spoil(folder: Path) -> None:
        with pikepdf.open(folder / "sheets.pdf", allow_overwriting_input=True) as pdf:
            change(pdf)
            pdf.save(folder / "sheets.pdf")

    found = spoilt(spoil)
    said = (
        "The pixels that pieces in sheets.pdf share" if change in (inverted, reshaped) else "What pieces share on page"
    )
    assert said in words(found)


def turned(page: pikepdf.Page) -> None:
    page.obj.Rotate = 180


def trimmed(page: pikepdf.Page) -> None:
    page.obj.MediaBox = pikepdf.Array([0, 0, 300, 360])


def written_over(page: pikepdf.Page) -> None:
    page.contents_add(b"BT /F1 12 Tf (Eve) Tj ET")


def covered(page: pikepdf.Page) -> None:
    page.contents_add(b"/CS0 cs 1 1 1 scn 100 100 m 200 100 l 200 200 l h f")


def test_a_code_that_is_white_is_found(spoilt: Spoilt) -> None:
    code = re.compile(rb"(?<=cm\n)(?=(?:\d+ \d+ \d+ \d+ re\n)+f)")

    def change(pages: list[bytes]) -> list[bytes]:
        return [code.sub(b"/CS0 cs 1 1 1 scn\n", pages[0], count=1), *pages[1:]]

    assert words(spoilt(lambda folder: contents(folder, change))) == (
        "Page 1 of sheets.pdf has what no sheet of ours has: another ink beside the pieces.\n"
        'The code beside piece 1 (row 2, "Ada") on page 1 of sheets.pdf is not black, or of another size.'
    )


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (covered, "has what no sheet of ours has: a path beside the pieces, another ink beside the pieces."),
        (turned, "has what no sheet of ours has: /Rotate."),
        (trimmed, "is 105.8 × 127.0 mm, and the paper 127.0 × 152.4 mm."),
        (written_over, "has what no sheet of ours has: BT, Tf, Tj, ET."),
    ],
)
def test_a_page_that_prints_otherwise_is_found(
    spoilt: Spoilt, change: Callable[[pikepdf.Page], None], said: str
) -> None:
    def spoil(folder: Path) -> None:
        with pikepdf.open(folder / "sheets.pdf", allow_overwriting_input=True) as pdf:
            change(pdf.pages[1])
            pdf.save(folder / "sheets.pdf")

    assert words(spoilt(spoil)) == f"Page 2 of sheets.pdf {said}"
