"""Front and back exactly opposite, measured on the raster of another renderer.

A whole turn of a straight wrap is girth + pi t, so that opposite is half of it; on a taper or a measured profile the
developed wall is a sector and opposite is half its angle about the apex (development of a frustum, any handbook of
descriptive geometry). The tolerance is one pixel, on tapers of arc.
"""

from __future__ import annotations

import io
import math
import random

import numpy as np
import pytest
from PIL import Image
from tests.whole.measuring import between, blots
from tests.whole.product import MM_PER_INCH, job_text

DPI = 300
PIXEL = MM_PER_INCH / 600  # of a 600 ppi sheet; greys place a centre far finer than the renderer's own pixel
PROGRAM = "mutool"  # 17 x 15 samples a pixel
TAPE = "tape = { thickness = 0.0 }"


def stamps(up_mm: float, where=(("front", 24), ("right", 16), ("back", 20))):
    return [
        f'kind = "picture"\nname = "{at}"\nfile = "stamp.svg"\nat = "{at}"\nwidth = {side}\nup = {up_mm}'
        for at, side in where
    ]


def sheet(thick: float, scale=(1.0, 1.0)) -> str:
    return f'paper = "A3"\nppi = 100\nthickness = {thick}\nscale = [{scale[0]}, {scale[1]}]'


def drawn(seed: int, **ranges: tuple[float, float]) -> list[float]:
    """Numbers that nobody chose, to a thousandth."""
    chance = random.Random(seed)
    return [round(chance.uniform(*ends), 3) for ends in ranges.values()]


@pytest.mark.parametrize("seed", [31, 32, 33])
def test_straight(workshop, seed):
    girth, thick, overlap, scale = drawn(seed, girth=(150, 330), thick=(0.05, 0.3), overlap=(0, 9), scale=(0.99, 1.01))
    blank = f'kind = "straight"\ngirth = {girth}\nwall = 83.7\n{TAPE}'
    job = job_text(blank, *stamps(41.3), wrap=f"overlap = {overlap}", sheet=sheet(thick, (1.0, scale)))
    product = workshop.make(job)
    front, back, right = blots(product, PROGRAM, DPI)[:3]
    across = 1.0 if product.sheet["width_mm"] < product.sheet["height_mm"] else scale
    assert (front.x - back.x) * across == pytest.approx((girth + math.pi * thick) / 2, abs=PIXEL)
    assert (front.x - right.x) * across == pytest.approx((girth + math.pi * thick) / 4, abs=PIXEL)
    assert front.y == pytest.approx(back.y, abs=PIXEL)


def test_straight_with_a_handle(workshop):
    blank = f'kind = "straight"\ngirth = 257.21\nwall = 95\nhandle = {{ at = "left", gap = 26.4 }}\n{TAPE}'
    product = workshop.make(job_text(blank, *stamps(44.9), sheet=sheet(0.13)))
    turn = 257.21 + math.pi * 0.13
    front, back, right = blots(product, PROGRAM, DPI)[:3]
    # A turn is a turn, also where a handle takes a part of it; only the paper is shorter.
    assert product.report["wrap"]["width_mm"] == pytest.approx(turn - 26.4, abs=1e-5)
    assert front.x - back.x == pytest.approx(turn / 2, abs=PIXEL)
    assert front.x - right.x == pytest.approx(turn / 4, abs=PIXEL)


def apex_of(front, back, radius: float, sign: int) -> np.ndarray:
    """The point at that distance from both, below them (sign -1) or above."""
    middle = np.array([front.x + back.x, front.y + back.y]) / 2
    chord = np.array([front.x - back.x, front.y - back.y])
    out = np.array([-chord[1], chord[0]]) / np.hypot(*chord)
    return middle + sign * math.sqrt(radius**2 - (chord @ chord) / 4) * out


def holds_on_a_sector(product, inner: float, outer: float, theta: float, up: float) -> None:
    """Front, right and back lie a quarter of the angle apart, at one distance from the apex."""
    front, back, right = blots(product, PROGRAM, DPI)[:3]
    piece, inverted = product.piece, product.report["blank"]["inverted"]
    radius = outer - up if inverted else inner + up
    assert between(front, back) == pytest.approx(2 * radius * math.sin(theta / 4), abs=PIXEL)
    assert between(front, right) == pytest.approx(2 * radius * math.sin(theta / 8), abs=PIXEL)
    assert between(right, back) == pytest.approx(2 * radius * math.sin(theta / 8), abs=PIXEL)
    sign = 1 if inverted else -1
    # The apex found from the longer arc's edge: the height of the trim box is the report's.
    level = piece["y_mm"] + outer if inverted else piece["y_mm"] + piece["height_mm"] - outer
    apex = np.array([apex_of(front, back, radius, sign)[0], level])
    assert apex_of(front, back, radius, sign)[1] == pytest.approx(level, abs=PIXEL / math.sin(theta / 4))
    bearings = [math.atan2(one.x - apex[0], -sign * (one.y - apex[1])) for one in (front, right, back)]
    for one, other, share in ((0, 2, 0.5), (0, 1, 0.25), (1, 2, 0.25)):
        assert (bearings[one] - bearings[other]) * radius == pytest.approx(theta * share * radius, abs=PIXEL)


