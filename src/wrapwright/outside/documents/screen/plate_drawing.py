"""A flat blank seen from above, drawn from its own numbers: small for the shelf, large with its dimensions."""

from __future__ import annotations

import numpy as np

from wrapwright.core.blank.readings import Blank
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.core.design.borders import trim_outline
from wrapwright.outside.documents.screen.lengths import Unit, said
from wrapwright.outside.documents.screen.svg import arrowed, chain, curves, drawing, shape, wide, words

_EDGE = 4.0
_LEFT, _RIGHT, _ABOVE, _BELOW = 48.0, 24.0, 30.0, 58.0  # room for dimensions round the large form, px


def small_plate(blank: Blank, wrapped: Wrapped, *, size: tuple[float, float], name: str = "") -> str:
    """Return the shelf's drawing, `size` px, without words."""
    room = (_EDGE, _EDGE, size[0] - 2.0 * _EDGE, size[1] - 2.0 * _EDGE)
    return drawing(*size, _plate(blank, wrapped, room)[0], spoken=plate_spoken(blank, wrapped, "mm", name=name))


def large_plate(blank: Blank, wrapped: Wrapped, *, unit: Unit, size: tuple[float, float]) -> str:
    """Return the measuring drawing, `size[0]` px wide and at most `size[1]` high, with width and height."""
    across, up = size[0] - _LEFT - _RIGHT, size[1] - _ABOVE - _BELOW
    up = min(up, across * wrapped.wall_mm / wrapped.girth_top_mm)
    size = (size[0], up + _ABOVE + _BELOW)
    parts, (left, top, width, height) = _plate(blank, wrapped, (_LEFT, _ABOVE, across, up))
    parts += _dimensions(wrapped, (left, top, width, height), unit)
    parts.append(words("top", (left + width / 2.0, top - 12.0), "wd-small"))
    parts.append(words("seen from above", (size[0] / 2.0, size[1] - 9.0), "wd-small"))
    return drawing(*size, parts, spoken=plate_spoken(blank, wrapped, unit))


def plate_spoken(blank: Blank, wrapped: Wrapped, unit: Unit, *, name: str = "") -> str:
    """Return the drawing in one sentence."""
    size = f"{said(wrapped.girth_top_mm, unit)} wide, {said(wrapped.wall_mm, unit)} high"
    holes = 0 if blank.plate is None else blank.plate.holes
    return f"{name or 'Flat blank'}: {kind_words(wrapped, unit)}, {size}{f', holes: {holes}' if holes else ''}."


def kind_words(wrapped: Wrapped, unit: Unit) -> str:
    """Return what a flat blank is cut like."""
    plate = wrapped.wrap.plate
    if plate is None or plate.kind == "rectangle":
        corner = 0.0 if plate is None else plate.corner_mm
        return f"a rectangle, corners rounded {said(corner, unit)}" if corner else "a rectangle"
    return "a circle" if plate.kind == "circle" else "an outline"


Room = tuple[float, float, float, float]  # left, top, width, height in px


def _plate(blank: Blank, wrapped: Wrapped, room: Room) -> tuple[list[str], Room]:
    """Return the blank's outline with its keep-outs in the middle of a room, and the box it fills, px."""
    wrap = wrapped.wrap
    wide_mm, high_mm = wrap.lower_mm, wrap.height_mm
    scale = min(room[2] / wide_mm, room[3] / high_mm)
    width, height = scale * wide_mm, scale * high_mm
    left, top = room[0] + (room[2] - width) / 2.0, room[1] + (room[3] - height) / 2.0
    to = np.array([[scale, 0.0, left + width / 2.0], [0.0, -scale, top + height], [0.0, 0.0, 1.0]])
    parts = [shape(curves(trim_outline(wrap), to), "wd-hair s-ink-2", fill=blank.coating)]
    for one in blank.keepouts:
        x, y = left + width / 2.0 + scale * one.across_mm, top + height - scale * one.up_mm
        half, rise = scale * one.width_mm / 2.0, scale * one.height_mm / 2.0
        corners = [(x - half, y - rise), (x + half, y - rise), (x + half, y + rise), (x - half, y + rise)]
        parts.append(shape(chain(corners, closed=True), "wd-hair s-bad"))
    return parts, (left, top, width, height)


def _dimensions(wrapped: Wrapped, box: Room, unit: Unit) -> list[str]:
    left, top, width, height = box
    y, x = top + height + 20.0, left - 18.0
    across, along = said(wrapped.girth_top_mm, unit), said(wrapped.wall_mm, unit)
    parts = [
        *(shape(chain([(at, top + height + 6.0), (at, y + 4.0)]), "wd-thin s-ink-3") for at in (left, left + width)),
        arrowed([(left, y), (left + width, y)], head=min(6.0, 0.4 * width)),
        words(across, (left + width / 2.0, y), "wd-strong wd-halo"),
        *(shape(chain([(x - 4.0, at), (left - 4.0, at)]), "wd-thin s-ink-3") for at in (top, top + height)),
        arrowed([(x, top + height), (x, top)], head=min(6.0, 0.4 * height)),
    ]
    turn = -90.0 if height > wide(along) + 16.0 else 0.0
    place = (x, top + height / 2.0)
    return [*parts, words(along, place, "wd-strong wd-halo", turn_deg=turn)]
