"""The join against published CIEDE2000 pairs, and art that meets or does not."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from tests.outside.raster.measuring.wraps import (
    BLACK,
    GREY,
    STRAIGHT,
    TAPERED,
    WHITE,
    box,
    eye,
    ground,
    measured,
    picture,
)

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour import lab
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.kinds.ground import lap_motion
from wrapwright.core.design.path import polygon

SHARMA = Path(__file__).parents[3] / "data" / "ciede2000_sharma_34.csv"


def join(*items, wrap=STRAIGHT, **more):
    return measured(items, {0: "fill"}, wrap=wrap, **more)[1].seam_de95


def pairs():
    """Sharma, Wu and Dalal 2005, table 1: the pairs whose both colours sRGB can hold with some room."""
    with SHARMA.open(encoding="utf-8", newline="") as stream:
        rows = [[float(value) for value in row] for row in list(csv.reader(stream))[1:] if row]
    for row in rows:
        *values, expected = row[-7:]
        colours = lab.to_srgb(np.array(values).reshape(2, 3))
        if expected > 5.0 and colours.min() > 0.02 and colours.max() < 0.98:
            yield colours[0], colours[1], expected


@pytest.mark.parametrize("case", list(pairs()), ids=lambda case: f"{case[2]}")
def test_two_published_colours_meet(case):
    one, other, expected = case
    # The overlap, right of x = 60, repeats the left end and must not count.
    halves = (box(-60, -2, 0, 52, tuple(one)), box(0, -2, 60, 52, tuple(other)), box(60, -2, 66, 52, tuple(one)))
    assert join(*halves) == pytest.approx(expected, rel=0.03, abs=0.5)  # codes of 8 bits move grey by about half a unit


def test_there_are_published_pairs_to_meet():
    assert len(list(pairs())) >= 4


@pytest.mark.parametrize(("high", "counts"), [(2.0, False), (4.0, True)])
def test_the_95th_percentile_is_taken_over_the_height(high, counts):
    patch = box(-60, 20, -50, 20 + high, BLACK)  # of 50 mm: 4 % and 8 %
    assert (join(ground(WHITE), patch) > 50.0) is counts


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED, FlatWrap(130.0, 100.0, 50.0, overlap_mm=0.0)])
def test_a_plain_ground_meets_itself(wrap):
    assert join(ground((0.1, 0.3, 0.2), wrap), wrap=wrap) == pytest.approx(0.0, abs=0.3)


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
def test_slanting_stripes_that_go_on_across_the_join_are_no_fault(wrap):
    x, y = wrap.to_flat(np.zeros(12), np.linspace(2.0, 46.0, 12))
    stripes = [polygon([(a - 4, b - 2), (a + 4, b + 1), (a + 4, b + 3), (a - 4, b)]) for a, b in zip(x, y, strict=True)]
    shapes = [(stripe, stripe.times(lap_motion(wrap, 1))) for stripe in stripes]
    items = [PlacedOutline(element=0, copy=0, path=path, colour=BLACK) for both in shapes for path in both]
    cut = [PlacedOutline(element=0, copy=0, path=one, colour=BLACK) for one, _ in shapes]
    assert join(ground(WHITE, wrap), *items, wrap=wrap) < 1.0
    assert join(ground(WHITE, wrap), *cut, wrap=wrap) > 50.0


def test_a_dark_coating_hides_part_of_it():
    halves = (box(-60, -2, 0, 52, GREY), box(0, -2, 60, 52, WHITE))
    on_white, on_grey = join(*halves), join(*halves, look=eye(coating=(0.4, 0.4, 0.4)))
    assert 0.3 * on_white < on_grey < 0.9 * on_white


def test_with_a_handle_there_is_no_join():
    mug = FlatWrap(120.0, 120.0, 50.0, gap_mm=20.0)
    assert join(ground(GREY, mug), wrap=mug) is None


def waves(periods: float) -> np.ndarray:
    """A busy picture that goes through so many periods from its left end to its right end."""
    x, y = np.meshgrid(np.arange(960) / 960, np.arange(400) / 400)
    turn = 2 * np.pi * periods
    bands = [np.sin(6 * turn * x + 40 * y), np.sin(11 * turn * x - 25 * y + 1), np.sin(3 * turn * x + 60 * y + 2)]
    return np.rint(127.5 + 110 * np.stack(bands, axis=-1)).astype(np.uint8)


@pytest.mark.parametrize(("periods", "meets"), [(1.0, True), (0.97, False), (1.12, False)])
def test_busy_art_that_meets_and_that_does_not(periods, meets):
    butt = FlatWrap(120.0, 120.0, 50.0)
    item, pixels = picture(waves(periods), width=120.0, height=54.0, wrap=butt)
    found = measured([item], {0: "picture"}, pixels=[pixels], wrap=butt, wide=True)[1].seam_de95
    assert (found < 3.0) is meets
    assert meets or found > 10.0


@pytest.mark.parametrize("shift", [0.0, 1.5, 5.0])
def test_discs_cut_by_the_join(shift):
    """Discs of 8 mm, 10 mm apart, their centres on the join; the right halves lie `shift` higher."""
    around = np.linspace(0.0, 2.0 * np.pi, 60, endpoint=False)
    items = []
    for up in np.arange(5.0, 50.0, 10.0):
        for x, rise in ((-60.0, 0.0), (60.0, shift)):
            ring = [(x + 4 * np.cos(a), up + rise + 4 * np.sin(a)) for a in around]
            items.append(PlacedOutline(element=0, copy=0, path=polygon(ring), colour=BLACK))
    found = join(ground(WHITE), *items)
    assert found < 1.0 if shift == 0.0 else found > 50.0


def test_tips_of_the_art_that_end_at_the_join_are_no_fault():
    """Lozenges whose right corner, cut 0.2 mm off, touches the join: the art takes such steps beside it as well."""
    tips = [polygon([(52, y), (56, y - 3), (60, y - 0.1), (60, y + 0.1), (56, y + 3)]) for y in range(3, 50, 5)]
    items = [PlacedOutline(element=0, copy=0, path=tip, colour=BLACK) for tip in tips]
    assert join(ground(WHITE), *items) < 1.0


LEAN = 0.16  # mm to the side for each mm up: 9 degrees from the join


def leaning(wrap):
    """Flags 7 mm high whose right edge all but follows the join and crosses it at mid height, each at both ends."""
    items = []
    for up in np.arange(4.5, 46.0, 8.0):
        heights = np.array([up - 3.5, up + 3.5, up + 3.5, up - 3.5])
        side = np.array([-3.5 * LEAN, 3.5 * LEAN, -4.0, -4.0])
        for turns in (0.0, 360.0):
            turn = turns + 360.0 * side / (wrap.lower_mm + wrap.theta * heights)
            x, y = wrap.to_flat(turn, heights)
            path = polygon(list(zip(x.tolist(), y.tolist(), strict=True)))
            items.append(PlacedOutline(element=0, copy=0, path=path, colour=BLACK))
    return items


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED, FlatWrap(130.0, 100.0, 50.0, overlap_mm=0.0)])
def test_an_edge_that_crosses_the_join_at_a_small_angle_is_no_fault(wrap):
    assert join(ground(WHITE, wrap), *leaning(wrap), wrap=wrap) < 3.0


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
def test_leaning_art_that_is_cut_off_at_the_join_is_one(wrap):
    right = np.array([[1.0, 0.0, 0.6], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
    ends = [item for item in leaning(wrap) if item.path.box()[0] > 0.0]
    cut = [PlacedOutline(element=0, copy=0, path=item.path.times(right), colour=BLACK) for item in ends]
    assert join(ground(WHITE, wrap), *cut, wrap=wrap) > 50.0
