"""The wrap composed once, copy by copy, each copy's own share kept beside the whole."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedOutline, PlacedPicture
from wrapwright.core.design.frame import Frame, seen_frame
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.supplies import Pixels
from wrapwright.core.design.warp import bent
from wrapwright.outside.raster.canvas import rounded
from wrapwright.outside.raster.edges import Cover, coverage, filled
from wrapwright.outside.raster.lattice import Part
from wrapwright.outside.raster.renderer import prepare

Box = tuple[float, float, float, float]
Light = NDArray[np.float32]
Painted = tuple[NDArray[np.uint8], Cover]  # colours over white paper, and the share of each pixel drawn on
Keep = Callable[[tuple[int, int], Callable[[], Painted]], Painted]

PITCH_MM = 0.25
PPI = 25.4 / PITCH_MM
STRIP = 64
_MARGIN_PX = 3
NOTHING: Light = np.empty((0, 0, 3), dtype=np.float32)


@dataclass(frozen=True, eq=False)
class Piece:
    """One copy as it was painted; arrays have its part's shape.

    Attributes:
        key: element and copy.
        items: its items, bottom to top.
        part: which rows and columns of the whole it takes.
        own: its colours over white paper, working codes uint8 (h, w, 3).
        cover: the share of each pixel it is drawn on.
        below: what lay there before, linear light, float32 (h, w, 3); empty when not asked for.
        below_cover: the share that was drawn on before.
        visible: what is left of `cover` under all that was painted later; filled when the stack is done.
    """

    key: tuple[int, int]
    items: tuple[AnyItem, ...]
    part: Part
    own: NDArray[np.uint8]
    cover: Cover
    below: Light
    below_cover: Cover
    visible: Cover

    def cut(self, whole: NDArray[np.float32]) -> NDArray[np.float32]:
        """Return the view of its part in an array of the whole."""
        rows, columns = self.part.rows, self.part.columns
        return whole[rows[0] : rows[1], columns[0] : columns[1]]


@dataclass(frozen=True, eq=False)
class Stack:
    """A composed wrap at four pixels a millimetre.

    Attributes:
        frame: over the wrap and its bleed.
        codes: all of it, working codes uint8 (h, w, 3).
        region: the share of each pixel inside the bleed outline.
        pieces: by element and copy.
    """

    frame: Frame
    codes: NDArray[np.uint8]
    region: Cover
    pieces: dict[tuple[int, int], Piece] = field(default_factory=dict)


def painted_now(_key: tuple[int, int], paint: Callable[[], Painted]) -> Painted:
    """Return a copy painted now: what `Keep` does for someone who keeps nothing."""
    return paint()


def stacked(
    draw_list: DrawList, pixels: Mapping[str, Pixels], space: WorkingSpace, behind: Collection[tuple[int, int]] = (),
    keep: Keep = painted_now,
) -> Stack:  # fmt: skip
    """Return the wrap composed bottom to top in linear light, as the sheet is; every item is painted once.

    `behind` are the copies, by element and copy, for which what lies below is kept. `keep` is handed each copy's
    element and copy and how it is painted, and may give back what the same copy gave before.
    """
    border = bleed_outline(draw_list.wrap, draw_list.bleed_mm)
    frame = seen_frame(border.box(), PPI)
    shape = (frame.height_px, frame.width_px)
    canvas = np.ones((*shape, 3), dtype=np.float32)
    ink = np.zeros(shape, dtype=np.float32)
    pieces: dict[tuple[int, int], Piece] = {}
    of_copy = groupby(range(len(draw_list.items)), lambda at: (draw_list.items[at].element, draw_list.items[at].copy))
    for key, indices in of_copy:
        chosen = tuple(indices)
        items = tuple(draw_list.items[at] for at in chosen)
        part = _part(frame, [marked(item, border.box()) for item in items])
        if part is None:
            continue
        paint = partial(_painted, draw_list, cropped(frame, part), pixels, space, chosen)
        own, cover = keep(key, paint)
        below = _copied(canvas, part) if key in behind else NOTHING
        piece = Piece(key, items, part, own, cover, below, _copied(ink, part), cover.copy())
        _lay_over(piece, canvas, ink, space)
        pieces[key] = piece
    _cover_up(list(pieces.values()), shape)
    region = coverage(filled(border, to_pixels(frame)), (0, shape[0]), (0, shape[1]))
    return Stack(frame, rounded(space.tone.encode(canvas)), region, pieces)


def to_pixels(frame: Frame) -> NDArray[np.float64]:
    """Return the 3x3 matrix from flat mm to a frame's pixels."""
    return np.asarray(np.linalg.inv(frame.to_flat), dtype=np.float64)


