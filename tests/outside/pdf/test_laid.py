"""Pages with many pieces: rules of PDF/X-4, one object for each art, short pages whose labels are shared forms."""

from __future__ import annotations

import subprocess
import time
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from tests.outside.pdf.x4_rules import broken
from tests.sheet_on_paper.lettering import set_label
from tests.sheet_on_paper.made import ABOUT, SRGB, cmyk_printer, plain_cmyk, rgb_printer, square
from tests.witness import need

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.sheet.lay.printed.labels import Lettering, needs
from wrapwright.core.sheet.lay.printed.lines import Extras, with_lines
from wrapwright.core.sheet.lay.printed.pages import Pager, label_box
from wrapwright.core.sheet.lay.printed.parts import Asked, parts_of
from wrapwright.core.sheet.lay.printed.values import Good, LaidPage, Slip
from wrapwright.core.sheet.lay.values import Laid, LaidSheet, Layout, LayRequest, Stock
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.outside.codes.matrix import matrix_modules
from wrapwright.outside.pdf.document import SheetColour
from wrapwright.outside.pdf.flate import packed
from wrapwright.outside.pdf.laid import ArtOf, laid_pdf

WRAP = FlatWrap(120.0, 120.0, 60.0, 5.0)
SHEET = SheetRequest(ppi=150)
STEP = 25.4 / 150


def pages_of(count: int, copies: int = 2) -> tuple[list[LaidPage], Good]:
    """So many pages, each with some copies of one wrap above each other."""
    slips = tuple(Slip(number, count * copies, f"A1-{number}") for number in range(1, count * copies + 1))
    codes = {slip.code: matrix_modules(slip.code) for slip in slips}
    pen = Lettering(set_label)
    asked = Asked(copies=len(slips))
    part, level = next(parts_of(WRAP, 1.0, asked, needs(slips, codes, ("Title", "lay first"), pen)))
    good = Good(WRAP, 1.0, part, level, "Title", "", slips)
    request = LayRequest((part,), (Stock("Letter", 215.9, 279.4, (4.0,) * 4),), 3.0)
    sheets = [
        LaidSheet(
            0,
            215.9,
            279.4,
            tuple(Laid(0, page * copies + k, 60 * STEP, (60 + 400 * k) * STEP, 0) for k in range(copies)),
        )
        for page in range(count)
    ]
    pager = Pager([good], SHEET, codes, pen)
    laid = pager.pages(Layout(request, tuple(sheets)))
    done = []
    for number, (page, sheet) in enumerate(zip(laid, sheets, strict=True)):
        labels = {k: box for k, one in enumerate(sheet.pieces) if (box := label_box(one, good)) is not None}
        done.append(with_lines(page, [good], labels, SHEET, pen, Extras(words=("sheet", str(number + 1)))))
    return done, good


def art(colour: SheetColour, count: list[int] | None = None) -> ArtOf:
    """A raster of one grey and a square above it."""

    def paint(_to_page: object, box: tuple[float, float, float, float]) -> object:
        if count is not None:
            count.append(1)
        width, height = round((box[2] - box[0]) / STEP), round((box[3] - box[1]) / STEP)
        strip = lambda first, last: np.full((last - first, width, colour.channels), 200, np.uint8)  # noqa: E731
        return packed(strip, width=width, height=height, channels=colour.channels)

    ink = plain_cmyk if colour.channels == 4 else lambda rgb: rgb
    return ArtOf(colour, ink, bleed_outline(WRAP, 1.0), (square(WRAP, 0, 20, up_mm=30),), paint)


def written(place: Path, pages: list[LaidPage], one: ArtOf) -> Path:
    (place / "scratch").mkdir(exist_ok=True)
    laid_pdf(pages, [one], ppi=150, about=ABOUT, file=place / "sheets.pdf", scratch=place / "scratch")
    return place / "sheets.pdf"


@pytest.mark.parametrize("printer", [rgb_printer, cmyk_printer])
def test_many_pieces_keep_every_rule_of_pdf_x4(printer: object, tmp_path: Path):
    pages, _ = pages_of(2)
    file = written(tmp_path, pages, art(printer()))  # type: ignore[operator]
    assert broken(file.read_bytes()) == []


def test_qpdf_finds_nothing_wrong_and_the_trim_box_is_round_all_pieces(tmp_path: Path):
    pages, good = pages_of(2)
    file = written(tmp_path, pages, art(SRGB))
    done = subprocess.run([need("qpdf"), "--check", str(file)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    with pikepdf.open(file) as pdf:
        trim = [float(value) * 25.4 / 72 for value in pdf.pages[0].TrimBox]
    boxes = [piece.trim_box for piece in pages[0].pieces]
    assert trim == pytest.approx([*boxes[0][:2], *boxes[1][2:]], abs=0.001)
    assert good.part.shape.width_mm == pytest.approx(125.0)


def test_copies_that_lie_alike_on_the_grid_are_painted_once(tmp_path: Path):
    painted: list[int] = []
    pages, _ = pages_of(3)
    file = written(tmp_path, pages, art(SRGB, painted))
    assert len(painted) == 1
    with pikepdf.open(file) as pdf:
        streams = [one for one in pdf.objects if isinstance(one, pikepdf.Stream)]
    assert sum(one.get("/Subtype") == "/Image" for one in streams) == 1


def test_five_hundred_pages_are_short(tmp_path: Path):
    """At most 6 kB a page beyond what all share; a page's own label is its digits' places, its code and its number."""
    few, _ = pages_of(10, copies=1)
    many, _ = pages_of(510, copies=1)
    small = written(tmp_path, few, art(SRGB)).stat().st_size
    clock = time.process_time()
    large = written(tmp_path, many, art(SRGB)).stat().st_size
    seconds = time.process_time() - clock
    assert (large - small) / 500 <= 6000
    assert seconds / 500 <= 0.02  # ten times what it takes: the bench has the figure


def test_the_same_pages_give_the_same_bytes(tmp_path: Path):
    pages, _ = pages_of(2)
    one = written(tmp_path, pages, art(SRGB)).read_bytes()
    again, _ = pages_of(2)
    assert written(tmp_path, again, art(SRGB)).read_bytes() == one
