"""The plot as pixels: its size, its colours, the same bytes again."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from tests.outside.documents.screen.heat.test_plan_plot import PICTURE

from wrapwright.outside.documents.heat_plot import plot_png
from wrapwright.outside.documents.screen.heat.plan_plot import plan_plot


def test_as_pixels(cache):
    svg = plan_plot(PICTURE, alone=True)
    made = plot_png(svg, title="A plan", cache=cache)
    picture = cv2.imdecode(np.frombuffer(made, np.uint8), cv2.IMREAD_COLOR)
    height, width = picture.shape[:2]
    assert width == 1440
    assert 700 < height < 1200
    heat = np.array([0x1B, 0x46, 0xA4])  # #a4461b, blue first
    assert int((np.abs(picture.astype(int) - heat).max(axis=-1) < 12).sum()) > 1000
    assert (picture[-1, -1] == np.array([0xF7, 0xF8, 0xF7])).all()
    assert plot_png(svg, title="A plan", cache=cache) == made


def test_a_drawing_without_a_size_is_none(cache):
    with pytest.raises(ValueError, match="its size"):
        plot_png("<svg/>", title="", cache=cache)
