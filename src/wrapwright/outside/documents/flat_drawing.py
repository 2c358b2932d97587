"""The flat wrap as seen, with its lines and dimensions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from wrapwright.core.base.places import place_words
from wrapwright.core.base.units import both_words, mm_words
from wrapwright.core.blank.readings import Keepout
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.path import joined, rectangle
from wrapwright.outside.documents.facts import FlatPicture, WrapFacts
from wrapwright.outside.documents.sketch import (
    Array,
    Item,
    Point,
    arrowed,
    backed,
    drawing,
    line_moves,
    moves,
    picture,
    shape,
    words,
)

_ABOVE, _BELOW, _LEFT, _RIGHT = 7.0, 14.5, 12.0, 3.0  # room for names and dimensions, mm on the page
_STEPS = 49


@dataclass(frozen=True, eq=False)
class _Sheet:
    """The wrap and the matrix from flat mm to the drawing."""

    wrap: WrapFacts
    to: Array
    scale: float

    def at(self, turn: float, up: float, aside: tuple[float, float] = (0.0, 0.0)) -> Point:
        """Return the drawn place of a turn and height, moved `aside` (right along the level, up the wall; mm drawn)."""
        flat = self.wrap.flat
        x, y = (float(one) for one in flat.to_flat(np.array(turn), np.array(up)))
        lean = flat.tilt(turn)
        right, rise = aside[0] / self.scale, aside[1] / self.scale
        x += right * math.cos(lean) + rise * math.sin(lean)
        y += -right * math.sin(lean) + rise * math.cos(lean)
        return (float(self.to[0, 0] * x + self.to[0, 2]), float(self.to[1, 1] * y + self.to[1, 2]))

    def lean_deg(self, turn: float) -> float:
        """Return how far the wall's upright leans clockwise there."""
        return math.degrees(self.wrap.flat.tilt(turn))


def flat_drawing(
    wrap: WrapFacts,
    art: FlatPicture,
    *,
    file: str,
    room: tuple[float, float],
    keepouts: Sequence[Keepout] = (),
) -> dict[str, object]:
    """Return the drawing that fits into `room` (width, height in mm); `file` is the art's name for the template."""
    box = joined([wrap.trim, rectangle(*_arcs_box(wrap))]).box()
    width, height = box[2] - box[0], box[3] - box[1]
    below = _BELOW + (3.5 if wrap.flat.is_sector else 0.0)
    scale = min((room[0] - _LEFT - _RIGHT) / width, (room[1] - _ABOVE - below) / height)
    to = np.array([[scale, 0, _LEFT - scale * box[0]], [0, -scale, _ABOVE + scale * box[3]], [0, 0, 1.0]])
    sheet = _Sheet(wrap, to, scale)
    items = [*_art(sheet, art, file), *_keepouts(sheet, keepouts), *_lines(sheet), *_names(sheet), *_dimensions(sheet)]
    items += _joins(sheet)
    return drawing(scale * width + _LEFT + _RIGHT, scale * height + _ABOVE + below, items)


def _arcs_box(wrap: WrapFacts) -> tuple[float, float, float, float]:
    flat = wrap.flat
    x, y = flat.to_flat(np.linspace(0, 360, _STEPS)[:, None], np.array([0.0, flat.height_mm])[None, :])
    return (float(x.min()), float(y.min()), float(x.max()), float(y.max()))


def _art(sheet: _Sheet, art: FlatPicture, file: str) -> list[Item]:
    """Return the art, paler in the bleed and not at all beyond it."""
    left, bottom, right, top = art.box
    to, scale = sheet.to, sheet.scale
    place = (scale * left + to[0, 2], to[1, 2] - scale * top, scale * (right - left), scale * (top - bottom))
    around = rectangle(left - 1, bottom - 1, right + 1, top + 1)
    bleed = bleed_outline(sheet.wrap.flat, sheet.wrap.bleed_mm)
    return [
        picture(file, place),
        shape(moves(joined([around, sheet.wrap.trim]), to), fill="veil", even_odd=True),
        shape(moves(joined([around, bleed]), to), fill="sheet", even_odd=True),
        shape(moves(sheet.wrap.trim, to), stroke="ink", width_pt=0.7),
    ]


