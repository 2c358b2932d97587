"""Wraps, outlines and pictures to be measured."""

from __future__ import annotations

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, Extent, PlacedOutline, PlacedPicture
from wrapwright.core.design.path import Path, rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Pixels
from wrapwright.core.design.warp import bent
from wrapwright.outside.codes.reading import texts_read
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.measure import measure
from wrapwright.outside.raster.measuring.subjects import Eye, Subject

STRAIGHT = FlatWrap(120.0, 120.0, 50.0, overlap_mm=6.0)
TAPERED = FlatWrap(100.0, 130.0, 50.0, overlap_mm=6.0)
BLEED = 2.0
WHITE, BLACK, GREY = (1.0, 1.0, 1.0), (0.0, 0.0, 0.0), (0x77 / 255,) * 3


def eye(coating=WHITE, **more) -> Eye:
    """The driver route's eye: colours come out as they are."""
    return Eye(coating, seen=lambda codes: codes, read=texts_read, **more)


def box(left, bottom, right, top, colour, element=0, **more) -> PlacedOutline:
    """A plain box in flat mm."""
    path = rectangle(left, bottom, right, top)
    return PlacedOutline(element=element, copy=0, path=path, colour=colour, **more)


def ground(colour, wrap=STRAIGHT, element=0, **more) -> PlacedOutline:
    """A fill of the whole wrap."""
    return PlacedOutline(element=element, copy=0, path=bleed_outline(wrap, BLEED), colour=colour, **more)


def picture(array: np.ndarray, *, element=0, width=40.0, height=30.0, wrap=STRAIGHT, turn=180.0, **more):
    """A placed picture in the band's middle, and its pixels."""
    place = Placement(wrap, turn, wrap.height_mm / 2, "level")
    name = f"picture {element}"
    item = PlacedPicture(
        element=element, copy=0, picture=name, placement=place, width_mm=width, height_mm=height,
        window_mm=(width, height), **more,
    )  # fmt: skip
    return item, Pixels(name, array, "rgb", array.shape[-1] == 4)


def extent_of(item: AnyItem) -> Extent:
    """Where an item lies; a code's box is its path's."""
    if isinstance(item, PlacedPicture):
        wide, high = item.window_mm
        path = bent(item.mask or rectangle(-wide / 2, -high / 2, wide / 2, high / 2), item.placement)
    else:
        path = item.path if isinstance(item, PlacedOutline) else Path()
    left, bottom, right, top = path.box()
    return Extent(item.element, 0, 0.0, 25.0, right - left, top - bottom, "level", path, path)


def measured(items, kinds, *, pixels=(), wrap=STRAIGHT, look=None, **facts):
    """Measure items, one element each, of the given kinds by element; the rows by element and all of it."""
    extents = {item.element: extent_of(item) for item in items}
    draw_list = DrawList(wrap, BLEED, tuple(items), tuple(extents.values()))
    subjects = [Subject(element, 0, str(element), kind, **facts) for element, kind in kinds.items()]
    found = measure(draw_list, {one.id: one for one in pixels}, subjects, space=srgb_working(), eye=look or eye())
    return {int(row.element): row for row in found.copies}, found
