"""Which items of a draw list become pixels and which stay outlines."""

from __future__ import annotations

from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedOutline, PlacedPicture
from wrapwright.core.design.kinds.ground import box_of
from wrapwright.core.design.warp import bent

Box = tuple[float, float, float, float]
NOWHERE: Box = (0.0, 0.0, 0.0, 0.0)


def split(draw_list: DrawList) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the indices of the raster items and of the vector items, each bottom to top.

    Raster: everything that is a picture, a gradient or translucent, and everything whose box overlaps the box of
    a raster item above it. All raster items together lie under all vector items.
    """
    raster: list[int] = []
    vector: list[int] = []
    covered: list[Box] = []
    for index in reversed(range(len(draw_list.items))):
        item = draw_list.items[index]
        box = item_box(draw_list, item)
        if not stays_outline(item) or any(overlap(box, other) for other in covered):
            raster.append(index)
            covered.append(box)
        else:
            vector.append(index)
    return tuple(reversed(raster)), tuple(reversed(vector))


def stays_outline(item: AnyItem) -> bool:
    """Return whether an item on its own can stand on a sheet as a filled path or a line of one colour."""
    return isinstance(item, PlacedOutline) and min(item.opacity, item.copy_opacity) >= 1.0


def item_box(draw_list: DrawList, item: AnyItem) -> Box:
    """Return the box in flat mm that an item can mark, its clips and the wrap's bleed taken into account."""
    box = bleed_outline(draw_list.wrap, draw_list.bleed_mm).box()
    if isinstance(item, PlacedOutline):
        box = _common(box, _grown(item.path.box(), item.stroke_mm / 2.0))
    elif isinstance(item, PlacedPicture) and item.repeat is None:
        shown = item.mask if item.mask is not None else box_of(*item.window_mm)
        box = _common(box, bent(shown, item.placement).box())
    for clip in item.clips:
        box = _common(box, clip.box())
    return box


def overlap(one: Box, other: Box) -> bool:
    """Return whether two boxes share some area."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _common(one: Box, other: Box) -> Box:
    if not overlap(one, other):
        return NOWHERE
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def _grown(box: Box, by: float) -> Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by
