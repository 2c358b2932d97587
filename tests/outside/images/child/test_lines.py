"""Lines made areas: held against the areas that shapely's buffers have."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon, unary_union

from wrapwright.outside.images.child.page.figure import Pen, straight
from wrapwright.outside.images.child.page.stroke import flat, round_enough, stroked

CAPS = {0: "flat", 1: "round", 2: "square"}
JOINS = {0: "mitre", 1: "round", 2: "bevel"}
BENT = [(0.0, 0.0), (10.0, 0.0), (14.0, 8.0), (3.0, 12.0), (-6.0, 9.0)]
CIRCLE = 0.5522847498307936  # 4 (sqrt 2 - 1) / 3: a quarter circle as a cubic, radius off by 0.03 %


def winding(rings, points) -> np.ndarray:
    """Return the winding numbers of rings about points, by the angles their edges are seen under."""
    total = np.zeros(len(points))
    for ring in rings:
        corners = np.asarray(ring)[None, :, :] - points[:, None, :]
        nxt = np.roll(corners, -1, axis=1)
        cross = corners[..., 0] * nxt[..., 1] - corners[..., 1] * nxt[..., 0]
        dot = (corners * nxt).sum(axis=-1)
        total += np.arctan2(cross, dot).sum(axis=1)
    return np.rint(total / (2 * math.pi))


def agree(curves, wanted, grid=45) -> None:
    """Assert that the filled area and the wanted one hold the same points, those near its border left aside."""
    left, bottom, right, top = wanted.bounds
    x, y = np.meshgrid(np.linspace(left - 1, right + 1, grid), np.linspace(bottom - 1, top + 1, grid))
    points = np.column_stack([x.ravel(), y.ravel()])
    near = shapely.distance(shapely.points(points), wanted.boundary) < 0.02
    inside = shapely.contains_xy(wanted, points[:, 0], points[:, 1])
    got = winding([flat(curve, 1e-3) for curve in curves], points) != 0
    assert inside.any()
    assert np.array_equal(got[~near], inside[~near])


@pytest.mark.parametrize("cap", CAPS)
@pytest.mark.parametrize("join", JOINS)
def test_open_lines(cap, join):
    pen = Pen(3.0, cap, join, miter=10.0)
    wanted = LineString(BENT).buffer(1.5, cap_style=CAPS[cap], join_style=JOINS[join], mitre_limit=10.0, quad_segs=64)
    agree(stroked([(straight(BENT), False)], pen, 1e-3), wanted)


@pytest.mark.parametrize("join", JOINS)
def test_closed_lines(join):
    pen = Pen(2.0, 0, join, miter=10.0)
    ring = Polygon(BENT)
    outer = ring.buffer(1.0, join_style=JOINS[join], mitre_limit=10.0, quad_segs=64)
    inner = ring.buffer(-1.0, join_style="mitre", mitre_limit=10.0)
    agree(stroked([(straight([*BENT, BENT[0]]), True)], pen, 1e-3), outer.difference(inner))


def test_a_circle_has_the_area_of_a_ring():
    r, k = 10.0, 10.0 * CIRCLE
    points = [
        (r, 0),
        (r, k),
        (k, r),
        (0, r),
        (-k, r),
        (-r, k),
        (-r, 0),
        (-r, -k),
        (-k, -r),
        (0, -r),
        (k, -r),
        (r, -k),
        (r, 0),
    ]
    outer, inner = stroked([(points, True)], Pen(2.0), 1e-4)
    areas = sorted(abs(Polygon(flat(curve, 1e-4)).area) for curve in (outer, inner))
    assert areas == [pytest.approx(math.pi * 81, rel=1e-3), pytest.approx(math.pi * 121, rel=1e-3)]
    assert round_enough([(points, True)], Pen(2.0))


def test_dashes_have_their_lengths():
    """ISO 32000-1, table 56: [3 5] 6 draws from 2 units after the start, for 3 units, every 8."""
    areas = stroked([(straight([(0.0, 0.0), (30.0, 0.0)]), False)], Pen(2.0, dashes=(3.0, 5.0), phase=6.0), 1e-3)
    spans = sorted((min(x for x, _ in flat(c, 1e-3)), max(x for x, _ in flat(c, 1e-3))) for c in areas)
    assert spans == [pytest.approx((2 + 8 * k, 5 + 8 * k)) for k in range(4)]
    dots = stroked([(straight([(0.0, 0.0), (30.0, 0.0)]), False)], Pen(2.0, 1, dashes=(0.0, 10.0)), 1e-3)
    wanted = unary_union([LineString([(x, 0), (x, 0.001)]).buffer(1, quad_segs=32) for x in (0, 10, 20)])
    agree(dots[:3], wanted)


def test_a_dash_runs_on_round_a_corner():
    corner = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]
    (first, *_) = stroked([(straight(corner), False)], Pen(2.0, dashes=(15.0, 50.0)), 1e-3)
    wanted = LineString([(0, 0), (10, 0), (10, 5)]).buffer(1, cap_style="flat", join_style="mitre")
    agree([first], wanted)


def test_a_sharp_corner_past_the_limit_is_cut():
    sharp = [(0.0, 0.0), (20.0, 0.0), (0.0, 2.0)]
    reach = max(x for curve in stroked([(straight(sharp), False)], Pen(2.0, miter=4.0), 1e-3) for x, _ in curve[0])
    assert reach < 21.1
    reach = max(x for curve in stroked([(straight(sharp), False)], Pen(2.0, miter=40.0), 1e-3) for x, _ in curve[0])
    # The miter's length is the width over the sine of half the corner (ISO 32000-1, 8.4.3.5), half of it beyond.
    half = math.atan2(2, 20) / 2
    assert reach == pytest.approx(20 + math.cos(half) / math.sin(half), rel=1e-3)


@pytest.mark.parametrize(
    ("pen", "same"),
    [(Pen(2, 1, 1), True), (Pen(2, 0, 1), False), (Pen(2, 1, 0), False), (Pen(2, 1, 1, dashes=(1,)), False)],
)
def test_when_round_ends_draw_the_same(pen, same):
    assert round_enough([(straight(BENT), False)], pen) is same


def test_a_line_wider_than_its_bends_stays_whole():
    """The inner border of so tight a bend turns back on itself; nothing may come out uncovered."""
    bend = [(0.0, 0.0), (2.0, 4.0), (-1.0, 4.0), (1.0, 0.0)]
    wanted = LineString(flat((bend, False), 1e-4)).buffer(1.5, quad_segs=64)
    agree(stroked([(bend, False)], Pen(3.0, 1, 1), 1e-3), wanted)
