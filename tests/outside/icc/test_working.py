"""Pictures and colours on their way into the working space, against LittleCMS's float path."""

from __future__ import annotations

import struct

import numpy as np
import pytest
from tests.outside.icc.littlecms import floats
from tests.outside.icc.press import cmyk_file, rgb_printer

from wrapwright.core.colour import lab
from wrapwright.outside.icc.profiles import _assembled, _described, _xyz, srgb_profile
from wrapwright.outside.icc.working import srgb_working, working_space

RNG = np.random.default_rng(4)
CODES = RNG.integers(0, 256, (64, 64, 3)).astype(np.uint8)
DEEP = RNG.integers(0, 65536, (64, 64, 3)).astype(np.uint16)


def wide_profile(gamma: float = 2.2) -> bytes:
    """Return a display profile with the primaries of Adobe RGB (1998) as its specification gives them, on D65."""
    xy = np.array([[0.64, 0.33], [0.21, 0.71], [0.15, 0.06]])
    columns = np.stack([xy[:, 0], xy[:, 1], 1 - xy.sum(axis=1)]) / xy[:, 1]
    white = np.array([0.3127, 0.3290, 0.3583]) / 0.3290
    matrix = lab.adaptation(white, lab.WHITE_D50) @ columns * np.linalg.solve(columns, white)
    parts = {"desc": _described("Wide"), "cprt": b"text\0\0\0\0none\0", "wtpt": _xyz(white)}
    parts |= {name: _xyz(matrix[:, at]) for at, name in enumerate(("rXYZ", "gXYZ", "bXYZ"))}
    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(gamma * 256)) + bytes(2)
    return _assembled(parts, curve, ("rTRC", "gTRC", "bTRC"))


def test_wide_rgb_into_srgb_and_back() -> None:
    wide = wide_profile()
    ours = srgb_working().converted(CODES, "rgb", wide).reshape(-1, 3) / 257
    theirs = floats(CODES.reshape(-1, 3) / 255, (wide, srgb_profile().data), ("rgb", "rgb"), "relative", bpc=True) * 255
    assert np.abs(ours - np.clip(theirs, 0, 255)).max() < 0.25
    space = working_space([wide], convert=True)
    ours = space.converted(CODES, "rgb", None).reshape(-1, 3) / 257
    theirs = floats(CODES.reshape(-1, 3) / 255, (srgb_profile().data, wide), ("rgb", "rgb"), "relative", bpc=True) * 255
    assert np.abs(ours - theirs).max() < 0.25
    assert np.abs(space.colours(CODES.reshape(-1, 3) / 255) * 255 - theirs).max() < 0.25


def test_16_bits_stay_16_bits() -> None:
    wide = wide_profile()
    ours = srgb_working().converted(DEEP, "rgb", wide)
    assert ours.dtype == np.uint16
    ends = (wide, srgb_profile().data)
    theirs = floats(DEEP.reshape(-1, 3) / 65535, ends, ("rgb", "rgb"), "relative", bpc=True)
    assert np.abs(ours.reshape(-1, 3) / 65535 - np.clip(theirs, 0, 1)).max() < 0.25 / 255
    assert srgb_working().converted(DEEP, "rgb", None) is DEEP


def test_srgb_in_any_dress_is_left_alone() -> None:
    assert srgb_working().converted(CODES, "rgb", srgb_profile().data) is CODES
    assert working_space([srgb_profile().data, None], convert=True).name == "sRGB"


def test_the_widest_picture_decides_only_when_we_convert() -> None:
    wide = wide_profile()
    assert working_space([None, wide], convert=True).name == "Wide"
    assert working_space([None, wide], convert=False).name == "sRGB"
    assert working_space([rgb_printer(), b"", b"junk" * 50], convert=True).name == "sRGB"


def test_cmyk_pictures_enter_relative_with_black_point() -> None:
    data = cmyk_file().read_bytes()
    inks = RNG.integers(0, 256, (40, 40, 4)).astype(np.uint8)
    ours = srgb_working().converted(inks, "cmyk", data).reshape(-1, 3)
    ends = (data, srgb_profile().data)
    theirs = floats(inks.reshape(-1, 4) / 2.55, ends, ("cmyk", "rgb"), "relative", bpc=True) * 255
    # In 8 bits unoptimised: half a code of rounding; their float path lets colours leave 0..255 on the way.
    assert np.abs(ours - np.clip(theirs, 0, 255)).max() < 0.75


def test_cmyk_without_profile_is_plain_subtraction() -> None:
    inks = np.array([[[0, 0, 0, 0], [255, 0, 0, 0], [0, 0, 0, 255], [0, 128, 255, 0]]], dtype=np.uint8)
    ours = srgb_working().converted(inks, "cmyk", None) / 257
    assert np.abs(ours - [[[255, 255, 255], [0, 255, 255], [0, 0, 0], [255, 127, 0]]]).max() < 0.05


def test_lab_pictures() -> None:
    asked = np.array([[[50.0, 10.0, -20.0], [80.0, -5.0, 30.0], [100.0, 0.0, 0.0]]])
    codes = np.rint([655.35, 257.0, 257.0] * np.add(asked, [0.0, 128.0, 128.0])).astype(np.uint16)
    ours = srgb_working().converted(codes, "lab", None).reshape(-1, 3) / 65535
    theirs = floats(asked.reshape(-1, 3), (b"", srgb_profile().data), ("lab", "rgb"), "relative", bpc=True)
    assert np.abs(ours - theirs).max() < 0.25 / 255


@pytest.mark.parametrize("dtype", [np.uint8, np.uint16])
def test_gray(dtype: type) -> None:
    steps = np.linspace(0, np.iinfo(dtype).max, 7).astype(dtype).reshape(1, 7, 1)
    plain = srgb_working().converted(steps, "gray", None)
    assert np.array_equal(plain, np.repeat(steps, 3, axis=-1))
    # In another curve the light stays the same: gray of gamma 2.2 against the curve's own formula.
    space = working_space([wide_profile()], convert=True)
    codes = space.converted(steps, "gray", None)[0, :, 0] / 65535
    assert np.abs(codes ** (563 / 256) - srgb_working().tone.decode(steps)[0, :, 0]).max() < 1e-4
