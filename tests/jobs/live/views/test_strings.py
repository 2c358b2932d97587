"""Path data, read back by the SVG path reader of fontTools."""

from __future__ import annotations

import re

import numpy as np
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

from wrapwright.core.design.path import Path, Subpath, joined, line_points, rectangle
from wrapwright.jobs.live.views.strings import path_data, segments

WAVE = Subpath(
    np.array([[0.1234567, 5.0], [3.3, 9.87654], [8.0, -4.0], [12.5, 2.0], [14.0, 8.5], [20.0, 8.5], [21.1, 0.3]])
)


def read(data: str) -> list[tuple[str, tuple[tuple[float, float], ...]]]:
    pen = RecordingPen()
    parse_path(data, pen)
    return list(pen.value)


def test_curves_come_back_within_half_a_thousandth() -> None:
    (move, *curves, end) = read(path_data(Path((WAVE,))))
    assert end[0] == "closePath"
    points = np.array([move[1][0], *(point for _, some in curves for point in some)])
    if len(points) == len(WAVE.points) + 1:  # the reader writes the closing edge out
        assert np.allclose(points[-1], points[0], atol=1e-9)
        points = points[:-1]
    assert np.abs(points * (1, -1) - WAVE.points).max() <= 0.0005 + 1e-9


def test_steps_do_not_add_up_their_rounding() -> None:
    zigzag = np.cumsum(np.tile([[1.0 / 3.0, 1.0 / 7.0]], (400, 1)), axis=0)
    line = Path((Subpath(line_points(zigzag), closed=False),))
    (*_, last, end) = read(path_data(line))
    assert end[0] == "endPath"
    assert np.abs(np.array(last[1][-1]) * (1, -1) - zigzag[-1]).max() <= 0.0005 + 1e-9


def test_straight_sides_are_short_words_and_y_counts_down() -> None:
    assert path_data(rectangle(-1.0, 2.0, 3.5, 4.25)) == "M-1 -2h4.5v-2.25h-4.5v2.25z"


def test_no_number_has_more_than_three_decimals() -> None:
    numbers = re.findall(r"-?\d+(?:\.\d+)?", path_data(joined([Path((WAVE,)), rectangle(0, 0, 1 / 3, 1 / 3)])))
    assert numbers
    assert max(len(number.partition(".")[2]) for number in numbers) <= 3


def test_a_path_is_counted_in_curves() -> None:
    assert segments(joined([Path((WAVE,)), rectangle(0, 0, 1, 1)])) == 6
