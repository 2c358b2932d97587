from __future__ import annotations

import hashlib
import io
import subprocess

import numpy as np
import pytest
import pyvips
from PIL import Image
from tests.sheet_on_paper.made import srgb_profile
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.pages.png import page_png
from wrapwright.outside.pages.tiff import page_tiff
from wrapwright.outside.pdf.flate import packed


def pixels(channels, height=203, width=331):
    rng = np.random.default_rng(11)
    return rng.integers(0, 256, (height, width, channels), dtype=np.uint8)


def png(array, ppi=300.0):
    height, width, channels = array.shape
    data = packed(lambda a, b: array[a:b], width=width, height=height, channels=channels).data
    return page_png(data, width=width, height=height, channels=channels, ppi=ppi, profile=srgb_profile())


def tiff(array, ppi=300.0):
    height, width, channels = array.shape
    return page_tiff(
        lambda a, b: array[a:b], width=width, height=height, channels=channels, ppi=ppi, profile=srgb_profile()
    )


@pytest.mark.parametrize("channels", [1, 3])
def test_two_readers_see_the_pixels_the_resolution_and_the_profile_of_a_png(channels):
    array = pixels(channels)
    data = png(array, 720.0)
    with Image.open(io.BytesIO(data)) as image:
        image.load()
        assert (np.asarray(image).reshape(array.shape) == array).all()
        assert image.info["dpi"] == pytest.approx((720, 720), rel=2e-5)
        assert image.info["icc_profile"] == srgb_profile()
    other = pyvips.Image.new_from_buffer(data, "")
    assert (other.numpy().reshape(array.shape) == array).all()
    assert other.xres * 25.4 == pytest.approx(720, rel=2e-5)


@pytest.mark.parametrize("channels", [1, 3, 4])
def test_two_readers_see_the_pixels_the_resolution_and_the_profile_of_a_tiff(channels):
    array = pixels(channels)
    made = tiff(array, 360.0)
    assert made.pixels_sha256 == hashlib.sha256(array.tobytes()).hexdigest()
    with Image.open(io.BytesIO(made.data)) as image:
        image.load()
        assert image.mode == {1: "L", 3: "RGB", 4: "CMYK"}[channels]
        assert (np.asarray(image).reshape(array.shape) == array).all()
        assert image.info["dpi"] == pytest.approx((360, 360))
        assert image.info["icc_profile"] == srgb_profile()
    other = pyvips.Image.new_from_buffer(made.data, "")
    assert (other.numpy().reshape(array.shape) == array).all()
    assert other.xres * 25.4 == pytest.approx(360)


def test_a_third_reader_finds_nothing_wrong(tmp_path):
    identify = need("identify")
    (tmp_path / "page.png").write_bytes(png(pixels(3)))
    (tmp_path / "page.tif").write_bytes(tiff(pixels(4)).data)
    for name in ("page.png", "page.tif"):
        done = subprocess.run([identify, "-regard-warnings", str(tmp_path / name)], capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        assert "331x203" in done.stdout


def test_png_refuses_inks_with_a_sentence():
    with pytest.raises(WrapwrightError, match="CMYK") as caught:
        png(pixels(4))
    assert caught.value.kind is Kind.UNUSABLE
    assert "tiff" in caught.value.remedy


def test_the_same_page_gives_the_same_bytes():
    assert png(pixels(3)) == png(pixels(3))
    assert tiff(pixels(4)).data == tiff(pixels(4)).data
