"""Places in both frames, against the development of a cone written out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path, Subpath, line_points, rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import bent
from wrapwright.jobs.live.values import FrameKind, Matrix
from wrapwright.jobs.live.views.frames import Canvas

CONE = FlatWrap(lower_mm=200.0, upper_mm=260.0, height_mm=100.0, overlap_mm=8.0, seam_deg=270.0)
STEEP = FlatWrap(lower_mm=300.0, upper_mm=180.0, height_mm=70.0, overlap_mm=6.0, seam_deg=30.0)
TUBE = FlatWrap(lower_mm=240.0, upper_mm=240.0, height_mm=90.0, overlap_mm=8.0, seam_deg=270.0)
KINDS: tuple[FrameKind, ...] = ("flat", "straight")


def developed(wrap: FlatWrap, turn: float, up: float) -> tuple[float, float]:
    """Development of a cone frustum (any handbook of descriptive geometry): a circle sector about the apex."""
    theta = (wrap.upper_mm - wrap.lower_mm) / wrap.height_mm
    apex = wrap.lower_mm / theta
    phi = theta * (turn / 360.0 - 0.5)
    return (apex + up) * math.sin(phi), (apex + up) * math.cos(phi) - apex


def through(matrix: Matrix, a: float, b: float) -> tuple[float, float]:
    """SVG's transform of a point whose b counts up, given back with y up."""
    x, y = a, -b
    return matrix[0] * x + matrix[2] * y + matrix[4], -(matrix[1] * x + matrix[3] * y + matrix[5])


@pytest.mark.parametrize("wrap", [CONE, STEEP])
def test_flat_and_straight_places_are_those_of_the_developed_cone(wrap: FlatWrap) -> None:
    flat, straight = Canvas(wrap, 2.0, "flat"), Canvas(wrap, 2.0, "straight")
    girth = (wrap.lower_mm + wrap.upper_mm) / 2.0
    for turn, up in ((0.0, 0.0), (37.0, 12.5), (180.0, 50.0), (311.0, 69.0), (372.0, 3.0)):
        at, high = np.array([turn]), np.array([up])
        place = developed(wrap, turn, up)
        assert np.allclose(np.concatenate(flat.place(at, high)), place, atol=1e-9)
        there = np.concatenate(straight.place(at, high))
        assert np.allclose(there, ((turn / 360.0 - 0.5) * girth, up), atol=1e-9)
        assert np.allclose(straight.of_flat(np.array([place]), turn)[0], there, atol=1e-9)
        assert np.allclose(straight.to_flat(*there), place, atol=1e-9)


def test_on_a_straight_wall_both_frames_are_one() -> None:
    flat, straight = (Canvas(TUBE, 2.0, kind) for kind in KINDS)
    placement = Placement(TUBE, 100.0, 40.0, "true", 15.0)
    assert flat.box == straight.box
    assert flat.matrix(placement) == straight.matrix(placement)
    assert all(canvas.rigid(lay) for canvas in (flat, straight) for lay in ("true", "level"))


@pytest.mark.parametrize(("kind", "lay"), [("flat", "true"), ("straight", "level")])
def test_the_matrix_of_a_rigid_copy_puts_every_point_where_it_lies(kind: FrameKind, lay: str) -> None:
    canvas = Canvas(CONE, 2.0, kind)
    placement = Placement(CONE, 250.0, 30.0, lay, 20.0)
    assert canvas.rigid(lay)
    matrix = canvas.matrix(placement)
    for a, b in ((0.0, 0.0), (17.0, -4.0), (-9.0, 12.0)):
        x, y = placement.to_flat(np.array([[a, b]]))[0]
        true = canvas.of_flat(np.array([[x, y]]), 250.0)[0]
        assert np.allclose(through(matrix, a, b), true, atol=1e-9)


@pytest.mark.parametrize(("kind", "lay"), [("flat", "level"), ("straight", "true")])
def test_the_other_lay_is_bent_in_a_frame(kind: FrameKind, lay: str) -> None:
    assert not Canvas(CONE, 2.0, kind).rigid(lay)


def test_a_whole_turn_on_is_the_copy_carried_round() -> None:
    canvas = Canvas(CONE, 2.0, "flat")
    here, on = (canvas.matrix(Placement(CONE, turn, 30.0, "true", 10.0)) for turn in (20.0, 380.0))
    motion = CONE.carried_round(1.0)
    for a, b in ((0.0, 0.0), (11.0, 5.0)):
        x, y = through(here, a, b)
        moved = motion @ np.array([x, y, 1.0])
        assert np.allclose(moved[:2], through(on, a, b), atol=1e-9)


@pytest.mark.parametrize("wrap", [CONE, STEEP])
def test_straightened_outlines_are_true_to_a_twentieth_of_a_millimetre(wrap: FlatWrap) -> None:
    placement = Placement(wrap, 200.0, 35.0, "true", 25.0)
    path = bent(rectangle(-40.0, -22.0, 35.0, 25.0), placement)
    canvas = Canvas(wrap, 2.0, "straight")
    made = dense(canvas.path(path, 200.0), 64)
    true = canvas.of_flat(dense(path, 300), 200.0)
    gaps = [np.min(distance_to_segments(point, made)) for point in true[::7]]
    assert max(gaps) < 0.05
    assert max(gaps) > 0.0  # it is bent: no place falls on the polyline by itself


def test_an_open_line_stays_open_and_keeps_its_ends() -> None:
    line = Path((Subpath(line_points(np.array([[-50.0, 10.0], [60.0, 40.0]])), closed=False),))
    canvas = Canvas(CONE, 2.0, "straight")
    (sub,) = canvas.path(line).subpaths
    assert not sub.closed
    ends = canvas.of_flat(np.array([[-50.0, 10.0], [60.0, 40.0]]))
    assert np.allclose(sub.points[[0, -1]], ends, atol=1e-9)


def test_the_straight_box_spans_the_overlap_and_the_bleed() -> None:
    left, bottom, right, top = Canvas(CONE, 2.0, "straight").box
    girth = 230.0
    assert (bottom, top) == pytest.approx((-2.0, 102.0), abs=0.01)
    assert left == pytest.approx(-girth / 2.0, abs=0.01)
    # The overlap is a strip of constant width: as an angle it is widest at the narrow end, 2 mm below the band.
    radius, theta = 200.0 / 0.6 - 2.0, 0.6
    wide = math.asin(8.0 / radius) / theta
    assert right == pytest.approx(girth * (0.5 + wide), abs=0.01)


def dense(path: Path, steps: int) -> np.ndarray:
    at = (np.arange(steps) / steps)[:, None]
    out = []
    for sub in path.subpaths:
        for first in range(0, len(sub.points) - 1, 3):
            p0, p1, p2, p3 = sub.points[first : first + 4]
            s = 1.0 - at
            out.append(s**3 * p0 + 3 * s**2 * at * p1 + 3 * s * at**2 * p2 + at**3 * p3)
        out.append(sub.points[-1:])
    return np.concatenate(out)


def distance_to_segments(point: np.ndarray, line: np.ndarray) -> np.ndarray:
    start, step = line[:-1], np.diff(line, axis=0)
    length = np.maximum((step * step).sum(axis=1), 1e-12)
    along = np.clip(((point - start) * step).sum(axis=1) / length, 0.0, 1.0)
    return np.hypot(*(start + along[:, None] * step - point).T)