@pytest.mark.parametrize("seed", [41, 42, 43])
def test_tapered(workshop, seed):
    low, more, wall, thick = drawn(seed, low=(160, 260), more=(12, 55), wall=(90, 130), thick=(0.05, 0.3))
    blank = f'kind = "tapered"\ngirth_top = {low + more:.3f}\ngirth_bottom = {low}\nwall = {wall}\n{TAPE}'
    job = job_text(blank, *stamps(37.7), wrap="overlap = 6.5\nbleed = 0", sheet=sheet(thick))
    theta = more / wall
    inner = (low + math.pi * thick) / theta
    product = workshop.make(job)
    sector = product.report["wrap"]["sector"]
    assert sector["angle_deg"] == pytest.approx(math.degrees(theta), abs=1e-5)
    holds_on_a_sector(product, inner, inner + wall, theta, 37.7)


def test_tapered_foot_wider_than_the_rim(workshop):
    blank = f'kind = "tapered"\ngirth_top = 211.3\ngirth_bottom = 254.9\nwall = 101.4\n{TAPE}'
    job = job_text(blank, *stamps(33.1), wrap="overlap = 5\nbleed = 0", sheet=sheet(0.12))
    theta = (254.9 - 211.3) / 101.4
    inner = (211.3 + math.pi * 0.12) / theta
    product = workshop.make(job)
    assert product.report["blank"]["inverted"]
    holds_on_a_sector(product, inner, inner + 101.4, theta, 33.1)


def test_tapered_by_diameters_in_a_band_with_a_handle(workshop):
    band = "band = { from = 11.5, height = 70 }\nbleed = 0"
    blank = 'kind = "tapered"\ndiameter_top = 88.3\ndiameter_bottom = 71.9\nheight = 96\n'
    blank += f'handle = {{ at = "left", gap = 25.5 }}\n{TAPE}'
    product = workshop.make(job_text(blank, *stamps(35.9), wrap=band, sheet=sheet(0.12)))
    # A cone's side by Pythagoras; then as from girths, the band beginning 11.5 mm up the wall.
    wall = math.hypot(96, (88.3 - 71.9) / 2)
    theta = math.pi * (88.3 - 71.9) / wall
    inner = math.pi * (71.9 + 0.12) / theta + 11.5
    holds_on_a_sector(product, inner, inner + 70, theta, 35.9)


PROFILE = ((0, 214.2), (30, 226.9), (60, 236.6), (90, 244.1), (118, 247.7))


def test_measured_profile(workshop):
    readings = ", ".join(f"[{at}, {girth}]" for at, girth in PROFILE)
    blank = f'kind = "profile"\nreadings = [{readings}]\n{TAPE}'
    job = job_text(blank, *stamps(52.4), wrap="overlap = 8\nbleed = 0", sheet=sheet(0.12))
    product = workshop.make(job, accept=frozenset({"profile-misfit"}))
    # The straight line nearest in the greatest distance, by trying every slope: of all lines the best has its offset in
    # the middle of the residuals' range.
    at, girth = np.array(PROFILE).T
    slopes = np.linspace(0, 0.6, 600001)
    rest = [girth[k] - slopes * at[k] for k in range(len(at))]
    high, low = np.maximum.reduce(rest), np.minimum.reduce(rest)
    best = int((high - low).argmin())
    theta, base = float(slopes[best]), float(high[best] + low[best]) / 2
    inner = (base + math.pi * 0.12) / theta
    sector = product.report["wrap"]["sector"]
    assert sector["angle_deg"] == pytest.approx(math.degrees(theta), abs=1e-3)
    assert product.report["wrap"]["misfit_mm"] == pytest.approx(float(high[best] - low[best]) / 2, abs=1e-3)
    holds_on_a_sector(product, inner, inner + 118, theta, 52.4)


def test_a_picture_of_pixels_lies_where_outlines_would(workshop):
    grey = Image.new("L", (300, 300), 0)
    file = io.BytesIO()
    grey.save(file, "PNG")
    front, back, right = (one.replace(".svg", ".png") if "front" in one else one for one in stamps(41.3))
    blank = f'kind = "straight"\ngirth = 241.37\nwall = 83.7\n{TAPE}'
    place = 'paper = "A4"\nppi = 300\nthickness = 0.12'
    job = job_text(blank, front, back, right, wrap="overlap = 5", sheet=place)
    product = workshop.make(job, {"stamp.png": file.getvalue()})
    assert [product.element(one)["vector"] for one in ("front", "back", "right")] == [False, True, True]
    front, back, right = blots(product, PROGRAM, DPI)
    turn = 241.37 + math.pi * 0.12
    assert front.x - back.x == pytest.approx(turn / 2, abs=MM_PER_INCH / 300)
    assert front.x - right.x == pytest.approx(turn / 4, abs=MM_PER_INCH / 300)
    assert front.y == pytest.approx(back.y, abs=MM_PER_INCH / 300)
    assert math.sqrt(front.area) == pytest.approx(24.0, abs=0.05)
