"""The conversion to the printer's colours against LittleCMS's float path."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from tests.outside.icc.littlecms import INTENTS, floats
from tests.outside.icc.press import cmyk_file, rgb_printer

from wrapwright.outside.icc.conversion import conversion
from wrapwright.outside.icc.profiles import parse, read_printer, srgb_profile

COLOURS = np.vstack(
    [
        np.random.default_rng(8).integers(0, 256, (20000, 3)),
        np.array(list(itertools.product((0, 1, 127, 128, 254, 255), repeat=3))),
    ]
).astype(np.uint8)


@pytest.mark.parametrize("black_point", [False, True])
@pytest.mark.parametrize("intent", list(INTENTS))
@pytest.mark.parametrize("space", ["cmyk", "rgb"])
def test_no_code_is_off_by_more_than_half(space: str, intent: str, black_point: bool) -> None:
    device = read_printer(cmyk_file(), named="p") if space == "cmyk" else parse(rgb_printer(), named="p")
    ours = conversion(srgb_profile(), device, intent, black_point=black_point).colours(COLOURS)
    exact = floats(COLOURS / 255, (srgb_profile().data, device.data), ("rgb", space), intent, bpc=black_point)
    exact = np.clip(exact * (2.55 if space == "cmyk" else 255.0), 0, 255)
    # Half a code is the rounding itself; the 16-bit interpolation between table nodes adds up to two hundredths.
    assert np.abs(ours - exact).max() <= 0.525


def test_a_strip_and_single_colours_agree_to_the_byte() -> None:
    made = conversion(srgb_profile(), read_printer(cmyk_file(), named="p"), "perceptual", black_point=True)
    strip = COLOURS[:2000].reshape(40, 50, 3)
    assert np.array_equal(made.strip(strip).reshape(-1, 4), made.colours(COLOURS[:2000]))
    assert made.channels == 4


def test_white_is_no_ink_in_the_media_relative_intents() -> None:
    for intent in ("perceptual", "relative", "saturation"):
        made = conversion(srgb_profile(), read_printer(cmyk_file(), named="p"), intent, black_point=True)
        assert made.colours(np.array([[255, 255, 255]])).tolist() == [[0, 0, 0, 0]]
