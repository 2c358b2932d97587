"""The flat wrap as seen, with its named lines, seam, overlap, handle gap and dimensions."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from wrapwright.core.base.places import PLACES
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Blank, WrapRequest
from wrapwright.core.blank.trim import cut_turn, cuts_mm
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.core.design.borders import bleed_outline, safe_outline, trim_outline
from wrapwright.outside.documents.screen.lengths import Unit, said
from wrapwright.outside.documents.screen.plate_drawing import kind_words
from wrapwright.outside.documents.screen.svg import Array, Point, arrowed, chain, curves, drawing, shape, wide, words

_ABOVE, _BELOW, _LEFT, _RIGHT = 30.0, 62.0, 44.0, 10.0  # room for names and dimensions, px
_STEPS = 49
_HATCH = 5.0  # px between the overlap's slanted lines


@dataclass(frozen=True, eq=False)
class _Sheet:
    wrap: FlatWrap
    to: Array
    scale: float

    def at(self, turn: float, up: float, aside: Point = (0.0, 0.0)) -> Point:
        """Return the place in px of a turn and height, moved `aside` px (right along the level, up the wall)."""
        return self.places(np.array([turn]), np.array([up]), np.array([aside]))[0]

    def places(self, turns: Array, ups: Array, asides: Array) -> list[Point]:
        """Return the places of several turns and heights, moved by asides of shape (n, 2) or (2,)."""
        x, y = self.wrap.to_flat(turns, ups)
        lean = self.wrap.theta * (turns / 360.0 - 0.5)
        moved = np.asarray(asides, dtype=np.float64) / self.scale
        right, rise = moved[..., 0], moved[..., 1]
        x = x + right * np.cos(lean) + rise * np.sin(lean)
        y = y - right * np.sin(lean) + rise * np.cos(lean)
        px, py = self.to[0, 0] * x + self.to[0, 2], self.to[1, 1] * y + self.to[1, 2]
        return list(zip(px.tolist(), py.tolist(), strict=True))

    def lean_deg(self, turn: float) -> float:
        """Return how far the wall's upright leans clockwise there."""
        return math.degrees(self.wrap.tilt(turn))


def flat_wrap(blank: Blank, wrapped: Wrapped, asked: WrapRequest, *, unit: Unit, size: tuple[float, float]) -> str:
    """Return the flat wrap's drawing, `size[0]` px wide and at most `size[1]` high."""
    wrap = wrapped.wrap
    left, bottom, right, top = _box(wrap, asked)
    below = _BELOW + (18.0 if wrap.is_sector else 0.0)
    scale = min((size[0] - _LEFT - _RIGHT) / (right - left), max(40.0, size[1] - _ABOVE - below) / (top - bottom))
    over = (size[0] - _LEFT - _RIGHT - scale * (right - left)) / 2.0
    to = np.array([[scale, 0, _LEFT + over - scale * left], [0, -scale, _ABOVE + scale * top], [0, 0, 1.0]])
    sheet = _Sheet(wrap, to, scale)
    height = _ABOVE + scale * (top - bottom) + below
    parts = [
        *_paper(sheet, asked),
        *_lines(sheet),
        *_keepouts(sheet, blank, wrapped),
        *_overlap(sheet),
        *_names(sheet),
        *_across(sheet, unit),
        *_along(sheet, unit),
    ]
    if wrap.is_sector:
        parts.append(words(_sector_words(wrap, unit), (size[0] / 2.0, height - 9.0), "wd-small"))
    return drawing(size[0], height, parts, spoken=flat_spoken(wrapped, unit))


def flat_spoken(wrapped: Wrapped, unit: Unit) -> str:
    """Return the flat wrap in one sentence."""
    wrap = wrapped.wrap
    if wrap.plate is not None:
        size = f"{said(wrap.lower_mm, unit)} wide and {said(wrap.height_mm, unit)} high"
        return f"Transfer: {kind_words(wrapped, unit)}, {size}."
    size = f"{said(wrap.trim_width_mm, unit)} wide and {said(wrap.height_mm, unit)} high"
    if wrap.gap_mm:
        ends = f"bare for {said(wrap.gap_mm, unit)} at the handle"
    elif wrap.overlap_mm:
        ends = f"with an overlap of {said(wrap.overlap_mm, unit)}"
    else:
        ends = "its ends butt"
    return f"Flat wrap: {'a sector' if wrap.is_sector else 'a rectangle'}, {size}, {ends}."


