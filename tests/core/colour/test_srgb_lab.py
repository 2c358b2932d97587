"""sRGB and Lab against figures printed elsewhere and against LittleCMS."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageCms

from wrapwright.core.colour import lab, srgb


def test_the_curve_meets_itself_and_inverts() -> None:
    codes = np.arange(256) / 255
    assert np.abs(srgb.encode(srgb.decode(codes)) - codes).max() < 1e-12
    # IEC 61966-2-1: encoded 0.04045 is linear 0.0031308 (the standard's own rounded break).
    assert srgb.decode(np.array(0.04045)) == pytest.approx(0.0031308, abs=2e-7)


def test_white_is_d65_and_becomes_d50() -> None:
    # CIE 15: D65 white X 0.9505, Z 1.0890; ICC.1: D50 0.9642, 1, 0.8249.
    assert srgb.to_xyz(np.ones(3)) == pytest.approx([0.9505, 1.0, 1.089], abs=1e-4)
    assert srgb.to_xyz(np.ones(3)) @ lab.TO_D50.T == pytest.approx([0.9642, 1.0, 0.8249], abs=1e-9)
    assert lab.of_srgb(np.ones(3)) == pytest.approx([100.0, 0.0, 0.0], abs=1e-9)


def test_the_bradford_matrix_is_the_published_one() -> None:
    # The D65 -> D50 matrix as sRGB profiles carry it in `chad` (ICC, "How to interpret the sRGB color space"),
    # from memory to four digits.
    expected = [[1.0479, 0.0229, -0.0502], [0.0296, 0.9905, -0.0171], [-0.0092, 0.0151, 0.7517]]
    assert np.abs(lab.TO_D50 - expected).max() < 2e-4


def test_lab_agrees_with_littlecms_on_a_grid() -> None:
    steps = np.linspace(0, 255, 9).astype(np.uint8)
    grid = np.stack(np.meshgrid(steps, steps, steps), axis=-1).reshape(1, -1, 3)
    to_lab = ImageCms.buildTransform(
        ImageCms.createProfile("sRGB"),
        ImageCms.createProfile("LAB"),
        "RGB",
        "LAB",
        ImageCms.Intent.RELATIVE_COLORIMETRIC,
        ImageCms.Flags.NOOPTIMIZE,
    )
    packed = np.asarray(ImageCms.applyTransform(Image.fromarray(grid), to_lab)).astype(np.float64)
    theirs = np.stack([packed[..., 0] / 2.55, _signed(packed[..., 1]), _signed(packed[..., 2])], axis=-1)
    # Their 8-bit Lab steps are 0.39 and 1: half a step, and a little for the two matrices' last digits.
    assert np.all(np.abs(lab.of_srgb(grid / 255.0) - theirs).max(axis=(0, 1)) < [0.26, 0.56, 0.56])


def test_lab_inverts() -> None:
    colours = np.random.default_rng(3).random((500, 3))
    assert np.abs(lab.to_srgb(lab.of_srgb(colours)) - colours).max() < 1e-9


def _signed(code: np.ndarray) -> np.ndarray:
    return np.where(code > 127, code - 256, code)
