"""The named lines of a wrap: sides, seam, handle, trim, bleed, safe margin, keep-outs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from wrapwright.core.base.places import PLACES
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Keepout
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.design.borders import bleed_outline, safe_outline, trim_outline
from wrapwright.core.design.path import Path, Subpath, line_points, polygon
from wrapwright.jobs.live.values import LineView
from wrapwright.jobs.live.views.frames import Array, Canvas
from wrapwright.jobs.live.views.strings import path_data

SAMPLES = 48  # points along a line that goes round or up; between them it is a straight stroke
LAPS = (-360.0, 0.0, 360.0)
_NEAR = 1e-6


def lines_of(
    canvas: Canvas, *, safe_mm: float, keepouts: Sequence[Keepout], band_from_mm: float
) -> tuple[LineView, ...]:
    """Return the named lines of a wrap in the order of drawing; `band_from_mm` is the band's lower edge on the wall."""
    return (
        *_borders(canvas, safe_mm),
        *_keepouts(canvas, keepouts, band_from_mm),
        _middle(canvas),
        *_sides(canvas),
        *_ends(canvas),
    )


def _borders(canvas: Canvas, safe_mm: float) -> Iterator[LineView]:
    wrap = canvas.wrap
    yield LineView("bleed", "Bleed", None, path_data(canvas.path(bleed_outline(wrap, canvas.bleed_mm))))
    yield LineView("trim", "Trim", None, path_data(canvas.path(trim_outline(wrap))))
    safe = safe_outline(wrap, safe_mm)
    if safe.subpaths:
        yield LineView("safe", "Safe margin", None, path_data(canvas.path(safe)))


def _keepouts(canvas: Canvas, keepouts: Sequence[Keepout], band_from_mm: float) -> Iterator[LineView]:
    """Yield each keep-out as far as it lies on the wrap, at every turn where it shows."""
    wrap = canvas.wrap
    for one in keepouts:
        up = one.up_mm - band_from_mm
        low = max(-canvas.bleed_mm, up - one.height_mm / 2.0)
        high = min(wrap.height_mm + canvas.bleed_mm, up + one.height_mm / 2.0)
        if low >= high:
            continue
        left, right = end_turns(wrap, min(max(up, 0.0), wrap.height_mm))
        boxes = []
        for lap in LAPS if wrap.plate is None else (0.0,):
            turn = wrap.turn_at(one.at_deg, one.across_mm) + lap
            half = one.width_mm / 2.0 / wrap.turn_length(up) * 360.0
            if turn + half > left and turn - half < right:
                boxes.append(_wall_box(canvas, turn, one.width_mm, (low, high)))
        if boxes:
            name = one.why or "Keep-out"
            yield LineView("keepout", name[:1].upper() + name[1:], one.at_deg, "".join(map(path_data, boxes)))


def _wall_box(canvas: Canvas, turn: float, width_mm: float, heights: tuple[float, float]) -> Path:
    """Return a box on the wall, its width an arc of the same length at every height."""
    wrap = canvas.wrap
    across, up = np.linspace(-0.5, 0.5, 9) * width_mm, np.linspace(*heights, 5)
    a = np.concatenate([across, np.full(len(up), across[-1]), across[::-1], np.full(len(up), across[0])])
    b = np.concatenate([np.full(9, up[0]), up, np.full(9, up[-1]), up[::-1]])
    x, y = canvas.place(turn + 360.0 * a / (wrap.lower_mm + wrap.theta * b), b)
    return polygon(zip(x.tolist(), y.tolist(), strict=True))


def _middle(canvas: Canvas) -> LineView:
    wrap = canvas.wrap
    up = wrap.height_mm / 2.0
    turns = np.linspace(*end_turns(wrap, up), SAMPLES + 1) if canvas.view().sector else np.array(end_turns(wrap, up))
    name = "Middle of the band" if wrap.plate is None else "Middle of the height"
    return LineView("middle", name, None, _open(canvas, turns, np.full(len(turns), up)))


def _sides(canvas: Canvas) -> Iterator[LineView]:
    """Yield front, right, back and left as far as they lie between the two ends; of a flat blank its middle.

    The overlap repeats the left end, its sides too.
    """
    wrap = canvas.wrap
    if wrap.plate is not None:
        yield LineView("side", "Middle", 0.0, _upright(canvas, 180.0))
        return
    left, right = end_turns(wrap, wrap.height_mm / 2.0)
    for word, at in PLACES.items():
        turns = [wrap.turn_of(at) + lap for lap in LAPS]
        shown = [turn for turn in turns if left - _NEAR <= turn <= right + _NEAR]
        if shown:
            yield LineView("side", word.capitalize(), at, "".join(_upright(canvas, turn) for turn in shown))


def _ends(canvas: Canvas) -> Iterator[LineView]:
    """Yield the seam and where the overlap ends, or the two edges of a handle's gap; nothing on a flat blank.

    A mug held by the right hand has its handle to the drinker's right: the drinker looks at what lies a quarter turn
    before the handle, those across the table at what lies a quarter turn after it.
    """
    wrap = canvas.wrap
    if wrap.plate is not None:
        return
    if wrap.gap_mm > 0.0:
        half = 360.0 * wrap.gap_mm / 2.0 / wrap.turn_length(wrap.height_mm / 2.0)
        # The wrap begins to the right of the handle and ends to its left.
        yield LineView("handle", "Handle, table's side", wrap.at_of(half), _cut(canvas, 0))
        yield LineView("handle", "Handle, drinker's side", wrap.at_of(360.0 - half), _cut(canvas, 1))
        return
    yield LineView("seam", "Seam", wrap.seam_deg, _upright(canvas, 0.0) + _upright(canvas, 360.0))
    if wrap.overlap_mm > 0.0:
        at = wrap.at_of(end_turns(wrap, wrap.height_mm / 2.0)[1])
        yield LineView("overlap", "End of the overlap", at, _cut(canvas, 1))


def _upright(canvas: Canvas, turn: float) -> str:
    """Return the line along the wall at one angle, bleed in."""
    up = np.array([-canvas.bleed_mm, canvas.wrap.height_mm + canvas.bleed_mm])
    return _open(canvas, np.full(2, turn), up)


def _cut(canvas: Canvas, side: int) -> str:
    """Return the line along which the left (0) or the right (1) end is cut."""
    wrap: FlatWrap = canvas.wrap
    ups = np.linspace(-canvas.bleed_mm, wrap.height_mm + canvas.bleed_mm, 2 if not canvas.straightens else SAMPLES)
    turns = np.array([end_turns(wrap, float(up))[side] for up in ups])
    return _open(canvas, turns, ups)


def _open(canvas: Canvas, turns: Array, ups: Array) -> str:
    points = np.stack(canvas.place(turns, ups), axis=1)
    return path_data(Path((Subpath(line_points(points), closed=False),)))