def _box(wrap: FlatWrap, asked: WrapRequest) -> tuple[float, float, float, float]:
    """Return the box in flat mm of what is drawn: the trim with its bleed, and one whole turn at a handle."""
    boxes = [bleed_outline(wrap, asked.bleed_mm).box()]
    x, y = wrap.to_flat(np.linspace(0, 360, _STEPS)[:, None], np.array([0.0, wrap.height_mm])[None, :])
    boxes.append((float(x.min()), float(y.min()), float(x.max()), float(y.max())))
    return (
        min(one[0] for one in boxes),
        min(one[1] for one in boxes),
        max(one[2] for one in boxes),
        max(one[3] for one in boxes),
    )


def _paper(sheet: _Sheet, asked: WrapRequest) -> list[str]:
    bleed, trim = bleed_outline(sheet.wrap, asked.bleed_mm), trim_outline(sheet.wrap)
    parts = []
    if asked.bleed_mm > 0.0:
        parts.append(shape(curves(bleed, sheet.to), "wd-thin wd-dots s-ink-3"))
    parts.append(shape(curves(trim, sheet.to), "wd-hair s-ink f-sheet", width=1.25))
    safe = safe_outline(sheet.wrap, asked.safe_mm)
    if asked.safe_mm > 0.0 and safe.subpaths:
        parts.append(shape(curves(safe, sheet.to), "wd-thin wd-dash s-ink-3"))
    return parts


def _upright(sheet: _Sheet, turn: float, low: float, high: float) -> list[Point]:
    """Return a line along the wall that stands `low` and `high` px out of the band."""
    return [sheet.at(turn, 0.0, (0.0, -low)), sheet.at(turn, sheet.wrap.height_mm, (0.0, high))]


def _lines(sheet: _Sheet) -> list[str]:
    wrap = sheet.wrap
    parts = []
    for at_deg in PLACES.values() if wrap.plate is None else (0.0,):
        turn = wrap.turn_of(at_deg)
        if turn != 0.0:
            parts.append(shape(chain(_upright(sheet, turn, 0.0, 6.0)), "wd-thin wd-dash s-accent"))
    if wrap.gap_mm == 0.0 and wrap.plate is None:
        parts += [shape(chain(_upright(sheet, turn, 6.0, 6.0)), "wd-hair s-heat", width=1.5) for turn in (0.0, 360.0)]
    return parts


def _keepouts(sheet: _Sheet, blank: Blank, wrapped: Wrapped) -> list[str]:
    """Return the boxes where nothing may print, as far as they lie within the band."""
    wrap, parts = sheet.wrap, []
    for one in blank.keepouts:
        up = one.up_mm - wrapped.band_from_mm
        low, high = (min(wrap.height_mm, max(0.0, up + side * one.height_mm / 2.0)) for side in (-1.0, 1.0))
        if low < high:
            half, turn = one.width_mm / 2.0 * sheet.scale, wrap.turn_at(one.at_deg, one.across_mm)
            corners = ((low, -half), (low, half), (high, half), (high, -half))
            ring = [sheet.at(turn, level, (aside, 0.0)) for level, aside in corners]
            parts.append(shape(chain(ring, closed=True), "wd-hair s-bad"))
    return parts


def _overlap(sheet: _Sheet) -> list[str]:
    """Return the overlap's strip as slanted lines."""
    wrap = sheet.wrap
    if wrap.overlap_mm <= 0.0:
        return []
    strip, step = wrap.overlap_mm * sheet.scale, _HATCH / sheet.scale
    rows = np.arange(-wrap.overlap_mm, wrap.height_mm, step)
    low, high = np.maximum(0.0, rows), np.minimum(wrap.height_mm, rows + wrap.overlap_mm)
    ends = []
    for ups in (low, high):
        aside = np.stack([(ups - rows) / wrap.overlap_mm * strip, np.zeros_like(rows)], axis=1)
        ends.append(sheet.places(np.full_like(rows, 360.0), ups, aside))
    lines = [chain(pair) for pair in zip(*ends, strict=True) if math.dist(*pair) > 0.2]
    return [shape("".join(lines), "wd-thin s-ink-3")]


