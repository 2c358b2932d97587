"""Whether a code can be read back from the print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.coating import on_coating
from wrapwright.core.colour.contrast import luminance
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, Extent, PlacedOutline
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.kinds.ground import lap_motion
from wrapwright.core.design.path import Path
from wrapwright.core.design.supplies import Pixels
from wrapwright.outside.raster.canvas import rounded
from wrapwright.outside.raster.measuring.stack import PITCH_MM, Box, Stack, marked
from wrapwright.outside.raster.measuring.subjects import Bytes, Eye, Subject
from wrapwright.outside.raster.renderer import prepare

LEAST_PX = 2.0  # pixels a module below which the whole render is not asked
MODULE_PX = 5  # of a code's own render
EDGE_PX = MODULE_PX  # what is drawn round its quiet zone
LEAST_CONTRAST = 0.20  # symbol contrast of grade 1, ISO/IEC 15415
JOINED_MM = 0.5  # an overlap under this is too narrow to look at alone


def read_back(
    subject: Subject, extent: Extent, draw_list: DrawList, stack: Stack, pixels: Mapping[str, Pixels],
    space: WorkingSpace, eye: Eye,
) -> bool:  # fmt: skip
    """Return whether a decoder reads a code's text from the print on the coating, and a camera could.

    A decoder reads clean pixels at any contrast; ISO/IEC 15415 fails a symbol (grade 0) whose contrast, the
    reflectance of its lightest parts less that of its darkest, is under 20 %.

    The whole render is asked first, where its pixels do; a code that is not read there gets a render of its own,
    straight, with enough pixels a module, across the seam as on the piece.
    """
    module_px = extent.width_mm / subject.code_modules / PITCH_MM
    if module_px >= LEAST_PX:
        look = _on_piece(_cut_out(extent, stack), eye)
        if subject.code_text in eye.read(look):
            return _stands_out(look)
    look = _on_piece(straight(extent, subject.code_modules, draw_list, pixels, space), eye)
    return subject.code_text in eye.read(look) and _stands_out(look)


def _stands_out(look: Bytes) -> bool:
    dark, light = np.percentile(luminance(look / 255.0), (2.0, 98.0))
    return bool(light - dark >= LEAST_CONTRAST)


def _on_piece(codes: Bytes, eye: Eye) -> Bytes:
    look = on_coating(eye.seen(codes) / 255.0, eye.coating)
    return np.rint(np.clip(look, 0.0, 1.0) * 255.0).astype(np.uint8)


def _cut_out(extent: Extent, stack: Stack) -> Bytes:
    left, bottom, right, top = extent.outline.box()
    x0, y0 = stack.frame.to_flat[0, 2], stack.frame.to_flat[1, 2]
    high, wide = stack.codes.shape[:2]
    rows = [int(np.clip((y0 - y) / PITCH_MM + more, 0, high)) for y, more in ((top, -1), (bottom, 2))]
    columns = [int(np.clip((x - x0) / PITCH_MM + more, 0, wide)) for x, more in ((left, -1), (right, 2))]
    cut = stack.codes[rows[0] : rows[1], columns[0] : columns[1]]
    return np.ascontiguousarray(cut) if cut.size else np.full((1, 1, 3), 255, dtype=np.uint8)


def straight(
    extent: Extent, modules: int, draw_list: DrawList, pixels: Mapping[str, Pixels], space: WorkingSpace
) -> Bytes:
    """Return the working codes of a code's box with its quiet zone, upright, whole modules of five pixels.

    A part that lies beyond the seam is looked up where it goes on, one turn away; next to the join the overlap,
    which repeats the left end, stands for it, since the left end's border cuts its first pixels. Without an overlap
    the two ends share the pixels of the join.
    """
    frame = _upright(extent, modules)
    out = _seen(draw_list, frame, pixels, space)
    if draw_list.wrap.gap_mm > 0.0 or draw_list.wrap.plate is not None:
        return out
    turn = _turns(draw_list, frame)
    half = 180.0 * draw_list.wrap.overlap_mm / max(draw_list.wrap.lower_mm, draw_list.wrap.upper_mm)
    for beyond, lap in ((turn >= 360.0 + half, -1), (turn < half, 1)):
        if beyond.any():
            moved = Frame(frame.width_px, frame.height_px, lap_motion(draw_list.wrap, lap) @ frame.to_flat)
            other = _seen(draw_list, moved, pixels, space)
            if draw_list.wrap.overlap_mm < JOINED_MM:
                light = space.tone.decode(out) + space.tone.decode(other) - np.float32(1.0)
                out = rounded(space.tone.encode(light))
            else:
                out[beyond] = other[beyond]
    return out


def _upright(extent: Extent, modules: int) -> Frame:
    """Return the frame over a code's box, whose corners run anticlockwise from the lower left."""
    low_left, _, up_right, up_left = extent.outline.subpaths[0].points[0:12:3]
    size = modules * MODULE_PX
    across, down = (up_right - up_left) / size, (low_left - up_left) / size
    corner = up_left - EDGE_PX * (across + down)
    to_flat = np.array([[across[0], down[0], corner[0]], [across[1], down[1], corner[1]], [0.0, 0.0, 1.0]])
    return Frame(size + 2 * EDGE_PX, size + 2 * EDGE_PX, to_flat)


def _turns(draw_list: DrawList, frame: Frame) -> NDArray[np.float64]:
    column, row = np.meshgrid(np.arange(frame.width_px) + 0.5, np.arange(frame.height_px) + 0.5)
    m = frame.to_flat
    turn, _up = draw_list.wrap.from_flat(
        m[0, 0] * column + m[0, 1] * row + m[0, 2], m[1, 0] * column + m[1, 1] * row + m[1, 2]
    )
    return turn


def _seen(draw_list: DrawList, frame: Frame, pixels: Mapping[str, Pixels], space: WorkingSpace) -> Bytes:
    """Return working codes of a frame; only what reaches into it is made ready."""
    corners = np.array([[0, 0, 1], [1, 0, 1], [0, 1, 1], [1, 1, 1]]) * [frame.width_px, frame.height_px, 1]
    flat = corners @ frame.to_flat.T
    box = (flat[:, 0].min(), flat[:, 1].min(), flat[:, 0].max(), flat[:, 1].max())
    whole = bleed_outline(draw_list.wrap, draw_list.bleed_mm).box()
    near = tuple(_near(item, box) for item in draw_list.items if _meet(marked(item, whole), box))
    return prepare(replace(draw_list, items=near), frame, pixels, space=space).strip(0, frame.height_px)


def _near(item: AnyItem, box: Box) -> AnyItem:
    """Return an outline without the closed parts that lie wholly beside a box: they fill nothing in it."""
    if not isinstance(item, PlacedOutline) or len(item.path.subpaths) < 2 * len(box):
        return item
    half = item.stroke_mm / 2.0
    grown = (box[0] - half, box[1] - half, box[2] + half, box[3] + half)
    ends = [np.concatenate([sub.points.min(axis=0), sub.points.max(axis=0)]) for sub in item.path.subpaths]
    kept = [sub for sub, end in zip(item.path.subpaths, ends, strict=True) if _meet(tuple(end), grown)]
    return replace(item, path=Path(tuple(kept)))


def _meet(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]
