"""Colours from the job to the sheet, against LittleCMS and, through the file, poppler.

The pixels of the driver route are the working pixels; those of the convert route must be what LittleCMS's float path
makes of them (the system's own library, not the one we use). Half a code is the rounding, two hundredths the 16-bit
interpolation between table nodes.
"""

from __future__ import annotations

import subprocess
import warnings

import numpy as np
import pytest
from PIL import Image
from scipy import ndimage
from tests.outside.icc.littlecms import INTENTS, floats
from tests.sheet_on_paper.made import srgb_profile
from tests.whole.in_colour.colouring import (
    PPI,
    SOLID,
    coloured,
    convert,
    image_of,
    image_place,
    inks_of,
    patches,
    printer,
)
from tests.whole.product import MM_PER_INCH
from tests.witness import need

ROUTES = [(space, intent, bpc) for space in ("cmyk", "rgb") for intent in INTENTS for bpc in (True, False)]


@pytest.fixture(scope="module")
def working(workshop):
    return coloured(workshop, 'route = "driver"')


@pytest.fixture(scope="module")
def told_apart(working):
    """The working pixels, and their colours told apart: once for all routes."""
    return image_of(working), *distinct(image_of(working))


def distinct(pixels: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The colours of sRGB pixels, each once, and which of them every pixel has."""
    numbers = pixels.reshape(-1, 3).astype(np.uint32) @ np.array([65536, 256, 1], np.uint32)
    colours, where = np.unique(numbers, return_inverse=True)
    return np.stack([colours >> 16, colours >> 8 & 255, colours & 255], axis=-1), where


def exact(pixels: np.ndarray, space: str, intent: str, bpc: bool) -> np.ndarray:
    """Device codes 0..255 of sRGB pixels, not rounded."""
    colours, where = distinct(pixels)
    return exact_codes(colours, space, intent, bpc)[where].reshape(*pixels.shape[:-1], -1)


def exact_codes(colours: np.ndarray, space: str, intent: str, bpc: bool) -> np.ndarray:
    """Device codes 0..255 of sRGB colours, not rounded."""
    ends = (srgb_of_the_product(), printer(space))
    codes = floats(colours / 255, ends, ("rgb", space), intent, bpc=bpc) * (2.55 if space == "cmyk" else 255.0)
    return np.clip(codes, 0, 255)


def srgb_of_the_product() -> bytes:
    from wrapwright.outside.icc.profiles import srgb_profile as own

    return own().data


@pytest.mark.parametrize(("space", "intent", "bpc"), ROUTES)
def test_every_pixel_and_path_is_littlecms_within_half_a_code(workshop, working, told_apart, space, intent, bpc):
    product = coloured(workshop, convert(intent, black_point=bpc), space)
    assert image_place(product) == image_place(working)
    device, (seen, colours, where) = image_of(product), told_apart
    assert device.shape == (*seen.shape[:2], 4 if space == "cmyk" else 3)
    assert len(colours) > 10000
    codes = exact_codes(colours, space, intent, bpc)
    assert np.abs(device - codes[where].reshape(device.shape)).max() <= 0.525
    # Paths of the same colour get the same ink, within a code.
    plain = device[(seen == SOLID).all(axis=-1)]
    assert len(plain) > 5000
    assert SOLID in {tuple(round(value) for value in ink) for ink in inks_of(working)}
    ink = min(inks_of(product), key=lambda one: np.abs(np.array(one) - plain[0]).max())
    assert np.abs(plain - np.array(ink)).max() <= 1.0


def through_poppler(product, folder, *profiles: str) -> np.ndarray:
    """The image's part of the page in sRGB, at its own ppi, by pdftoppm."""
    dpi = PPI
    out = folder / "page"
    command = [need("pdftoppm"), "-r", str(dpi), "-singlefile", *profiles, str(product.pdf), str(out)]
    subprocess.run(command, check=True)
    with Image.open(out.with_suffix(".ppm")) as image:
        page = np.asarray(image)
    left, bottom, _, height = (one / 72 * dpi for one in image_place(product))
    top = page.shape[0] - bottom - height
    assert (left, top) == pytest.approx((round(left), round(top)), abs=0.02)
    rows, columns = image_of(product).shape[:2]
    return page[round(top) : round(top) + rows, round(left) : round(left) + columns]


def differences(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """CIEDE2000 of sRGB values 0..255: Lab by LittleCMS, the formula by another library."""
    ends = (srgb_profile(), b"")
    labs = [floats(rgb.reshape(-1, 3) / 255, ends, ("rgb", "lab"), "relative", bpc=False) for rgb in (one, other)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it tells of plotting libraries that it misses
        from colour.difference import delta_E_CIE2000
    return delta_E_CIE2000(*labs)


def even(pixels: np.ndarray) -> np.ndarray:
    """Where five by five pixels are of one colour."""
    size = (5, 5, 1)
    return (ndimage.maximum_filter(pixels, size) == ndimage.minimum_filter(pixels, size)).all(axis=-1)


def test_what_poppler_shows_is_what_littlecms_makes_of_the_ink(workshop, tmp_path):
    """Held in the middle of even patches, because poppler draws an image one row and one column larger than its box."""
    working = image_of(coloured(workshop, 'route = "driver"', art=patches))
    product = coloured(workshop, convert(), "cmyk", art=patches)
    (tmp_path / "cmyk.icc").write_bytes(printer("cmyk"))
    (tmp_path / "srgb.icc").write_bytes(srgb_profile())
    named = ("-defaultcmykprofile", str(tmp_path / "cmyk.icc"), "-displayprofile", str(tmp_path / "srgb.icc"))
    shown = through_poppler(product, tmp_path, *named)
    device = np.rint(exact(working, "cmyk", "perceptual", True))
    # Poppler shows device colours by relative colorimetric with black point compensation, in a screen's 8 bits.
    ends = (printer("cmyk"), srgb_profile())
    expected = floats(device.reshape(-1, 4) / 2.55, ends, ("cmyk", "rgb"), "relative", bpc=True).clip(0, 1)
    expected = np.rint(expected * 255).reshape(shown.shape)
    held = even(working) & even(shown) & clear_of_words(product, shown.shape[1])
    assert len(np.unique(working[held], axis=0)) > 200
    apart = differences(shown[held], expected[held])
    assert apart.mean() <= 0.1
    assert np.percentile(apart, 99) < 1.0


def clear_of_words(product, columns: int) -> np.ndarray:
    """Columns over which no path lies: the words are at the back, a quarter of a turn from the middle."""
    reach = (product.element("words")["width_mm"] / 2 + 5) / MM_PER_INCH * PPI
    quarter = 233.4 / 4 / MM_PER_INCH * PPI
    away = np.abs(np.arange(columns) - columns / 2)
    return np.abs(away - quarter) > reach
