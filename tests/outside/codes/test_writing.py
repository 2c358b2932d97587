"""Codes read back by a decoder that did not write them (OpenCV's), and against ISO/IEC 18004's structure."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.design.kinds.code import QUIET_MODULES, dark_outline
from wrapwright.outside.codes.writing import MOST_BYTES, code_modules

FINDER = np.array(
    [
        [1, 1, 1, 1, 1, 1, 1],
        [1, 0, 0, 0, 0, 0, 1],
        [1, 0, 1, 1, 1, 0, 1],
        [1, 0, 1, 1, 1, 0, 1],
        [1, 0, 1, 1, 1, 0, 1],
        [1, 0, 0, 0, 0, 0, 1],
        [1, 1, 1, 1, 1, 1, 1],
    ],
    dtype=bool,
)


def read(dark: np.ndarray, scale: int = 8) -> str:
    """Decode with the corners told: OpenCV's search for a symbol misses some valid ones, its decoder does not."""
    picture = np.pad(np.where(dark, 0, 255).astype(np.uint8), QUIET_MODULES, constant_values=255)
    low, high = QUIET_MODULES * scale, (QUIET_MODULES + len(dark)) * scale - 1
    corners = np.array([[[low, low], [high, low], [high, high], [low, high]]], np.float32)
    text, _ = cv2.QRCodeDetector().decode(np.kron(picture, np.ones((scale, scale), np.uint8)), corners)
    return text


@pytest.mark.parametrize("level", ["L", "M", "Q", "H"])
@pytest.mark.parametrize(
    "text", ["regatta 2026", "HELLO 123", "0123456789", "Zoë, 東京", "https://example.org/?q=a&b=" + "x" * 90]
)
def test_another_decoder_reads_the_text(text, level):
    assert read(code_modules(text, level).dark) == text


@pytest.mark.parametrize("length", [1, 20, 100, 400])
def test_structure_is_the_standards(length):
    dark = code_modules("q" * length, "M").dark
    size = len(dark)
    assert dark.shape == (size, size)
    assert (size - 17) % 4 == 0  # 17 + 4 v modules, v 1 to 40
    assert 21 <= size <= 177
    for corner in (dark[:7, :7], dark[:7, -7:], dark[-7:, :7]):
        assert (corner == FINDER).all()
    assert (dark[6, 8:-8] == (np.arange(8, size - 8) % 2 == 0)).all()  # timing pattern
    assert dark[size - 8, 8]  # the module that is always dark


def test_the_level_asked_for_is_in_the_format_bits():
    # ISO/IEC 18004 table 12: L 01, M 00, Q 11, H 10, under the mask 101010000010010; first two bits at row 8.
    for level, bits in {"L": 0b01, "M": 0b00, "Q": 0b11, "H": 0b10}.items():
        dark = code_modules("regatta", level).dark
        assert (int(dark[8, 0]) << 1 | int(dark[8, 1])) ^ 0b10 == bits


@pytest.mark.parametrize("level", ["L", "M", "Q", "H"])
def test_the_largest_symbol_is_the_limit(level):
    most = MOST_BYTES[level]
    assert len(code_modules("a" * most, level).dark) == 177
    with pytest.raises(WrapwrightError, match=f"{most + 1} bytes.*at most {most}") as caught:
        code_modules("a" * (most + 1), level, where="code 1")
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.where == "code 1"


def test_no_text_is_refused():
    with pytest.raises(WrapwrightError, match="needs a text"):
        code_modules("")


def test_the_traced_outline_covers_exactly_the_dark_modules():
    dark = code_modules("regatta 2026").dark
    path = dark_outline(dark, 10.0)
    size = 10 * len(dark)
    # Filled by another library's polygon fill, sampled at the modules' centres: nonzero = signed areas summed.
    total = np.zeros((len(dark), len(dark)), int)
    row, col = np.mgrid[0 : len(dark), 0 : len(dark)]
    centres = np.stack([(col + 0.5) * 10, (row + 0.5) * 10], axis=-1).reshape(-1, 2)
    for sub in path.subpaths:
        corners = sub.points[:-1:3] * (1, -1) + size / 2
        contour = corners.astype(np.float32).reshape(-1, 1, 2)
        inside = [cv2.pointPolygonTest(contour, (float(x), float(y)), False) > 0 for x, y in centres]
        area = cv2.contourArea(contour, oriented=True)
        total += np.where(np.array(inside).reshape(total.shape), 1 if area < 0 else -1, 0)
    assert ((total != 0) == dark).all()
    assert set(np.unique(total)) == {0, 1}
    assert path.box() == (-size / 2, -size / 2, size / 2, size / 2)