def _sides(sheet: _Sheet) -> tuple[float, ...]:
    """Return the angles that a line and a name stand at; a flat blank has its middle alone."""
    return (0.0,) if sheet.wrap.flat.plate is not None else (0.0, 90.0, 180.0, 270.0)


def _upright(sheet: _Sheet, turn: float, low: float, high: float) -> list[Point]:
    """Return a line along the wall that stands `low` and `high` drawn mm out of the band."""
    height = sheet.wrap.flat.height_mm
    return [sheet.at(turn, 0.0, (0.0, -low)), sheet.at(turn, height, (0.0, high))]


def _lines(sheet: _Sheet) -> list[Item]:
    flat = sheet.wrap.flat
    out: list[Item] = []
    if sheet.wrap.safe.subpaths:
        out.append(shape(moves(sheet.wrap.safe, sheet.to), stroke="halo", width_pt=1.2))
        out.append(shape(moves(sheet.wrap.safe, sheet.to), stroke="accent", width_pt=0.6, dash="dotted"))
    for at_deg in _sides(sheet):
        turn = flat.turn_of(at_deg)
        if turn == 0.0:
            continue
        line = line_moves(_upright(sheet, turn, 0.0, 1.6))
        out.append(shape(line, stroke="halo", width_pt=0.8))
        out.append(shape(line, stroke="accent", width_pt=0.45, dash="dashed"))
    if flat.overlap_mm > 0:
        strip = [
            sheet.at(360.0, up, (aside * sheet.scale, 0.0))
            for up, aside in (
                (0.0, 0.0),
                (0.0, flat.overlap_mm),
                (flat.height_mm, flat.overlap_mm),
                (flat.height_mm, 0.0),
            )
        ]
        out.append(shape(line_moves(strip, closed=True), fill="hatch"))
    if flat.gap_mm == 0 and flat.plate is None:
        for turn in (0.0, 360.0):
            line = line_moves(_upright(sheet, turn, 1.6, 1.6))
            out.append(shape(line, stroke="halo", width_pt=1.8))
            out.append(shape(line, stroke="heat", width_pt=1.0))
    return out


def _joins(sheet: _Sheet) -> list[Item]:
    """Return the lines on which panels join, each with the two panels it lies between."""
    out: list[Item] = []
    for number, panel in enumerate(sheet.wrap.panels[:-1], 1):
        line = line_moves(_upright(sheet, panel.to_turn, 1.6, 1.6))
        out.append(shape(line, stroke="halo", width_pt=1.8))
        out.append(shape(line, stroke="heat", width_pt=0.9, dash="dashed"))
        place = sheet.at(panel.to_turn, panel.height_mm * 0.1)
        name = f"panel {number} | panel {number + 1}"
        out.append(backed(words(name, place, colour="heat", turn_deg=sheet.lean_deg(panel.to_turn), strong=True)))
    return out


def _keepouts(sheet: _Sheet, keepouts: Sequence[Keepout]) -> list[Item]:
    """Return the boxes where nothing may print, as far as they lie within the band."""
    flat = sheet.wrap.flat
    out: list[Item] = []
    for one in keepouts:
        up = one.up_mm - sheet.wrap.band_from_mm
        low, high = (min(flat.height_mm, max(0.0, up + side * one.height_mm / 2)) for side in (-1, 1))
        if low >= high:
            continue
        half = one.width_mm / 2 * sheet.scale
        turn = flat.turn_at(one.at_deg, one.across_mm)
        corners = [sheet.at(turn, high if top else low, (aside, 0.0))
                   for top, aside in ((0, -half), (0, half), (1, half), (1, -half))]  # fmt: skip
        box = line_moves(corners, closed=True)
        out += [shape(box, fill="veil", stroke="halo", width_pt=1.4), shape(box, stroke="bad", width_pt=0.7)]
    return out


