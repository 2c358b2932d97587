"""A picture: cropped, adjusted, masked, flipped, fitted, turned and laid, one copy an angle."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import Extent, PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import Picture
from wrapwright.core.design.kinds.art import Sizing, painter, solid_items
from wrapwright.core.design.kinds.ground import (
    Ground,
    Layer,
    across,
    box_of,
    centre_up,
    over_laps,
    picture_lay,
    placed,
    reach_turns,
    stacked,
    supplied,
)
from wrapwright.core.design.path import Path, Subpath, joined
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Art
from wrapwright.core.design.warp import bent


def lay_picture(index: int, element: Picture, ground: Ground) -> Layer:
    """Return a picture's items and extents, copy by copy.

    The mask is fitted to the part that shows (the whole cropped picture unless `fit = cover` cuts it) and is
    flipped with the picture. With `width = "wrap"` there is one copy, level, which covers the wrap from end to end.
    """
    art = supplied(ground, index, Art, element)
    if element.wrap_width:
        return _round_the_wrap(index, element, ground, art)
    sizing = sized(element, art, element.width_mm, element.height_mm)
    wide, high = sizing.window_mm
    lay = picture_lay(ground, element, element.lay, across(wide, high, element.turn_deg))
    copies = [placed(ground, element, at, lay, element.turn_deg) for at in element.at_deg]
    return stacked(
        [
            _copy(index, copy, at, (element, art, sizing, placement), ground)
            for copy, (at, placement) in enumerate(zip(element.at_deg, copies, strict=True))
        ]
    )


def sized(element: Picture, art: Art, width_mm: float | None, height_mm: float | None) -> Sizing:
    """Return the picture's size by its fit: one length keeps the proportions, two are inside, cover or stretch."""
    left, top, right, bottom = element.crop
    if not (0.0 <= left < right <= 1.0 and 0.0 <= top < bottom <= 1.0):
        raise unusable(
            f"crop {list(element.crop)} leaves nothing of the picture.",
            remedy="Give left, top, right, bottom as shares from 0 to 1, left < right and top < bottom.",
            where=element.name,
        )
    aspect = art.height * (bottom - top) / (art.width * (right - left))
    if width_mm is None and height_mm is None:
        raise unusable("a picture needs a width or a height.", where=element.name)
    wide = width_mm if width_mm is not None else (height_mm or 0.0) / aspect
    high = height_mm if height_mm is not None else wide * aspect
    box = (wide, high)
    if width_mm is None or height_mm is None or element.fit == "stretch":
        return Sizing(wide, high, box, element.crop, element.flip)
    by_width, by_height = wide, high / aspect
    if element.fit == "inside":
        wide = min(by_width, by_height)
        return Sizing(wide, wide * aspect, (wide, wide * aspect), element.crop, element.flip)
    wide = max(by_width, by_height)
    return Sizing(wide, wide * aspect, box, element.crop, element.flip)


def mask_path(index: int, element: Picture, ground: Ground, sizing: Sizing) -> Path | None:
    """Return the mask in local mm, flipped with the picture, or None without one."""
    if element.mask is None:
        return None
    wide, high = sizing.window_mm
    if element.mask.kind == "circle":
        return rounded_box(wide, high, wide / 2.0, high / 2.0)
    if element.mask.kind == "rounded":
        radius = min(element.mask.radius_mm, wide / 2.0, high / 2.0)
        return rounded_box(wide, high, radius, radius)
    shape = ground.masks.get(index)
    if shape is None or not shape.subpaths:
        raise unusable(f"the mask {element.mask.file} has no filled shape.", where=element.name)
    side = -wide if element.flip else wide
    return shape.times(np.array([[side, 0.0, -side / 2.0], [0.0, high, -high / 2.0], [0.0, 0.0, 1.0]]))


def rounded_box(width: float, height: float, radius_x: float, radius_y: float) -> Path:
    """Return a box whose corners are quarter ellipses, each in two cubics (radial error under 5 in a million)."""
    if radius_x <= 0.0 or radius_y <= 0.0:
        return box_of(width, height)
    handle = 4.0 / 3.0 * math.tan(math.pi / 16.0)
    points: list[tuple[float, float]] = []
    for quarter, (side_x, side_y) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        middle = np.array([side_x * (width / 2.0 - radius_x), side_y * (height / 2.0 - radius_y)])
        for eighth in (0, 1):
            start = math.pi / 4.0 * (2 * quarter + eighth)
            end = start + math.pi / 4.0
            one, other = _on_circle(start), _on_circle(end)
            chain = (
                one,
                one + handle * _on_circle(start + math.pi / 2),
                other - handle * _on_circle(end + math.pi / 2),
            )
            points += [tuple(middle + p * (radius_x, radius_y)) for p in (*chain, other)]
    return Path((_linked(points),))


