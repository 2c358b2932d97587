"""Lengths and places on the rendered sheet, measured by programs that had no part in making it.

Expected figures are plane geometry: a whole turn is girth + pi t, half of it lies between front and back, and on a
taper half the sector's angle (development of a frustum, any handbook of descriptive geometry).
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import ndimage
from tests.sheet_on_paper.made import LETTER, RENDERERS, FlatWrap, SheetRequest, make, square
from tests.witness import need

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import rectangle

DPI = 600
PIXEL = 25.4 / DPI
THICK = 0.12
A4 = SheetRequest(paper="A4", width_mm=210.0, height_mm=297.0)
STRAIGHT = FlatWrap(225 + math.pi * THICK, 225 + math.pi * THICK, 100.0, 5.0)
TAPERED = FlatWrap(210 + math.pi * THICK, 250 + math.pi * THICK, 140.0, 5.0)


def bar(x, y, width, height):
    return PlacedOutline(element=9, copy=0, path=rectangle(x, y, x + width, y + height), colour=(0.0, 0.0, 0.0))


def ink_of(made, pixels, dpi=DPI):
    """Share of ink within the trim box, and the page mm of the crop's upper left corner."""
    pitch = 25.4 / dpi
    left, bottom, right, top = made.page.trim_box
    height = made.page.height_mm
    rows = slice(math.ceil((height - top) / pitch), math.floor((height - bottom) / pitch))
    columns = slice(math.ceil(left / pitch), math.floor(right / pitch))
    return 1.0 - pixels[rows, columns] / 255.0, (columns.start * pitch, height - rows.start * pitch)


def blobs(made, pixels, dpi=DPI):
    """(x, y, area) in page mm of each separate dark shape, largest first."""
    pitch = 25.4 / dpi
    ink, corner = ink_of(made, pixels, dpi)
    labels, count = ndimage.label(ink > 0.02)
    found = []
    for index, box in enumerate(ndimage.find_objects(labels), 1):
        share = np.where(labels[box] == index, ink[box], 0.0)
        row, column = ndimage.center_of_mass(share)
        x = corner[0] + (box[1].start + column + 0.5) * pitch
        y = corner[1] - (box[0].start + row + 0.5) * pitch
        found.append((x, y, float(share.sum()) * pitch * pitch))
    assert count == len(found)
    return sorted(found, key=lambda one: -one[2])


def between(one, other):
    return math.hypot(one[0] - other[0], one[1] - other[1])


@pytest.fixture(scope="module")
def straight(tmp_path_factory):
    shapes = [square(STRAIGHT, 0, 26, up_mm=40), square(STRAIGHT, 180, 20, up_mm=40)]
    shapes += [bar(-100.5, 80, 1, 9), bar(99.5, 80, 1, 6), bar(-3, 5, 6, 0.8), bar(-2, 94.2, 4, 0.8)]
    made = make(STRAIGHT, shapes, sheet=LETTER)
    return made, made.write(tmp_path_factory.mktemp("straight"))


@pytest.fixture(scope="module")
def tapered(tmp_path_factory):
    made = make(TAPERED, [square(TAPERED, 0, 26, up_mm=40), square(TAPERED, 180, 20, up_mm=40)], sheet=A4)
    return made, made.write(tmp_path_factory.mktemp("tapered"))


@pytest.fixture(scope="module", params=RENDERERS)
def rendered(straight, request):
    """The straight sheet and what one of the renderers makes of it."""
    made, pdf = straight
    return made, RENDERERS[request.param](need(request.param), pdf, DPI)


def test_a_straight_wrap_is_true_to_size(rendered):
    made, pixels = rendered
    assert pixels.shape == (round(215.9 / PIXEL), round(279.4 / PIXEL))
    front, back, tall, short, low, high = blobs(made, pixels)
    assert between((tall[0], 0), (short[0], 0)) == pytest.approx(200.0, abs=0.05)
    assert high[1] - low[1] == pytest.approx(94.6 - 5.4, abs=0.05)
    assert math.sqrt(front[2]) == pytest.approx(26.0, abs=0.05)
    assert math.sqrt(back[2]) == pytest.approx(20.0, abs=0.05)
    # Opposite: half of (girth + pi t), whatever the overlap; the same height; front on the page's right once mirrored.
    assert front[0] - back[0] == pytest.approx((225 + math.pi * THICK) / 2, abs=PIXEL)
    assert front[1] == pytest.approx(back[1], abs=PIXEL)


def test_the_report_says_where_the_piece_lies(rendered):
    made, pixels = rendered
    row = made.page.report_row()
    front = blobs(made, pixels)[0]
    # The front's centre: a quarter turn and the left end's distance from the page's right edge of the box; 40 mm up.
    quarter = (225 + math.pi * THICK) / 4
    assert front[0] == pytest.approx(row["x_mm"] + row["width_mm"] - quarter, abs=PIXEL)
    assert front[1] == pytest.approx(row["y_mm"] + 40.0, abs=PIXEL)


@pytest.mark.parametrize("program", RENDERERS)
def test_front_and_back_lie_half_the_sector_apart_on_a_taper(tapered, program):
    made, pdf = tapered
    front, back = blobs(made, RENDERERS[program](need(program), pdf, DPI))[:2]
    theta = 40 / 140
    radius = (210 + math.pi * THICK) / theta + 40
    assert between(front, back) == pytest.approx(2 * radius * math.sin(theta / 4), abs=PIXEL)
    apex = made.page.to_page @ [0.0, -(210 + math.pi * THICK) / theta, 1.0]
    angles = [math.atan2(one[0] - apex[0], one[1] - apex[1]) for one in (front, back)]
    assert (angles[0] - angles[1]) * radius == pytest.approx(theta / 2 * radius, abs=PIXEL)
    assert between(front, apex) == pytest.approx(radius, abs=PIXEL)
    assert math.sqrt(front[2]) == pytest.approx(26.0, abs=0.05)


def test_the_printers_scale_is_taken_out_on_each_axis(tmp_path):
    # A printer that draws 0.6 % too short across and 0.4 % too long along the feed; the page lies on its side.
    sheet = replace(LETTER, scale_across=0.994, scale_along=1.004)
    shapes = [
        square(STRAIGHT, 0, 26, up_mm=40),
        square(STRAIGHT, 180, 20, up_mm=40),
        bar(-3, 5, 6, 0.8),
        bar(-2, 94.2, 4, 0.8),
    ]
    made = make(STRAIGHT, shapes, sheet=sheet)
    pixels = RENDERERS["pdftoppm"](need("pdftoppm"), made.write(tmp_path), DPI)
    front, back, low, high = blobs(made, pixels)
    assert (front[0] - back[0]) * 1.004 == pytest.approx((225 + math.pi * THICK) / 2, abs=PIXEL)
    assert (high[1] - low[1]) * 0.994 == pytest.approx(94.6 - 5.4, abs=0.05)
