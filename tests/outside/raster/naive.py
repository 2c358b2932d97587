"""The slow, plain renderer: every sub-sample of every pixel asked on its own, in float64, averaged in linear light.

It shares nothing with the fast one but the draw list, the placements and sRGB's curve.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from itertools import groupby

import numpy as np

from wrapwright.core.blank.trim import end_turns
from wrapwright.core.colour import srgb
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedGradient, PlacedOutline, PlacedPicture
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import Path

Array = np.ndarray


def naive(draw_list: DrawList, frame: Frame, pictures: Mapping[str, Array], *, sub: int = 5) -> Array:
    """Return encoded sRGB codes 0..255, float64 (h, w, 3). Pictures: float encoded sRGB 0..1 with alpha, (h, w, 4)."""
    rows = (np.arange(frame.height_px * sub) + 0.5) / sub
    columns = (np.arange(frame.width_px * sub) + 0.5) / sub
    px, py = np.meshgrid(columns, rows)
    m = frame.to_flat
    x, y = m[0, 0] * px + m[0, 1] * py + m[0, 2], m[1, 0] * px + m[1, 1] * py + m[1, 2]
    light = np.ones((*x.shape, 3))
    region = inside(bleed_outline(draw_list.wrap, draw_list.bleed_mm), x, y)
    for (_, _, opacity), items in groupby(
        draw_list.items, key=lambda item: (item.element, item.copy, item.copy_opacity)
    ):
        before = light
        for item in items:
            colour, alpha = _painted(item, draw_list, x, y, pictures)
            share = (alpha * item.opacity * region)[..., None]
            for clip in item.clips:
                share = share * inside(clip, x, y)[..., None]
            light = colour * share + light * (1 - share)
        light = light * opacity + before * (1 - opacity)
    small = light.reshape(frame.height_px, sub, frame.width_px, sub, 3).mean(axis=(1, 3))
    return srgb.encode(small) * 255


def polygons(path: Path, steps: int = 16) -> list[Array]:
    """Return each subpath as a fine polyline, closed when it is."""
    out = []
    for one in path.subpaths:
        t = (np.arange(1, steps + 1) / steps)[:, None]
        line = [one.points[:1]]
        for at in range(0, len(one.points) - 1, 3):
            a, b, c, d = one.points[at : at + 4]
            line.append((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d)
        points = np.vstack(line)
        out.append(np.vstack([points, points[:1]]) if one.closed else points)
    return out


def inside(path: Path, x: Array, y: Array, *, even_odd: bool = False) -> Array:
    """Return which points lie inside, by counting signed crossings of a ray to the right."""
    winding = np.zeros(x.shape, dtype=int)
    for line in polygons(path):
        for (x0, y0), (x1, y1) in zip(line, np.roll(line, -1, axis=0), strict=True):
            if y0 == y1:
                continue
            at = np.nonzero((y >= min(y0, y1)) & (y < max(y0, y1)))
            hit = x0 + (y[at] - y0) * (x1 - x0) / (y1 - y0) > x[at]
            winding[at] += hit * (1 if y1 > y0 else -1)
    return winding % 2 != 0 if even_odd else winding != 0


def near(path: Path, x: Array, y: Array, reach: float) -> Array:
    """Return which points lie within `reach` of the path's line."""
    found = np.zeros(x.shape, dtype=bool)
    for line in polygons(path, 16):
        for (x0, y0), (x1, y1) in itertools.pairwise(line):
            length = (x1 - x0) ** 2 + (y1 - y0) ** 2
            t = np.clip(((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / (length or 1.0), 0, 1)
            found |= np.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0)) <= reach
    return found


def _painted(item: AnyItem, draw_list: DrawList, x: Array, y: Array, pictures: Mapping[str, Array]):
    if isinstance(item, PlacedOutline):
        shape = (
            near(item.path, x, y, item.stroke_mm / 2)
            if item.stroke_mm
            else inside(item.path, x, y, even_odd=item.even_odd)
        )
        return srgb.decode(np.array(item.colour)), shape.astype(float)
    if isinstance(item, PlacedGradient):
        return _gradient(item, draw_list, x, y), np.ones(x.shape)
    if item.repeat is not None:
        return _tiles(item, x, y, pictures[item.picture])
    return _picture(item, x, y, pictures[item.picture])


