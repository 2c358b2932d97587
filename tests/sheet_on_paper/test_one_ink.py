"""Raster and outlines of one device colour print alike, and no renderer has anything to say about the file."""

from __future__ import annotations

import subprocess

import numpy as np
import pytest
from tests.sheet_on_paper.made import LETTER, SRGB, FlatWrap, cmyk_printer, make, rgb_printer
from tests.witness import need

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import rectangle

WRAP = FlatWrap(225.4, 225.4, 100.0, 5.0)
NOT_OURS = "warning: ICC support is not available"  # of a mutool built without it
CODES = {3: (51, 140, 89), 4: (40, 155, 89, 26)}


COLOURS = {"driver": lambda: SRGB, "RGB printer": rgb_printer, "CMYK printer": cmyk_printer}


@pytest.fixture(params=COLOURS)
def two_halves(request, tmp_path):
    """The left half of the wrap as raster, the right half as an outline, both of one device colour."""
    colour = COLOURS[request.param]()
    code = np.array(CODES[colour.channels], np.uint8)
    right = PlacedOutline(element=0, copy=0, path=rectangle(0, -5, 120, 105), colour=(0.2, 0.55, 0.35))
    made = make(
        WRAP,
        [right],
        sheet=LETTER,
        colour=colour,
        art=lambda x, y: np.broadcast_to(code, (*x.shape, len(code))),
        ink=lambda _rgb: tuple(code / 255.0),
    )
    return made, made.write(tmp_path)


def drawn(program, pdf):
    """The first page in RGB; the program must not complain."""
    out = pdf.with_suffix(".ppm")
    commands = {
        "pdftoppm": ["-r", "60", "-singlefile", str(pdf), str(out.with_suffix(""))],
        "gs": ["-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=ppmraw", "-r60", f"-sOutputFile={out}", str(pdf)],
        "mutool": ["draw", "-r", "60", "-o", str(out), str(pdf)],
    }
    done = subprocess.run([need(program), *commands[program]], capture_output=True, text=True, check=True)
    complaints = [line for line in (done.stdout + done.stderr).splitlines() if not line.startswith(("page ", NOT_OURS))]
    assert complaints == []
    from PIL import Image

    with Image.open(out) as image:
        return np.array(image.convert("RGB")).astype(int)


@pytest.mark.parametrize("program", ["pdftoppm", "gs", "mutool"])
def test_both_halves_come_out_alike(two_halves, program):
    made, pdf = two_halves
    pixels = drawn(program, pdf)
    left, bottom, right, top = (value * 60 / 25.4 for value in made.page.trim_box)
    row = int(pixels.shape[0] - (bottom + top) / 2)
    one, other = pixels[row, int(left + 40)], pixels[row, int(right - 40)]
    # Renderers convert images through coarser tables than single colours: LittleCMS's 8-bit path is a few codes off.
    assert np.abs(one - other).max() <= 3
    assert np.ptp(one) > 20  # a colour, and not paper or black
