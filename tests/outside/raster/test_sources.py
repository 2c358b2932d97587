"""Pictures brought to size: crop, alpha, other colour spaces, enlarging."""

from __future__ import annotations

import numpy as np
from tests.outside.raster.scenes import pixels, smooth

from wrapwright.core.colour import srgb
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.supplies import Pixels
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.sources import Source, source

ALL = (0.0, 0.0, 1.0, 1.0)
RNG = np.random.default_rng(12)


def _made(given: Pixels, size: tuple[float, float], crop: tuple[float, float, float, float] = ALL) -> Source:
    return source(given, crop, size, Adjust(), srgb_working())


def test_at_its_own_size_nothing_changes() -> None:
    array = RNG.integers(0, 256, (40, 60, 3)).astype(np.uint8)
    made = _made(pixels(array), (60.0, 40.0))
    assert np.array_equal(made.array, array)
    assert (made.left, made.top, made.width, made.height) == (0.0, 0.0, 60.0, 40.0)


def test_a_crop_between_pixels_keeps_its_place() -> None:
    ramp = np.tile((np.arange(100) * 2).astype(np.uint8)[None, :, None], (50, 1, 3))
    made = _made(pixels(ramp), (55.0, 40.0), (0.125, 0.1, 0.675, 0.9))
    # The crop's left edge lies at pixel 12.5, whose value on the ramp (pixel k's centre at k + 0.5) is 2 (12.5 - 0.5).
    at = made.left + np.array([5.0, 27.5, 50.0]) * made.width / 55.0
    values = np.interp(at, np.arange(made.array.shape[1]) + 0.5, made.array[20, :, 0])
    assert np.abs(values - 2 * (np.array([17.5, 40.0, 62.5]) - 0.5)).max() < 0.6


def test_what_cannot_be_seen_does_not_bleed_into_what_can() -> None:
    array = np.zeros((120, 120, 4), dtype=np.uint8)
    array[:, 60:] = (200, 150, 100, 255)
    for size in ((40.0, 40.0), (100.0, 100.0), (300.0, 300.0)):
        made = _made(pixels(array), size).array.astype(float)
        seen = made[..., 3] > 2000
        colours = made[seen][:, :3] / made[seen][:, 3:] * 255
        assert np.abs(colours - [200, 150, 100]).max() < 1.5


def test_full_alpha_is_dropped() -> None:
    array = np.dstack([smooth(), np.full((160, 240), 255, np.uint8)])
    assert _made(pixels(array), (120.0, 80.0)).plain


def test_shrinking_much_averages_light() -> None:
    array = RNG.integers(0, 2, (300, 300, 1)).astype(np.uint8).repeat(3, axis=2) * 255
    made = _made(pixels(array), (30.0, 30.0)).array
    assert abs(srgb.decode(made / 255.0).mean() - srgb.decode(array / 255.0).mean()) < 0.01


def test_gray_cmyk_and_sixteen_bits() -> None:
    gray = Pixels("g", np.full((40, 40, 2), (90, 255), np.uint8), "gray", alpha=True)
    assert _made(gray, (20.0, 20.0)).array[5, 5].tolist() == [90, 90, 90]
    cmyk = Pixels("c", np.full((40, 40, 5), (0, 255, 0, 0, 128), np.uint8), "cmyk", alpha=True)
    done = _made(cmyk, (20.0, 20.0)).array[5, 5].astype(float)
    assert np.abs(done / 65535 - np.array([1, 0, 1, 1]) * 128 / 255).max() < 1e-3
    deep = Pixels("d", np.full((40, 40, 3), 30001, np.uint16), "rgb", alpha=False)
    assert _made(deep, (90.0, 90.0)).array[40, 40].tolist() == [30001] * 3


def test_enlarging_comes_nearer_the_truth_than_bicubic() -> None:
    import cv2

    def waves(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.rint(127.5 + 100 * np.sin(x / 4.1) * np.cos(y / 5.3))[..., None].repeat(3, axis=2).astype(np.uint8)

    truth = waves(*np.meshgrid(np.arange(600), np.arange(600))).astype(float)
    small = waves(*np.meshgrid(np.arange(150) * 4 + 1.5, np.arange(150) * 4 + 1.5))
    ours = _made(pixels(small), (600.0, 600.0)).array.astype(float)
    plain = cv2.resize(small, (600, 600), interpolation=cv2.INTER_CUBIC).astype(float)
    inner = slice(40, -40)
    assert np.abs(ours - truth)[inner, inner].mean() < np.abs(plain - truth)[inner, inner].mean()
