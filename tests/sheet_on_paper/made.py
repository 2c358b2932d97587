"""Sheets made by hand for the witnesses: a few shapes, one raster, one page."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path as File

import numpy as np
import pikepdf
from PIL import Image
from tests.outside.icc.press import cmyk_file
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.mirror import image_box, image_frame
from wrapwright.core.sheet.placed import PlacedPage, Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.outside.pdf.flate import packed
from wrapwright.outside.pdf.metadata import About
from wrapwright.outside.pdf.sheets import PlacedImage, SheetColour, SheetPage, sheets_pdf

A3 = SheetRequest(paper="A3", width_mm=297.0, height_mm=420.0, ppi=300)
LETTER = SheetRequest()
ABOUT = About("Weir Street regatta", "Wrapwright 0.1.0")


def srgb_profile() -> bytes:
    """The sRGB profile that pikepdf carries."""
    return (File(pikepdf.__file__).parent / "pdfa" / "data" / "sRGB.icc").read_bytes()


def cmyk_printer() -> SheetColour:
    """Ghostscript's default CMYK profile (class prtr); a named skip, or in CI a failure, where it is missing."""
    return SheetColour(4, cmyk_file().read_bytes(), "default CMYK", converted=True)


SRGB = SheetColour(3, srgb_profile(), "sRGB", converted=False)


def rgb_printer() -> SheetColour:
    """A printer profile in RGB: sRGB's tables under a printer's class, which is all the structure asks for."""
    profile = bytearray(srgb_profile())
    profile[12:16] = b"prtr"
    return SheetColour(3, bytes(profile), "an RGB printer", converted=True)


def plain_cmyk(rgb: tuple[float, float, float]) -> tuple[float, ...]:
    """The textbook's complement with the black taken out; the witnesses of structure ask for no more."""
    black = 1.0 - max(rgb)
    return (*((1.0 - value - black) / (1.0 - black) if black < 1 else 0.0 for value in rgb), black)


def square(wrap: FlatWrap, at_deg: float, side_mm: float, *, up_mm: float, element: int = 0) -> PlacedOutline:
    """A black square that keeps its shape, its upright along the wall at its centre."""
    place = Placement(wrap, wrap.turn_of(at_deg), up_mm)
    half = side_mm / 2.0
    path = rectangle(-half, -half, half, half).mapped(place.to_flat)
    return PlacedOutline(element=element, copy=0, path=path, colour=(0.0, 0.0, 0.0))


def raster_of(frame: Frame, art, *, channels: int = 3):
    """Strips of `art(x, y) -> (..., channels) uint8` looked up at pixel centres."""

    def strip(first: int, last: int) -> np.ndarray:
        px, py = np.meshgrid(np.arange(frame.width_px) + 0.5, np.arange(first, last) + 0.5)
        m = frame.to_flat
        x, y = m[0, 0] * px + m[0, 1] * py + m[0, 2], m[1, 0] * px + m[1, 1] * py + m[1, 2]
        return art(x, y)

    return packed(strip, width=frame.width_px, height=frame.height_px, channels=channels)


@dataclass
class Made:
    pdf: bytes
    page: PlacedPage

    def write(self, folder: File, name: str = "sheets.pdf") -> File:
        file = folder / name
        file.write_bytes(self.pdf)
        return file


def make(wrap, items=(), *, sheet=A3, art=None, colour=SRGB, ink=lambda rgb: rgb, bleed=2.0, slips=None) -> Made:
    slips = slips or [Slip("Weir Street regatta", 1, 1, "Ada")]
    pages = arrange(wrap, bleed_mm=bleed, sheet=sheet, slips=slips, set_label=set_label).pages
    images = ()
    if art is not None:
        box = image_box(pages[0].bleed_box, sheet.ppi)
        frame = image_frame(pages[0].to_page, box, sheet.ppi)
        images = (PlacedImage(raster_of(frame, art, channels=colour.channels), box),)
    sheets = [SheetPage(page, images, tuple(items)) for page in pages]
    return Made(sheets_pdf(sheets, colour=colour, ink=ink, about=ABOUT), pages[0])


def poppler(program: str, pdf: File, dpi: int) -> np.ndarray:
    """The first page in grey by pdftoppm."""
    stem = pdf.with_suffix("")
    subprocess.run([program, "-gray", "-r", str(dpi), "-singlefile", str(pdf), str(stem)], check=True)
    return _grey(stem.with_suffix(".pgm"))


def ghostscript(program: str, pdf: File, dpi: int) -> np.ndarray:
    """The first page in grey by Ghostscript, smoothed edges."""
    out = pdf.with_suffix(".gs.png")
    command = [
        program,
        "-q",
        "-dSAFER",
        "-dBATCH",
        "-dNOPAUSE",
        "-sDEVICE=pnggray",
        "-dGraphicsAlphaBits=4",
        "-dLastPage=1",
        f"-r{dpi}",
        f"-sOutputFile={out}",
        str(pdf),
    ]
    subprocess.run(command, check=True)
    return _grey(out)


def mupdf(program: str, pdf: File, dpi: int) -> np.ndarray:
    """The first page in grey by mutool."""
    out = pdf.with_suffix(".mu.pgm")
    subprocess.run(
        [program, "draw", "-q", "-c", "gray", "-r", str(dpi), "-o", str(out), str(pdf), "1"],
        check=True,
        capture_output=True,
    )
    return _grey(out)


def _grey(file: File) -> np.ndarray:
    image = Image.open(file)
    pixels = np.array(image.convert("L"), dtype=float)
    image.close()
    return pixels


RENDERERS = {"pdftoppm": poppler, "gs": ghostscript, "mutool": mupdf}


def has(program: str) -> bool:
    return shutil.which(program) is not None