def _names(sheet: _Sheet) -> list[Item]:
    """Return the names of the lines, above the wrap."""
    flat = sheet.wrap.flat
    height = flat.height_mm
    out: list[Item] = []
    if flat.plate is not None:
        place = sheet.at(180.0, height, (0.0, 3.4))
        return [words("Top", place, colour="accent", strong=True)]
    for at_deg in _sides(sheet):
        turn = flat.turn_of(at_deg)
        if min(turn, 360.0 - turn) / 360.0 * flat.turn_length(height) * sheet.scale > 10.0:
            out.append(
                words(
                    place_words(at_deg).capitalize(),
                    sheet.at(turn, height, (0.0, 3.4)),
                    colour="accent",
                    turn_deg=sheet.lean_deg(turn),
                    strong=True,
                )
            )
    for turn in (0.0, 360.0):
        name, half = ("Handle", flat.gap_mm / 2.0) if flat.gap_mm else ("Seam", 0.0)
        aside = half if turn == 0.0 else -half
        colour = "ink2" if flat.gap_mm else "heat"
        place = sheet.at(turn, height, (aside * sheet.scale, 3.4))
        out.append(words(name, place, colour=colour, turn_deg=sheet.lean_deg(turn), strong=True))
    return out


def _level(sheet: _Sheet, ends: tuple[float, float], aside: float) -> list[Point]:
    """Return points along the band's lower edge, `aside` drawn mm below it, between turns."""
    return [sheet.at(float(turn), 0.0, (0.0, -aside)) for turn in np.linspace(*ends, _STEPS)]


def _dimensions(sheet: _Sheet) -> list[Item]:
    flat = sheet.wrap.flat
    circle = flat.turn_length(0.0)
    cut = 180.0 * flat.gap_mm / circle
    left, right = cut, 360.0 - cut
    end = right + 360.0 * flat.overlap_mm / circle
    out = _dimension(sheet, (left, right), 4.0, both_words(flat.lower_mm - flat.gap_mm))
    if flat.overlap_mm > 0:
        out += _dimension(sheet, (left, end), 10.0, both_words(flat.lower_mm + flat.overlap_mm) + " with overlap")
    height = flat.height_mm
    side = [sheet.at(0.0, up, (cut / 360.0 * circle * sheet.scale - 5.0, 0.0)) for up in (0.0, height)]
    out += arrowed(side)
    middle = ((side[0][0] + side[1][0]) / 2, (side[0][1] + side[1][1]) / 2)
    lean = math.radians(sheet.lean_deg(0.0))
    place = (middle[0] - 2.6 * math.cos(lean), middle[1] - 2.6 * math.sin(lean))
    out.append(words(both_words(height), place, turn_deg=sheet.lean_deg(0.0) - 90.0))
    if flat.is_sector:
        top = flat.upper_mm - flat.gap_mm + flat.overlap_mm
        arc = f"upper arc {mm_words(top)}, lower arc {mm_words(flat.lower_mm - flat.gap_mm + flat.overlap_mm)}"
        out.append(
            backed(
                words(f"{arc}, along the wall {mm_words(height)}", sheet.at(180.0, 0.0, (0.0, -16.6)), colour="ink3")
            )
        )
    return out


def _dimension(sheet: _Sheet, ends: tuple[float, float], aside: float, text: str) -> list[Item]:
    """Return a dimension below the wrap with its words in the middle of the line's lower side."""
    points = _level(sheet, ends, aside)
    ticks = [line_moves([sheet.at(turn, 0.0, (0.0, -1.0)), sheet.at(turn, 0.0, (0.0, -aside - 1.0))]) for turn in ends]
    # Beside the opposite line, where the words stand level whatever the taper.
    place = sheet.at(180.0, 0.0, (0.0, -aside - 2.4))
    return [
        *(shape(tick, stroke="ink3", width_pt=0.35) for tick in ticks),
        *arrowed(points),
        backed(words(text, place)),
    ]
