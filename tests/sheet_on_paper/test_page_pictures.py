"""Whole pages as PNG and TIFF: the same places and lengths as the report says, read by other programs."""

from __future__ import annotations

import math

import numpy as np
import pytest
import pyvips
from PIL import Image
from tests.sheet_on_paper.lettering import set_label
from tests.sheet_on_paper.made import FlatWrap, SheetRequest, raster_of, srgb_profile

from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.mirror import page_frame, page_pixels
from wrapwright.core.sheet.placed import Slip
from wrapwright.outside.pages.png import page_png
from wrapwright.outside.pages.tiff import page_tiff

A4 = SheetRequest(paper="A4", width_mm=210.0, height_mm=297.0, ppi=300)
TAPERED = FlatWrap(210.377, 250.377, 140.0, 5.0)


def two_squares(x, y):
    """Black 20 mm squares round two places of the wall, opposite each other, axes of the flat plane."""
    grey = np.full(x.shape, 255, np.uint8)
    for turn in (90.0, 270.0):
        cx, cy = TAPERED.to_flat(np.asarray(turn), np.asarray(40.0))
        grey[(abs(x - cx) < 10) & (abs(y - cy) < 10)] = 0
    return np.stack([grey] * 3, -1)


@pytest.fixture(scope="module")
def page():
    return arrange(TAPERED, bleed_mm=2.0, sheet=A4, slips=[Slip("Regatta")], set_label=set_label).pages[0]


@pytest.mark.parametrize("kind", ["png", "tiff"])
def test_the_page_is_whole_and_its_squares_are_in_their_places(page, tmp_path, kind):
    frame = page_frame(page.to_page, (page.width_mm, page.height_mm), A4.ppi)
    size = {"width": frame.width_px, "height": frame.height_px, "channels": 3, "ppi": 300, "profile": srgb_profile()}
    packed = raster_of(frame, two_squares)
    file = tmp_path / f"page.{kind}"
    if kind == "png":
        file.write_bytes(page_png(packed.data, **size))
    else:
        pixels = np.full((frame.height_px, frame.width_px, 3), 255, np.uint8)
        with Image.open(_png(packed, size, tmp_path)) as image:
            pixels[:] = np.asarray(image)
        made = page_tiff(lambda a, b: pixels[a:b], **size)
        assert made.pixels_sha256 == packed.pixels_sha256
        file.write_bytes(made.data)
    image = pyvips.Image.new_from_file(str(file))
    per_mm = image.xres
    assert image.width / per_mm == pytest.approx(page.width_mm, abs=25.4 / 300)
    assert image.height / per_mm == pytest.approx(page.height_mm, abs=25.4 / 300)
    rows, columns = np.nonzero(image.numpy()[..., 0] == 0)
    front = columns > (columns.min() + columns.max()) / 2
    centres = [((columns[s] + 0.5).mean() / per_mm, (rows[s] + 0.5).mean() / per_mm) for s in (front, ~front)]
    theta = 40 / 140
    chord = 2 * (210.377 / theta + 40) * math.sin(theta / 4)
    assert math.dist(*centres) == pytest.approx(chord, abs=0.05)
    x, y = TAPERED.to_flat(np.asarray(90.0), np.asarray(40.0))
    expected = page_pixels((page.width_mm, page.height_mm), 300) @ page.to_page @ [float(x), float(y), 1.0]
    assert centres[0] == pytest.approx(tuple(expected[:2] * 25.4 / 300), abs=25.4 / 300)


def _png(packed, size, folder):
    file = folder / "whole.png"
    file.write_bytes(page_png(packed.data, **size))
    return file