def _gradient(item: PlacedGradient, draw_list: DrawList, x: Array, y: Array) -> Array:
    wrap = draw_list.wrap
    turn, up = wrap.from_flat(x, y)
    left = end_turns(wrap, wrap.height_mm / 2)[0]
    share = (turn - left) / (360 - 2 * left)
    share = np.clip(np.where(turn - left >= 360, (turn - left - 360) / (360 - 2 * left), share), 0, 1)
    rise = np.clip(up / wrap.height_mm, 0, 1)
    if item.along == "up":
        t = rise
    elif item.along == "round":
        t = share
    else:
        angle = math.radians(float(item.along))
        wide = wrap.turn_length(wrap.height_mm / 2) * (360 - 2 * left) / 360
        run = (share - 0.5) * wide * math.sin(angle) + (rise - 0.5) * wrap.height_mm * math.cos(angle)
        t = np.clip(0.5 + run / (abs(wide * math.sin(angle)) + abs(wrap.height_mm * math.cos(angle))), 0, 1)
    start, end = srgb.decode(np.array(item.start)), srgb.decode(np.array(item.end))
    return start + (end - start) * t[..., None]


def _look(item: PlacedPicture, a: Array, b: Array, picture: Array) -> tuple[Array, Array]:
    """Return linear light and alpha by bilinear interpolation; the rim goes on outside."""
    high, wide = picture.shape[:2]
    left, top, right, bottom = item.crop
    share = 0.5 + (-a if item.flip else a) / item.width_mm
    u = np.clip((left + share * (right - left)) * wide - 0.5, 0, wide - 1.000001)
    v = np.clip((top + (0.5 - b / item.height_mm) * (bottom - top)) * high - 0.5, 0, high - 1.000001)
    i, j = u.astype(int), v.astype(int)
    i1, j1 = np.minimum(i + 1, wide - 1), np.minimum(j + 1, high - 1)
    s, t = (u - i)[..., None], (v - j)[..., None]
    rgba = (picture[j, i] * (1 - s) + picture[j, i1] * s) * (1 - t) + (
        picture[j1, i] * (1 - s) + picture[j1, i1] * s
    ) * t
    return srgb.decode(rgba[..., :3]), rgba[..., 3]


def _picture(item: PlacedPicture, x: Array, y: Array, picture: Array) -> tuple[Array, Array]:
    a, b = item.placement.to_local(x, y)
    wide, high = item.window_mm if item.window_mm != (0.0, 0.0) else (item.width_mm, item.height_mm)
    shown = (np.abs(a) <= wide / 2) & (np.abs(b) <= high / 2)
    if item.mask is not None:
        shown &= inside(item.mask, a, b)
    if item.join_mm > 0:
        circle = item.placement.wrap.turn_length(item.placement.up_mm)
        past = a + wide / 2
        past = np.where(past >= circle, past - circle, past)
        share = np.clip(1 - past / item.join_mm, 0, 1)[..., None]
        on = past + circle
        on = np.where(on > wide, 2 * wide - on, on)
        left, alpha = _look(item, past - wide / 2, b, picture)
        right, _ = _look(item, on - wide / 2, b, picture)
        return left * (1 - share) + right * share, alpha * shown
    colour, alpha = _look(item, a, b, picture)
    return colour, alpha * shown


def _tiles(item: PlacedPicture, x: Array, y: Array, picture: Array) -> tuple[Array, Array]:
    assert item.repeat is not None
    step_a, step_b, shift = item.repeat
    a, b = item.placement.to_local(x, y)
    colour, alpha, nearest = np.ones((*a.shape, 3)), np.zeros(a.shape), np.full(a.shape, np.inf)
    angle = math.radians(item.tile_turn_deg)
    row = np.rint(b / step_b)
    for j in (-1, 0, 1):
        base = np.rint((a - (row + j) * shift * step_a) / step_a)
        for i in (-1, 0, 1):
            da, db = a - (row + j) * shift * step_a - (base + i) * step_a, b - (row + j) * step_b
            ta = da * math.cos(angle) - db * math.sin(angle)
            tb = da * math.sin(angle) + db * math.cos(angle)
            here = (np.abs(ta) <= item.width_mm / 2) & (np.abs(tb) <= item.height_mm / 2)
            here &= np.hypot(da, db) < nearest
            own, share = _look(item, ta, tb, picture)
            colour[here], alpha[here], nearest[here] = own[here], share[here], np.hypot(da, db)[here]
    return colour, alpha
