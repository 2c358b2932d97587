"""Two marks become a flat length, and two arcs' lengths the ends of a taper."""

from __future__ import annotations

import math

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.gauge.reading import DIVISIONS, STEP_MM, VERNIER_MM, ends_of, read_gauge


def test_the_vernier_has_ten_divisions_on_nineteen_millimetres() -> None:
    assert DIVISIONS == 10
    assert VERNIER_MM == 19.0
    assert pytest.approx(1.9) == STEP_MM


@pytest.mark.parametrize(("head", "line", "flat"), [(235, 7, 235.7), (235, 0, 235), (235, 10, 236), (235, 6.5, 235.65)])
def test_reading(head: float, line: float, flat: float) -> None:
    assert read_gauge(head, line) == pytest.approx(flat)


def test_the_line_read_is_the_one_that_meets() -> None:
    """For every tenth the line whose mark falls on a whole millimetre is the tenth itself."""
    for tenth in range(10):
        flat = 240 + tenth / 10.0
        apart = [abs(math.remainder(flat + line * STEP_MM, 1.0)) for line in range(10)]
        assert apart.index(min(apart)) == tenth
        assert read_gauge(240, tenth) == pytest.approx(flat)


@pytest.mark.parametrize(
    ("head", "line", "where"),
    [
        *((head, 3, "head") for head in (235.5, 0, -4, math.nan)),
        *((235, line, "vernier") for line in (11, -1, 3.2, math.inf)),
    ],
)
def test_marks_that_no_strip_has(head: float, line: float, where: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        read_gauge(head, line)
    assert caught.value.where == where


def test_the_ends_of_a_taper() -> None:
    # A cone grows evenly along its wall: 226 at the foot and 281 at the rim of 158 mm.
    at = {place: 226.0 + (281.0 - 226.0) * place / 158.0 for place in (10.0, 148.0)}
    assert ends_of(tuple(at.items()), 158.0) == pytest.approx((226.0, 281.0))
    assert ends_of(tuple(reversed(at.items())), 158.0) == pytest.approx((226.0, 281.0))


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        (((10.0, 226.0),), "but 1 came"),
        (((10.0, 226.0), (148.0, 240.0), (80.0, 230.0)), "but 3 came"),
        (((10.0, 226.0), (160.0, 240.0)), "beyond the wall of 158 mm"),
        (((-1.0, 226.0), (100.0, 240.0)), "beyond the wall"),
        (((10.0, 226.0), (29.0, 240.0)), "19 mm apart"),
    ],
)
def test_arcs_that_tell_no_taper(readings: tuple[tuple[float, float], ...], said: str) -> None:
    with pytest.raises(WrapwrightError, match=said):
        ends_of(readings, 158.0)
