"""A flat blank as pressed: where its outline lies, and its colours by the same law as every piece's."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.core.colour.coating import on_coating
from wrapwright.core.design.frame import seen_frame
from wrapwright.outside.raster.piece.dye import FlatArt
from wrapwright.outside.raster.piece.plate import plate_frame, plate_view

DISC = FlatWrap(80.0, 80.0, 80.0, seam_deg=180.0, plate=Plate("circle"))
SIZE = (400, 300)


def halves() -> FlatArt:
    """Art that is (200, 60, 30) left of the middle and white right of it, bleed in."""
    frame = seen_frame((-42.0, -2.0, 42.0, 82.0), 150)
    pixels = np.full((frame.height_px, frame.width_px, 3), 255, np.uint8)
    pixels[:, : frame.width_px // 2] = (200, 60, 30)
    return FlatArt(pixels, frame)


def test_the_picture_fits_its_size_and_shows_the_disc_in_its_middle() -> None:
    view = plate_view(DISC, halves(), coating=(1.0, 1.0, 1.0), size_px=SIZE)
    high, wide = view.shape[:2]
    assert (wide, high) == (plate_frame(DISC, SIZE).width_px, plate_frame(DISC, SIZE).height_px)
    assert wide <= SIZE[0]
    assert high == SIZE[1]
    solid = view[..., 3] == 255
    pitch = plate_frame(DISC, SIZE).to_flat[0, 0]
    assert solid.sum() * pitch**2 == pytest.approx(np.pi * 40**2, rel=0.02)
    rows, columns = np.nonzero(solid)
    assert (rows.mean(), columns.mean()) == pytest.approx(((high - 1) / 2, (wide - 1) / 2), abs=0.3)


def test_colours_are_the_prints_times_the_coatings() -> None:
    coating = (0.9, 0.8, 0.6)
    view = plate_view(DISC, halves(), coating=coating, size_px=SIZE)
    middle = view.shape[0] // 2
    for column, print_colour in ((0.3, (200, 60, 30)), (0.7, (255, 255, 255))):
        seen = view[middle, int(column * view.shape[1])]
        wanted = on_coating(np.array(print_colour) / 255.0, coating) * 255.0
        assert seen[:3] == pytest.approx(wanted, abs=1.5)
        assert seen[3] == 255
