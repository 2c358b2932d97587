"""Codes made by another library (OpenCV) are read; pictures without one give nothing."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from wrapwright.outside.codes.reading import texts_read


def drawn(text: str, *, dark=(0, 0, 0), light=(255, 255, 255), scale: int = 4) -> np.ndarray:
    modules = cv2.QRCodeEncoder.create().encode(text) < 128
    large = np.kron(np.pad(modules, 4), np.ones((scale, scale), dtype=bool))
    return np.where(large[..., None], np.uint8(dark), np.uint8(light)).astype(np.uint8)


@pytest.mark.parametrize("text", ["regatta 2026", "Zoë, 東京", "0123456789"])
def test_the_text_of_another_writers_code(text):
    assert texts_read(drawn(text)) == (text,)


def test_two_codes_in_one_picture():
    both = np.concatenate([drawn("one"), drawn("two")], axis=1)
    assert sorted(texts_read(both)) == ["one", "two"]


def test_colours_with_little_between_them_and_light_on_dark():
    assert texts_read(drawn("faint", dark=(40, 60, 110), light=(150, 150, 130))) == ("faint",)
    assert texts_read(drawn("bright", dark=(255, 255, 255), light=(20, 40, 90))) == ("bright",)


def test_nothing_there_nothing_read():
    assert texts_read(np.full((100, 120, 3), 200, dtype=np.uint8)) == ()
    assert texts_read(drawn("half")[:60]) == ()
    assert texts_read(np.zeros((1, 1, 3), dtype=np.uint8)) == ()