def _on_circle(angle: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array([math.cos(angle), math.sin(angle)])


def _linked(points: list[tuple[float, float]]) -> Subpath:
    """Return curves (four points each) as one closed chain, joined by straight lines where they do not meet."""
    curves = np.array(points).reshape(-1, 4, 2)
    out = [curves[0, :1]]
    for curve in curves:
        gap = curve[0] - out[-1][-1]
        if np.abs(gap).max() > 1e-9:
            out.append(np.stack([out[-1][-1] + gap / 3.0, curve[0] - gap / 3.0, curve[0]]))
        out.append(curve[1:])
    return Subpath(np.vstack(out))


_Job = tuple[Picture, Art, Sizing, Placement]


def _copy(index: int, copy: int, at: float, job: _Job, ground: Ground, *, laps: bool = True) -> Layer:
    """Return one copy: its items at every lap that shows, and its extent."""
    element, _, sizing, placement = job
    mask = mask_path(index, element, ground, sizing)
    border = bent(mask if mask is not None else box_of(*sizing.window_mm), placement)
    items = _items(index, copy, job, mask, ground)
    ink = border
    solids = [item.path for item in items if isinstance(item, PlacedOutline)]
    if solids and mask is None:
        ink = joined(solids)
    shown = over_laps(ground, items, border) if laps else tuple(items)
    extent = Extent(
        element=index,
        copy=copy,
        at_deg=at % 360.0,
        across_mm=0.0 if element.wrap_width else element.across_mm,
        up_mm=placement.up_mm,
        width_mm=sizing.window_mm[0],
        height_mm=sizing.window_mm[1],
        lay=placement.lay,
        outline=border,
        ink=ink,
    )
    return Layer(shown, (extent,))


def _items(index: int, copy: int, job: _Job, mask: Path | None, ground: Ground) -> list[PlacedOutline | PlacedPicture]:
    """Return the items of one copy at lap 0."""
    element, art, sizing, placement = job
    if art.kind == "outlines":
        paint = painter(ground, element.adjust)
        solids = solid_items(art, sizing, lambda path: bent(path, placement), paint=paint, clip=mask)
        return [replace(item, element=index, copy=copy, copy_opacity=element.opacity) for item in solids]
    return [
        PlacedPicture(
            element=index,
            copy=copy,
            opacity=element.opacity,
            picture=art.id,
            placement=placement,
            width_mm=sizing.width_mm,
            height_mm=sizing.height_mm,
            crop=element.crop,
            flip=element.flip,
            adjust=element.adjust,
            window_mm=sizing.window_mm,
            mask=mask,
            join_mm=element.join_mm if element.wrap_width else 0.0,
        )
    ]


def _round_the_wrap(index: int, element: Picture, ground: Ground, art: Art) -> Layer:
    """Return the one copy that covers the wrap from cut to cut; its width is the arc at its centre's height.

    On a taper the ends are cut parallel to the seam's line, so the widest turn anywhere in the bleed counts.
    On a flat blank it covers the bleed as well.
    With a height as well, `inside` would leave the ends bare, so it is taken as `cover`.
    """
    wrap, up = ground.wrap, centre_up(ground, element)
    heights = (-ground.bleed_mm, up, wrap.height_mm + ground.bleed_mm)
    left, right = reach_turns(ground, heights)
    width = (right - left) / 360.0 * wrap.turn_length(up)
    if element.join_mm > 0.0:
        _can_blend(element, art, wrap, wrap.turn_length(up) / 2.0)
    flat = replace(element, fit="cover" if element.height_mm is not None and element.fit == "inside" else element.fit)
    sizing = sized(flat, art, width, element.height_mm)
    middle = (left + right) / 2.0
    placement = Placement(wrap, middle, up, "level", element.turn_deg)
    return _copy(index, 0, wrap.at_of(middle), (element, art, sizing, placement), ground, laps=False)


def _can_blend(element: Picture, art: Art, wrap: FlatWrap, most_mm: float) -> None:
    """Refuse a cross-fade that cannot be made: without a join, of outlines, or over more than half a turn."""
    asked = f"a blend of {element.join_mm:g} mm is asked"
    if wrap.plate is not None:
        fault, remedy = "a flat blank has no ends that meet", "Leave join out."
    elif wrap.gap_mm > 0.0:
        fault, remedy = "the ends stop at the handle and do not meet", "Leave join out."
    elif art.kind == "outlines":
        fault = "the drawing is of solid shapes, which do not cross-fade"
        remedy = "Draw its ends so that they meet and leave join out, or save it as PNG."
    elif element.join_mm > most_mm:
        fault, remedy = f"half a turn, {most_mm:.1f} mm, is the most", "Ask for a shorter one, for example 12 mm."
    else:
        return
    raise unusable(f"{asked} but {fault}.", remedy=remedy, where=f"{element.name}: join")