def cropped(frame: Frame, part: Part) -> Frame:
    """Return the frame over a part of another's pixels."""
    shift = np.array([[1.0, 0.0, part.columns[0]], [0.0, 1.0, part.rows[0]], [0.0, 0.0, 1.0]])
    high, wide = part.shape
    return Frame(wide, high, frame.to_flat @ shift)


def marked(item: AnyItem, whole: Box) -> Box:
    """Return a box in flat mm that an item does not leave; `whole` is that of the wrap with its bleed."""
    if isinstance(item, PlacedOutline):
        left, bottom, right, top = item.path.box()
        half = item.stroke_mm / 2.0
        return left - half, bottom - half, right + half, top + half
    if isinstance(item, PlacedPicture) and item.repeat is None:
        wide, high = item.window_mm if item.window_mm != (0.0, 0.0) else (item.width_mm, item.height_mm)
        shown = item.mask or rectangle(-wide / 2.0, -high / 2.0, wide / 2.0, high / 2.0)
        return bent(shown, item.placement).box()
    return whole


def _part(frame: Frame, boxes: Sequence[Box]) -> Part | None:
    """Return the part of an upright frame under the boxes and a little more, None when they lie beside it."""
    left, bottom = (min(box[at] for box in boxes) for at in (0, 1))
    right, top = (max(box[at] for box in boxes) for at in (2, 3))
    x0, y0 = frame.to_flat[0, 2], frame.to_flat[1, 2]
    rows = _span((y0 - top) / PITCH_MM, (y0 - bottom) / PITCH_MM, frame.height_px)
    columns = _span((left - x0) / PITCH_MM, (right - x0) / PITCH_MM, frame.width_px)
    return Part(rows, columns) if rows[1] > rows[0] and columns[1] > columns[0] else None


def _span(low: float, high: float, size: int) -> tuple[int, int]:
    return max(0, math.floor(low) - _MARGIN_PX), min(size, math.ceil(high) + _MARGIN_PX)


def _copied(whole: NDArray[np.float32], part: Part) -> NDArray[np.float32]:
    return whole[part.rows[0] : part.rows[1], part.columns[0] : part.columns[1]].copy()


def _painted(
    draw_list: DrawList, frame: Frame, pixels: Mapping[str, Pixels], space: WorkingSpace, items: Sequence[int]
) -> Painted:
    """Return colours over white, in working codes, and cover; low strips pass over items that lie elsewhere."""
    renderer = prepare(draw_list, frame, pixels, space=space, items=items)
    strips = [renderer.strip_with_ink(*ends) for ends in renderer.strips(STRIP)]
    codes, cover = (np.concatenate(parts) for parts in zip(*strips, strict=True))
    return codes, cover.astype(np.float32) / np.float32(255)


def _lay_over(piece: Piece, canvas: Light, ink: Cover, space: WorkingSpace) -> None:
    """Compose a copy, drawn over white paper, over what is there: own + (below - white) (1 - cover)."""
    rest = np.float32(1.0) - piece.cover
    under = piece.cut(canvas)
    under -= np.float32(1.0)
    under *= rest[..., None]
    under += space.tone.decode(piece.own)
    np.clip(under, 0.0, 1.0, out=under)
    piece.cut(ink)[...] = np.float32(1.0) - (np.float32(1.0) - piece.below_cover) * rest


def _cover_up(pieces: list[Piece], shape: tuple[int, int]) -> None:
    """Take from each copy's visible share what the copies above it cover."""
    free = np.ones(shape, dtype=np.float32)
    for piece in reversed(pieces):
        left = piece.cut(free)
        piece.visible[...] *= left
        left *= np.float32(1.0) - piece.cover
