"""Letters bent all together, held against the exact development of the wall."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path, Subpath, line_points, polygon
from wrapwright.core.design.placement import Placement
from wrapwright.core.names.making.letters import Letter, SetLetters, bent_letters

# A glyph as fonts have them: a bowl of four quarter circles and a stem, 1000 units an em.
K = 0.5522847498
BOWL = np.array(
    [
        (600, 300), (600, 300 + 300 * K), (300 + 300 * K, 600), (300, 600),
        (300 - 300 * K, 600), (0, 300 + 300 * K), (0, 300), (0, 300 - 300 * K),
        (300 - 300 * K, 0), (300, 0), (300 + 300 * K, 0), (600, 300 - 300 * K), (600, 300),
    ],
    dtype=float,
)  # fmt: skip
STEM = polygon([(620, 0), (700, 0), (700, 720), (620, 720)])
GLYPH = Path((Subpath(BOWL), *STEM.subpaths))
WRAPS = {
    "a tumbler": FlatWrap(222.0, 268.0, 90.0),
    "a steep cup": FlatWrap(160.0, 260.0, 80.0),
    "a foot wider than its rim": FlatWrap(260.0, 230.0, 90.0),
    "straight": FlatWrap(235.0, 235.0, 90.0),
}


def along(points: NDArray[np.float64], shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return points of a cubic by de Casteljau's construction."""
    level = [np.broadcast_to(one, (len(shares), 2)) for one in points]
    while len(level) > 1:
        level = [one + (two - one) * shares[:, None] for one, two in pairwise(level)]
    return np.asarray(level[0])


@pytest.mark.parametrize("lay", ["level", "true"])
@pytest.mark.parametrize("turn_deg", [0.0, 25.0])
@pytest.mark.parametrize("wrap", WRAPS)
def test_outlines_are_within_ten_micrometres_of_their_true_place(wrap: str, turn_deg: float, lay: str) -> None:
    letter = Letter.of(GLYPH)
    assert letter is not None
    origins = np.array([(-30.0, -6.0), (-16.0, -6.0), (9.0, -6.5)])
    text = SetLetters((letter,) * 3, origins, np.array([1.0, 1.0, 1.1]) * (0.004 if wrap == "a steep cup" else 0.006))
    placement = Placement(WRAPS[wrap], 200.0, 40.0, lay, turn_deg)
    found = bent_letters(text, placement)
    assert found is not None
    points, straight = found
    shares = np.linspace(0.0, 1.0, 41)
    lines = letter.lines.tolist()
    step = 0.015 * 25.4 / 72.0
    worst = 0.0
    for number, (origin, scale) in enumerate(zip(origins, text.scales, strict=True)):
        for curve, start in enumerate(letter.starts.tolist()):
            first = number * len(letter.points) + start
            drawn = np.rint(points[first : first + 4] / step) * step
            if curve in lines and straight[number * len(lines) + lines.index(curve)]:
                drawn = line_points(drawn[[0, 3]])
            exact = placement.to_flat(along(letter.points[start : start + 4], shares) * scale + origin)
            dense = along(drawn, np.linspace(0.0, 1.0, 801))
            worst = max(worst, float(np.hypot(*(exact[:, None] - dense[None]).transpose(2, 0, 1)).min(axis=1).max()))
    assert worst < 0.010


def test_letters_too_large_to_be_bent_whole_are_left_to_others() -> None:
    letter = Letter.of(GLYPH)
    assert letter is not None
    text = SetLetters((letter,), np.array([(-20.0, -20.0)]), np.array([0.08]))
    assert bent_letters(text, Placement(WRAPS["a steep cup"], 180.0, 40.0, "level")) is None


def test_open_outlines_are_no_letters() -> None:
    assert Letter.of(Path((Subpath(BOWL[:7]),))) is None
    empty = Letter.of(Path())
    assert empty is not None
    assert len(empty.points) == 0
