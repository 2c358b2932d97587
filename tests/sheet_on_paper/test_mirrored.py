"""Mirrored exactly once: by correlation with the art as seen, by a mark that has a handedness, and by reading."""

from __future__ import annotations

import subprocess

import numpy as np
import pytest
from PIL import Image
from tests.sheet_on_paper.lettering import set_label
from tests.sheet_on_paper.made import LETTER, RENDERERS, FlatWrap, make
from tests.witness import need

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.frame import seen_frame
from wrapwright.core.design.path import polygon
from wrapwright.core.design.placement import Placement

WRAP = FlatWrap(225.4, 225.4, 100.0, 5.0)


def cloud(x, y):
    """Smooth art without any symmetry."""
    wave = np.sin(x / 9 + 1) + np.sin(x / 23 + y / 13) + np.cos(y / 11 - x / 31 + 0.4)
    grey = np.clip(128 + 40 * wave, 0, 255).astype(np.uint8)
    return np.stack([grey] * 3, -1)


def likeness(one, other):
    one, other = one - one.mean(), other - other.mean()
    return float((one * other).sum() / np.sqrt((one**2).sum() * (other**2).sum()))


def trim_pixels(made, pixels, dpi):
    pitch = 25.4 / dpi
    left, bottom, right, top = made.page.trim_box
    rows = slice(round((made.page.height_mm - top) / pitch), round((made.page.height_mm - bottom) / pitch))
    return pixels[rows, round(left / pitch) : round(right / pitch)]


@pytest.mark.parametrize("program", RENDERERS)
def test_the_page_turned_back_is_the_art_as_seen(tmp_path, program):
    made = make(WRAP, sheet=LETTER, art=cloud)
    printed = trim_pixels(made, RENDERERS[program](need(program), made.write(tmp_path), 100), 100)
    frame = seen_frame((-WRAP.lower_mm / 2, 0.0, WRAP.lower_mm / 2 + 5, 100.0), 100)
    px, py = np.meshgrid(np.arange(printed.shape[1]) + 0.5, np.arange(printed.shape[0]) + 0.5)
    x, y = frame.to_flat[0, 0] * px + frame.to_flat[0, 2], frame.to_flat[1, 1] * py + frame.to_flat[1, 2]
    seen = cloud(x, y)[..., 0].astype(float)
    assert likeness(printed[:, ::-1], seen) > 0.995
    assert abs(likeness(printed, seen)) < 0.5
    assert abs(likeness(printed[::-1], seen)) < 0.5


def flag(wrap, at_deg):
    """A mark like the letter F: its arms point to the viewer's right."""
    corners = [(-6, -12), (-2, -12), (-2, -2), (4, -2), (4, 2), (-2, 2), (-2, 8), (8, 8), (8, 12), (-6, 12)]
    place = Placement(wrap, wrap.turn_of(at_deg), 50.0)
    return PlacedOutline(element=0, copy=0, path=polygon(corners).mapped(place.to_flat), colour=(0.0, 0.0, 0.0))


def test_the_arms_of_an_f_point_to_the_left_on_paper(tmp_path):
    made = make(WRAP, [flag(WRAP, 180.0)], sheet=LETTER)
    pixels = trim_pixels(made, RENDERERS["gs"](need("gs"), made.write(tmp_path), 100), 100)
    rows, columns = np.nonzero(pixels < 128)
    middle = (columns.min() + columns.max()) / 2
    stem = np.bincount(columns).argmax()
    assert stem > middle
    assert rows[columns < middle].mean() < (rows.min() + rows.max()) / 2  # the arms are at the top: not upside down


def read(tesseract, pixels, file):
    Image.fromarray(np.pad(pixels, 40, constant_values=255).astype(np.uint8)).save(file, dpi=(200, 200))
    done = subprocess.run([tesseract, str(file), "-", "--psm", "11"], capture_output=True, text=True, check=True)
    return done.stdout.upper()


def test_the_word_is_read_on_the_page_turned_back_and_not_as_printed(tmp_path):
    tesseract = need("tesseract")
    letters = set_label("LANTERN HARBOUR", 7.0)
    left, _, right, _ = letters.box()
    place = Placement(WRAP, WRAP.turn_of(0.0), 50.0)
    word = PlacedOutline(
        element=0,
        copy=0,
        path=letters.mapped(lambda p: place.to_flat(p - np.array([(left + right) / 2, 3.5]))),
        colour=(0.0, 0.0, 0.0),
    )
    made = make(WRAP, [word], sheet=LETTER)
    page = RENDERERS["pdftoppm"](need("pdftoppm"), made.write(tmp_path), 200)
    piece = trim_pixels(made, page, 200)
    assert "LANTERN" in read(tesseract, piece[:, ::-1], tmp_path / "back.png")
    assert "LANTERN" not in read(tesseract, piece, tmp_path / "printed.png")
    # What stands beside the piece is for the person with the trimmer, and reads the right way.
    page = RENDERERS["pdftoppm"](need("pdftoppm"), made.write(tmp_path), 300)
    trim_pixels(made, page, 300)[:] = 255
    words = read(tesseract, page, tmp_path / "beside.png")
    assert "WEIR STREET" in words
    assert "OFF BY MORE THAN" in words