def _names(sheet: _Sheet) -> list[str]:
    """Return the names of the lines, above the wrap; the seam's or the handle's where the ends are."""
    wrap, height = sheet.wrap, sheet.wrap.height_mm
    length, cut = wrap.turn_length(height) * sheet.scale, wrap.gap_mm / 2.0 * sheet.scale
    room = 68.0 if wrap.gap_mm else 40.0  # for the name at the end, and half of this one
    parts = []
    if wrap.plate is not None:
        return [words("Top", sheet.at(180.0, height, (0.0, 15.0)), "wd-small wd-strong f-accent")]
    for name, at_deg in PLACES.items():
        turn = wrap.turn_of(at_deg)
        if min(turn, 360.0 - turn) / 360.0 * length - cut > room and length > 170.0:
            place = sheet.at(turn, height, (0.0, 15.0))
            parts.append(words(name.capitalize(), place, "wd-small wd-strong f-accent", turn_deg=sheet.lean_deg(turn)))
    name, colour = ("Handle", "f-ink-2") if wrap.gap_mm else ("Seam", "f-heat")
    for turn, side in ((0.0, 1.0), (360.0, -1.0)):
        aside = side * wrap.gap_mm / 2.0 * sheet.scale
        anchor = "middle" if not wrap.gap_mm else "start" if side > 0 else "end"
        place = sheet.at(turn, height, (aside, 15.0))
        parts.append(words(name, place, f"wd-small wd-strong {colour}", anchor=anchor, turn_deg=sheet.lean_deg(turn)))
    return parts


def _across(sheet: _Sheet, unit: Unit) -> list[str]:
    """Return the dimensions along the lower edge: one turn (less the handle's gap), and that with the overlap."""
    wrap = sheet.wrap
    left, right = cuts_mm(wrap)
    start, end = cut_turn(wrap, left, 0.0), 360.0 + cut_turn(wrap, right, 0.0)
    if wrap.overlap_mm <= 0.0:
        return _dimension(sheet, (start, end), 20.0, said(wrap.lower_mm - wrap.gap_mm, unit))
    whole = said(wrap.lower_mm + wrap.overlap_mm, unit)
    over = said(wrap.overlap_mm, unit)
    return [
        *_dimension(sheet, (0.0, 360.0), 18.0, said(wrap.lower_mm, unit)),
        *_dimension(sheet, (start, end), 42.0, f"{whole} with {over} overlap"),
    ]


def _dimension(sheet: _Sheet, ends: tuple[float, float], aside: float, text: str) -> list[str]:
    turns = np.linspace(*ends, _STEPS)
    points = sheet.places(turns, np.zeros_like(turns), np.array([0.0, -aside]))
    ticks = [
        shape(chain([sheet.at(turn, 0.0, (0.0, -7.0)), sheet.at(turn, 0.0, (0.0, -aside - 4.0))]), "wd-thin s-ink-3")
        for turn in ends
    ]
    # On the opposite line, where words stand level whatever the taper.
    return [*ticks, arrowed(points), words(text, sheet.at(180.0, 0.0, (0.0, -aside)), "wd-strong wd-halo")]


def _along(sheet: _Sheet, unit: Unit) -> list[str]:
    wrap = sheet.wrap
    aside = wrap.gap_mm / 2.0 * sheet.scale - 20.0
    ends = [sheet.at(0.0, up, (aside, 0.0)) for up in (0.0, wrap.height_mm)]
    ticks = [
        shape(chain([sheet.at(0.0, up, (aside - 4.0, 0.0)), sheet.at(0.0, up, (aside + 14.0, 0.0))]), "wd-thin s-ink-3")
        for up in (0.0, wrap.height_mm)
    ]
    middle = ((ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0)
    text = said(wrap.height_mm, unit)
    if math.dist(*ends) < wide(text) + 16.0:
        return [*ticks, arrowed(ends), words(text, (middle[0] - 4.0, middle[1]), "wd-strong wd-halo", anchor="end")]
    turn = sheet.lean_deg(0.0) - 90.0
    return [*ticks, arrowed(ends), words(text, middle, "wd-strong wd-halo", turn_deg=turn)]


def _sector_words(wrap: FlatWrap, unit: Unit) -> str:
    top = said(wrap.upper_mm - wrap.gap_mm + wrap.overlap_mm, unit)
    radii = f"radii {said(wrap.inner_radius_mm, unit)} and {said(wrap.outer_radius_mm, unit)}"
    upside = ", foot wider than rim" if wrap.inverted else ""
    return f"upper arc {top}  ·  {radii}  ·  {math.degrees(abs(wrap.theta)):.2f}°{upside}"
