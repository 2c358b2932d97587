"""True size on the rendered sheet, by two renderers that had no part in making it.

Expected figures are plane geometry: a straight wrap is girth + pi t + overlap wide, and a printer that draws a length
`scale` times too long needs it `scale` times shorter in the file. The 100 mm of the check bars are their caption.
Tolerance: 0.05 mm over 200 mm, as promised to the user.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import ndimage
from tests.whole.measuring import beside, blots
from tests.whole.product import MM_PER_INCH, job_text

DPI = 300
PIXEL = MM_PER_INCH / DPI
THICK = 0.12
TURN = 225 + math.pi * THICK
TAPE = "tape = { thickness = 0.0 }"
CUP = f'kind = "straight"\ngirth = 225\nwall = 100\n{TAPE}'
STAMPED = (
    'kind = "picture"\nname = "front"\nfile = "stamp.svg"\nat = "front"\nwidth = 26\nup = 30',
    'kind = "picture"\nname = "back"\nfile = "stamp.svg"\nat = "back"\nwidth = 20\nup = 30',
    # The middle of the turn lies opposite the seam.
    'kind = "picture"\nname = "ruler"\nfile = "ruler.svg"\nat = "right"\nwidth = 200\nup = 80',
    'kind = "picture"\nname = "gauge"\nfile = "gauge.svg"\nat = "right"\nheight = 80\nup = 50',
)
# paper as the job writes it -> its size upright (ISO 216; ANSI/ASME Y14.1 for Letter; the others by their names)
PAPERS = {
    '"Letter"': (215.9, 279.4),
    '"A4"': (210.0, 297.0),
    '"Legal"': (215.9, 355.6),
    "[240, 330.5]": (240.0, 330.5),
}


@pytest.fixture(scope="module")
def cup(workshop):
    wrap = 'overlap = 5\nbleed = "2 mm"'
    return lambda paper, more="": workshop.make(
        job_text(CUP, *STAMPED, wrap=wrap, sheet=f"paper = {paper}\nthickness = {THICK}\n{more}")
    )


@pytest.fixture(scope="module", params=PAPERS)
def on_paper(request, cup):
    return cup(request.param), PAPERS[request.param]


def test_the_page_is_exactly_the_paper(on_paper):
    product, upright = on_paper
    sheet = (product.sheet["width_mm"], product.sheet["height_mm"])
    assert sorted(sheet) == pytest.approx(upright, abs=1e-6)
    # A PDF's unit is 1/72 inch (ISO 32000-1, 8.3.2.3).
    assert product.media_box_mm == pytest.approx([0, 0, *sheet], abs=0.001)


@pytest.mark.parametrize("program", ["pdftoppm", "gs"])
def test_lengths_are_true(on_paper, program):
    product, _ = on_paper
    pixels = product.page(program, DPI)
    high, wide = pixels.shape
    assert (wide, high) == pytest.approx((product.sheet["width_mm"] / PIXEL, product.sheet["height_mm"] / PIXEL), abs=1)
    front, back, tall, short, *gauge = blots(product, program, DPI)
    assert tall.x != short.x
    assert abs(tall.x - short.x) == pytest.approx(199.0, abs=0.05)
    low, top = sorted(gauge, key=lambda one: one.y)
    assert top.y - low.y == pytest.approx(79.2, abs=0.05)
    assert math.sqrt(front.area) == pytest.approx(26.0, abs=0.05)
    assert math.sqrt(back.area) == pytest.approx(20.0, abs=0.05)
    # Mirrored: of the ruler's two ticks the taller one, its left end as seen, stands at the right on paper.
    assert tall.x > short.x
    assert front.x > back.x


@pytest.mark.parametrize("program", ["pdftoppm", "gs"])
def test_check_bars_are_100_mm_both_ways(on_paper, program):
    product, _ = on_paper
    assert "check bars 100 mm" in product.piece["marks"]
    found = [one for one in beside(product, program, DPI) if max(one.width, one.height) > 95]
    lying = [one for one in found if one.width > one.height]
    upright = [one for one in found if one.height > one.width]
    assert (len(lying), len(upright)) == (1, 1)
    assert lying[0].longest == pytest.approx(100.0, abs=0.05)
    assert upright[0].height == pytest.approx(100.0, abs=2 * PIXEL)


@pytest.mark.parametrize("program", ["pdftoppm", "mutool"])
def test_the_report_says_where_the_piece_lies(on_paper, program):
    product, _ = on_paper
    piece = product.piece
    assert (piece["turn_deg"], piece["mirrored"]) == (0, True)
    assert (piece["width_mm"], piece["height_mm"]) == pytest.approx((TURN + 5, 100.0), abs=1e-5)
    front = blots(product, program, DPI)[0]
    # Seam left: the front is a quarter turn from the left end, which lies at the right once mirrored.
    assert front.x == pytest.approx(piece["x_mm"] + piece["width_mm"] - TURN / 4, abs=PIXEL)
    assert front.y == pytest.approx(piece["y_mm"] + 30.0, abs=PIXEL)


def test_the_printers_scale_is_taken_out_on_each_axis(cup):
    product = cup('"Letter"', "scale = [1.004, 0.997]")
    assert product.report["scale"] == [1.004, 0.997]
    assert product.sheet["width_mm"] > product.sheet["height_mm"]  # on its side: the feed runs along x
    front, back, tall, short, *gauge = blots(product, "pdftoppm", DPI)
    low, top = sorted(gauge, key=lambda one: one.y)
    assert (tall.x - short.x) * 0.997 == pytest.approx(199.0, abs=0.05)
    assert (top.y - low.y) * 1.004 == pytest.approx(79.2, abs=0.05)
    assert (front.x - back.x) * 0.997 == pytest.approx(TURN / 2, abs=PIXEL)
    assert front.area * 0.997 * 1.004 == pytest.approx(26.0**2, abs=2.6)
    assert product.piece["width_mm"] * 0.997 == pytest.approx(TURN + 5, abs=1e-5)
    assert product.piece["height_mm"] * 1.004 == pytest.approx(100.0, abs=1e-5)
    bars = [one for one in beside(product, "pdftoppm", DPI) if one.width > 95]
    # The bar is printed by the same printer: it must come out as 100 mm on its paper.
    assert bars[0].longest * 0.997 == pytest.approx(100.0, abs=0.05)


def test_a_piece_turned_on_a_roll(cup):
    product = cup('{ roll = "150 mm" }', "scale = [1.004, 0.997]")
    piece = product.piece
    assert product.sheet["width_mm"] == pytest.approx(150.0, abs=1e-6)
    assert piece["turn_deg"] in (90, 270)
    front, back, tall, short = blots(product, "pdftoppm", DPI)[:4]
    assert abs(tall.y - short.y) * 0.997 == pytest.approx(199.0, abs=0.05)
    assert abs(front.y - back.y) * 0.997 == pytest.approx(TURN / 2, abs=PIXEL)
    assert piece["height_mm"] * 0.997 == pytest.approx(TURN + 5, abs=1e-5)
    assert piece["width_mm"] * 1.004 == pytest.approx(100.0, abs=1e-5)
    # Mirrored, then turned anticlockwise by 90: the left end as seen, at the right on paper, comes to the top; 30 mm
    # above the base become 30 mm from the right edge.
    sign = 1 if piece["turn_deg"] == 90 else -1
    assert (front.y - back.y) * sign > 0
    from_base = piece["x_mm"] + piece["width_mm"] - front.x if sign > 0 else front.x - piece["x_mm"]
    assert from_base * 1.004 == pytest.approx(30.0, abs=PIXEL)


@pytest.mark.parametrize(
    ("blank", "size"),
    [
        (f'kind = "straight"\ngirth = 187.3\nwall = 61.7\n{TAPE}', (187.3 + math.pi * THICK + 4.5, 61.7)),
        (f'kind = "tapered"\ngirth_top = 251\ngirth_bottom = 208.4\nwall = 97.2\n{TAPE}', None),
    ],
)
def test_the_ink_of_a_whole_fill_is_the_trim_box(workshop, blank, size):
    job = job_text(blank, 'kind = "fill"\ncolour = "#000000"', wrap="overlap = 4.5\nbleed = 0", sheet='paper = "A4"')
    product = workshop.make(job)
    piece = product.piece
    if size:
        assert (piece["width_mm"], piece["height_mm"]) == pytest.approx(size, abs=1e-5)
    pixels, (left, top) = product.crop("pdftoppm", DPI, margin_mm=1.0)
    # The largest shape alone: beside the slanted ends of a taper, words stand within its box.
    labels, _ = ndimage.label(pixels < 128)
    largest = labels == np.bincount(labels.ravel())[1:].argmax() + 1
    rows, columns = (largest.any(axis=axis).nonzero()[0] for axis in (1, 0))
    assert left + columns.min() * PIXEL == pytest.approx(piece["x_mm"], abs=PIXEL)
    assert left + (columns.max() + 1) * PIXEL == pytest.approx(piece["x_mm"] + piece["width_mm"], abs=PIXEL)
    assert top - rows.min() * PIXEL == pytest.approx(piece["y_mm"] + piece["height_mm"], abs=PIXEL)
    assert top - (rows.max() + 1) * PIXEL == pytest.approx(piece["y_mm"], abs=PIXEL)
    if size:
        middle = pixels[pixels.shape[0] // 2]
        assert (1 - middle / 255).sum() * PIXEL == pytest.approx(size[0], abs=0.05)
