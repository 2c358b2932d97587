"""The outlines of flat blanks, against plane geometry and shapely's own distances."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.core.design.borders import bleed_outline, flattened, inside_trim, safe_outline, trim_outline
from wrapwright.core.design.drawlist import PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import Picture, Tile
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import Path, joined, polygon, rectangle
from wrapwright.core.design.plates import outer_ring, plate_room
from wrapwright.core.design.supplies import Art, ArtShape

STAR = tuple(
    (radius * math.sin(step * math.pi / 5), 40 - radius * math.cos(step * math.pi / 5))
    for step, radius in enumerate((40, 18) * 5)
)
WIDE = max(x for x, _ in STAR) - min(x for x, _ in STAR)
HIGH = max(y for _, y in STAR) - min(y for _, y in STAR)
RING = tuple((x, y - min(v for _, v in STAR)) for x, y in STAR)

CIRCLE = FlatWrap(95.0, 95.0, 95.0, seam_deg=180.0, plate=Plate("circle"))
SHARP = FlatWrap(60.0, 60.0, 40.0, seam_deg=180.0, plate=Plate("rectangle"))
ROUND = FlatWrap(60.0, 60.0, 40.0, seam_deg=180.0, plate=Plate("rectangle", 6.0))
DRAWN = FlatWrap(WIDE, WIDE, HIGH, seam_deg=180.0, plate=Plate("outline", ring=RING))


def area(path: Path) -> Polygon:
    (sub,) = path.subpaths
    return Polygon(flattened(sub, 40))


def test_a_circle_grows_and_shrinks_as_a_circle() -> None:
    for path, radius in (
        (trim_outline(CIRCLE), 47.5),
        (bleed_outline(CIRCLE, 2.0), 49.5),
        (safe_outline(CIRCLE, 4.0), 43.5),
    ):
        points = np.concatenate([flattened(sub, 40) for sub in path.subpaths]) - [0.0, 47.5]
        assert np.hypot(*points.T) == pytest.approx(radius, abs=5e-4)
    assert safe_outline(CIRCLE, 48.0).subpaths == ()


def test_corners_stay_what_they_are() -> None:
    assert area(bleed_outline(SHARP, 2.0)).bounds == pytest.approx((-32.0, -2.0, 32.0, 42.0))
    assert area(bleed_outline(SHARP, 2.0)).area == pytest.approx(64.0 * 44.0)
    # A box with corners of radius r has (4 - pi) r^2 less than the sharp one.
    for path, sides, radius in (
        (trim_outline(ROUND), (60.0, 40.0), 6.0),
        (bleed_outline(ROUND, 2.0), (64.0, 44.0), 8.0),
        (safe_outline(ROUND, 4.0), (52.0, 32.0), 2.0),
        (safe_outline(ROUND, 8.0), (44.0, 24.0), 0.0),
    ):
        assert area(path).area == pytest.approx(sides[0] * sides[1] - (4 - math.pi) * radius**2, rel=1e-5)


def test_an_outline_grows_by_the_same_all_round() -> None:
    trim = Polygon(RING)
    grown = area(bleed_outline(DRAWN, 2.0))
    assert grown.exterior.is_ccw
    away = [trim.distance(Point(*corner)) for corner in grown.exterior.coords]
    assert away == pytest.approx([2.0] * len(away), abs=0.003)
    assert trim.buffer(1.99, quad_segs=64).within(grown)
    assert np.array_equal(flattened(trim_outline(DRAWN).subpaths[0], 1)[: len(RING)], np.array(RING))
    assert len(safe_outline(DRAWN, 19.0).subpaths) == 0


@pytest.mark.parametrize("wrap", [CIRCLE, ROUND, DRAWN, SHARP], ids=["circle", "round", "drawn", "sharp"])
def test_the_room_to_the_outline_is_shapelys_distance(wrap: FlatWrap) -> None:
    assert wrap.plate is not None
    x, y = np.meshgrid(np.linspace(-50, 50, 23), np.linspace(-4, 99, 23))
    room = plate_room(wrap, wrap.plate, x.ravel(), y.ravel())
    trim = area(trim_outline(wrap))
    for at, found in zip(zip(x.ravel(), y.ravel(), strict=True), room, strict=True):
        true = trim.exterior.distance(Point(*at)) * (1 if trim.contains(Point(*at)) else -1)
        if wrap is SHARP and true < 0:
            assert true - 1e-9 <= found <= 1e-9  # beyond a corner its mitred bleed goes farther
        else:
            assert found == pytest.approx(true, abs=3e-3)
    inside = inside_trim(wrap, x.ravel(), y.ravel(), 2.0)
    grown = area(bleed_outline(wrap, 2.0))
    sure = [abs(grown.exterior.distance(Point(*at))) > 0.01 for at in zip(x.ravel(), y.ravel(), strict=True)]
    truth = [grown.contains(Point(*at)) for at in zip(x.ravel(), y.ravel(), strict=True)]
    assert [a for a, ok in zip(inside.tolist(), sure, strict=True) if ok] == [
        b for b, ok in zip(truth, sure, strict=True) if ok
    ]


def art(*paths: Path, stroke: float = 0.0) -> Art:
    return Art("x", "outlines", 120.0, 60.0, shapes=tuple(ArtShape(path, (0, 0, 0), stroke=stroke) for path in paths))


def test_the_outer_ring_of_a_drawing_is_in_its_own_unit_and_its_holes_are_counted() -> None:
    plate, hole = rectangle(0.1, 0.1, 0.9, 0.9), rectangle(0.4, 0.4, 0.6, 0.6)
    ring, holes = outer_ring(art(joined([plate, hole])), where="blank: outline")
    assert holes == 1
    assert Polygon(ring).bounds == pytest.approx((12.0, 6.0, 108.0, 54.0))
    curved, none = outer_ring(art(trim_outline(CIRCLE).times(np.diag([1 / 95, 1 / 95, 1]))), where="")
    assert none == 0
    # Half the drawing's circle lies left of its page; straight pieces miss it by a 20,000th of 120 at most.
    assert Polygon(curved).area == pytest.approx(math.pi * 60 * 30, rel=4e-4)


@pytest.mark.parametrize(
    ("drawn", "said"),
    [
        (art(), "holds no filled shape"),
        (art(rectangle(0, 0, 1, 1), stroke=0.1), "holds no filled shape"),
        (art(polygon([(0, 0), (1, 1), (0.5, 0.5)])), "holds no filled shape"),
        (art(rectangle(0, 0, 0.4, 1), rectangle(0.5, 0, 1, 1)), "holds 2 shapes that are not inside each other"),
    ],
    ids=["nothing", "a line", "no area", "two"],
)
def test_a_drawing_without_one_shape_is_refused(drawn: Art, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        outer_ring(drawn, where="blank: outline")
    assert said in str(caught.value)


def test_a_tile_keeps_the_size_that_is_asked_and_covers_the_bleed() -> None:
    tile = Tile(name="it", file="x.svg", width_mm=17.0, gap_mm=1.0)
    dot = Art("x", "outlines", 10.0, 10.0, shapes=(ArtShape(rectangle(0, 0, 1, 1), (0, 0, 0)),))
    laid = lay_out([tile], wrap=SHARP, bleed_mm=2.0, supplies={0: dot})
    assert laid.remarks == ()  # nothing closes at a seam, so that nothing was changed
    (item,) = laid.draw_list.items
    assert isinstance(item, PlacedOutline)
    boxes = np.array([Path((sub,)).box() for sub in item.path.subpaths])
    assert boxes[:, 2] - boxes[:, 0] == pytest.approx(17.0)
    lefts = sorted({round(one, 6) for one in boxes[:, 0].tolist()})
    assert np.diff(lefts) == pytest.approx(18.0)
    assert -8.5 in lefts  # one repeat is centred on the middle
    assert (min(lefts), max(lefts) + 17.0) == (-44.5, 44.5)  # 32 mm either side with the bleed, 18 mm a step


def test_a_picture_as_wide_as_the_blank_takes_in_the_bleed_and_does_not_lap() -> None:
    photo = Art("x", "pixels", 640.0, 440.0)
    wide = Picture(name="it", file="x.png", wrap_width=True)
    laid = lay_out([wide], wrap=SHARP, bleed_mm=2.0, supplies={0: photo})
    (item,) = laid.draw_list.items
    assert isinstance(item, PlacedPicture)
    assert (item.width_mm, item.height_mm, item.placement.laps) == (pytest.approx(64.0), pytest.approx(44.0), 0)
    with pytest.raises(WrapwrightError, match="a flat blank has no ends that meet"):
        lay_out([replace(wide, join_mm=5.0)], wrap=SHARP, bleed_mm=2.0, supplies={0: photo})
