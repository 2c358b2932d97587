"""The ticket's small drawings: the mirrored sheet, the seam, and the piece with its distances."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.trim import cuts_mm
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.path import joined, rectangle
from wrapwright.outside.documents.facts import BlankFacts, FlatPicture, WrapFacts
from wrapwright.outside.documents.sketch import (
    Array,
    Item,
    Point,
    arrow,
    arrowed,
    backed,
    drawing,
    line_moves,
    moves,
    picture,
    ring,
    shape,
    tag,
    words,
)

_EDGE = 5.0  # room round the sheet for what stands out of it, mm drawn


@dataclass(frozen=True, eq=False)
class Page:
    """A page of the print file: its size in mm, the matrix flat mm -> page mm, the turn after mirroring."""

    width_mm: float
    height_mm: float
    to_page: Array
    turn_deg: int


def sheet_drawing(
    page: Page, wrap: WrapFacts, art: FlatPicture, *, file: str, room: tuple[float, float]
) -> dict[str, object]:
    """Return the printed sheet, mirrored, with the two ends numbered and the edge that goes up.

    A flat blank has no ends, and a top.
    """
    scale = min((room[0] - 2 * _EDGE) / page.width_mm, (room[1] - 2 * _EDGE) / page.height_mm)
    down = np.array([[scale, 0, _EDGE], [0, -scale, _EDGE + scale * page.height_mm], [0, 0, 1.0]])
    to = down @ page.to_page
    corners = rectangle(0, 0, page.width_mm, page.height_mm)
    left, bottom, right, top = art.box
    middle = to @ np.array([(left + right) / 2, (bottom + top) / 2, 1.0])
    width, height = scale * (right - left), scale * (top - bottom)
    place = (middle[0] - width / 2, middle[1] - height / 2, width, height)
    around = rectangle(left - 1, bottom - 1, right + 1, top + 1)
    bleed = bleed_outline(wrap.flat, wrap.bleed_mm)
    items: list[Item] = [
        picture(file, place, mirror=True, turn_deg=-page.turn_deg),
        shape(moves(joined([around, bleed]), to), fill="sheet", even_odd=True),
        shape(moves(corners, down), stroke="ink3", width_pt=0.6),
        shape(moves(wrap.trim, to), stroke="ink", width_pt=0.7, dash="dashed"),
        *_ends(wrap, to, scale),
        *_rim(wrap, to, scale),
    ]
    return drawing(scale * page.width_mm + 2 * _EDGE, scale * page.height_mm + 2 * _EDGE, items)


def _drawn(wrap: WrapFacts, to: Array, turn: float, up: float, aside: tuple[float, float]) -> Point:
    """Return the drawn place of a turn and height, moved along the level and up the wall by flat mm."""
    flat = wrap.flat
    x, y = (float(one) for one in flat.to_flat(np.array(turn), np.array(up)))
    lean = flat.tilt(turn)
    x += aside[0] * math.cos(lean) + aside[1] * math.sin(lean)
    y += -aside[0] * math.sin(lean) + aside[1] * math.cos(lean)
    place = to @ np.array([x, y, 1.0])
    return (float(place[0]), float(place[1]))


def _ends(wrap: WrapFacts, to: Array, scale: float) -> list[Item]:
    flat, out = wrap.flat, 2.8 / scale
    if flat.plate is not None:
        return []
    half, (left, right) = flat.height_mm / 2, cuts_mm(flat)
    first = tag("1", _drawn(wrap, to, 0.0, half, (left - out, 0.0))) if flat.from_turn == 0.0 else []
    last = tag("2", _drawn(wrap, to, 360.0, half, (right + out, 0.0))) if flat.to_turn == 360.0 else []
    return [*first, *last]


def _rim(wrap: WrapFacts, to: Array, scale: float) -> list[Item]:
    flat = wrap.flat
    middle = (flat.from_turn + flat.to_turn) / 2.0
    inside = _drawn(wrap, to, middle, flat.height_mm, (0.0, -9.0 / scale))
    tip = _drawn(wrap, to, middle, flat.height_mm, (0.0, -1.0 / scale))
    word = _drawn(wrap, to, middle, flat.height_mm, (0.0, 3.6 / scale))
    halo = shape(line_moves([inside, tip]), stroke="halo", width_pt=3.0)
    return [
        halo,
        *arrow(inside, tip, colour="ink", width_pt=1.0),
        backed(words("rim" if flat.plate is None else "top", word, strong=True, colour="ink")),
    ]


def seam_drawing(wrap: WrapFacts, *, width_mm: float) -> dict[str, object]:
    """Return a cut through wall and paper where the ends meet, seen from above the rim, the outside up."""
    seam, low = width_mm * 0.42, 15.0
    items = [
        shape(
            line_moves([(2, low), (width_mm - 2, low), (width_mm - 2, low + 2.4), (2, low + 2.4)], closed=True),
            fill="ground",
            stroke="ink3",
            width_pt=0.5,
        )
    ]
    if wrap.flat.gap_mm:
        return drawing(width_mm, 20.0, [*items, *_at_handle(wrap, seam + 4, low, width_mm)])
    top = low - 1.0
    items.append(shape(line_moves([(seam, top), (width_mm - 2, top)]), stroke="accent", width_pt=1.9))
    if wrap.flat.overlap_mm == 0:
        items.append(shape(line_moves([(2, top), (seam - 0.8, top)]), stroke="ink", width_pt=1.9))
        items.append(words("the ends butt", (seam, 5.0)))
    else:
        end = seam + 13.0
        bend: list[list[object]] = [
            ["m", 2, top],
            ["l", seam - 4, top],
            ["c", seam - 2, top, seam - 2, top - 1.3, seam, top - 1.3],
            ["l", end, top - 1.3],
        ]
        items.append(shape(bend, stroke="ink", width_pt=1.9))
        items.append(
            shape(
                line_moves([(end - 5, top - 2.3), (end + 0.7, top - 2.3), (end + 2, top - 1.0), (end + 7, top - 1.0)]),
                stroke="ink3",
                width_pt=1.0,
                dash="dashed",
            )
        )
        items += arrowed([(seam, 7.6), (end, 7.6)])
        items.append(words(mm_words(wrap.flat.overlap_mm), ((seam + end) / 2, 5.4)))
        items.append(words("tape", (end + 4.5, 9.4), anchor="lm"))
    items.append(shape(line_moves([(seam, 6.5), (seam, low + 3.4)]), stroke="heat", width_pt=0.8))
    items.append(words("seam", (seam, low + 5.0), colour="heat", strong=True))
    items += [*tag("1", (width_mm - 5, top - 3.4)), *tag("2", (5, top - 3.4))]
    return drawing(width_mm, 21.5, items)


def _at_handle(wrap: WrapFacts, middle: float, low: float, width_mm: float) -> list[Item]:
    half = 11.0
    top = low - 1.0
    stub = line_moves([(middle - 3, low), (middle - 2.4, 4), (middle + 2.4, 4), (middle + 3, low)], closed=True)
    return [
        shape(stub, fill="ground", stroke="ink3", width_pt=0.5),
        shape(line_moves([(middle + half, top), (width_mm - 2, top)]), stroke="accent", width_pt=1.9),
        shape(line_moves([(2, top), (middle - half, top)]), stroke="ink", width_pt=1.9),
        *arrowed([(middle - half, 10.0), (middle + half, 10.0)]),
        words(mm_words(wrap.flat.gap_mm), (middle + 4.4, 7.8), anchor="lm"),
        words("handle", (middle + 4.4, 5.0), anchor="lm"),
        *tag("1", (width_mm - 5, top - 3.4)),
        *tag("2", (5, top - 3.4)),
    ]


def piece_drawing(blank: BlankFacts, wrap: WrapFacts, *, room: tuple[float, float]) -> dict[str, object]:
    """Return the piece from the side with its band and the distances from both ends of the wall."""
    low, high = blank.profile[0][0], blank.profile[-1][0]
    radii = [(position, girth / (2 * math.pi)) for position, girth in blank.profile]
    widest = max(radius for _, radius in radii)
    flat = 0.16  # how far the rings are seen open
    scale = min((room[1] - 4.0) / (high - low + 2 * flat * widest), 0.42 * room[0] / (2 * widest))
    left = 6.0 + scale * widest
    top = 2.0 + scale * flat * radii[-1][1]

    positions, lengths = [position for position, _ in radii], [radius for _, radius in radii]

    def at(position: float) -> tuple[float, float]:
        radius = float(np.interp(position, positions, lengths))
        return top + scale * (high - position), scale * radius

    start, end = wrap.band_from_mm, wrap.band_from_mm + wrap.flat.height_mm
    items = [
        shape(_belt([at(position) for position in positions], left, flat), fill="sheet", stroke="ink2", width_pt=0.7),
        shape(
            _belt([at(p) for p in (start, *(p for p in positions if start < p < end), end)], left, flat),
            fill="accentsoft",
            stroke="accentline",
            width_pt=0.6,
        ),
        ring((left, at(high)[0]), (at(high)[1], flat * at(high)[1]), fill="panel", stroke="ink2", width_pt=0.7),
    ]
    x = left + scale * widest + 5.0
    for near, far, what in ((end, high, "to the rim end"), (start, end, "band"), (low, start, "to the base end")):
        items += _distance(x, (at(far)[0], at(near)[0]), f"{mm_words(far - near)} {what}")
    return drawing(room[0], scale * (high - low) + top + 2.0 + scale * flat * radii[0][1], items)


def plate_drawing(wrap: WrapFacts, *, room: tuple[float, float]) -> dict[str, object]:
    """Return a flat blank as it lies with its top up, and its width and height."""
    flat = wrap.flat
    scale = min((room[0] - 34.0) / flat.lower_mm, (room[1] - 12.0) / flat.height_mm)
    wide, high = scale * flat.lower_mm, scale * flat.height_mm
    left, top = 2.0, 5.0
    to = np.array([[scale, 0, left + wide / 2.0], [0, -scale, top + high], [0, 0, 1.0]])
    middle = left + wide / 2.0
    items = [
        shape(moves(wrap.trim, to), fill="accentsoft", stroke="accentline", width_pt=0.7),
        *arrow((middle, top + min(9.0, 0.4 * high)), (middle, top + 1.0), colour="ink", width_pt=1.0),
        words("top", (middle, top - 2.4), strong=True, colour="ink"),
        *_distance(left + wide + 4.0, (top, top + high), f"{mm_words(flat.height_mm)} high"),
        *arrowed([(left, top + high + 2.6), (left + wide, top + high + 2.6)]),
        words(f"{mm_words(flat.lower_mm)} wide", (middle, top + high + 5.0)),
    ]
    return drawing(room[0], top + high + 7.0, items)


def _belt(sides: list[tuple[float, float]], left: float, flat: float) -> list[list[object]]:
    """Return the outline of a stretch of wall, drawn (y, radius) upwards, its edges bowed as rings seen from above."""
    (y0, r0), (y1, r1) = sides[0], sides[-1]
    k = 4.0 / 3.0
    out: list[tuple[str, list[float]]] = [("m", [left - r1, y1])]
    out += [("l", [left - r, y]) for y, r in reversed(sides[:-1])]
    out.append(("c", [left - r0, y0 + k * flat * r0, left + r0, y0 + k * flat * r0, left + r0, y0]))
    out += [("l", [left + r, y]) for y, r in sides[1:]]
    out.append(("c", [left + r1, y1 + k * flat * r1, left - r1, y1 + k * flat * r1, left - r1, y1]))
    return [*([name, *(round(value, 3) for value in values)] for name, values in out), ["z"]]


def _distance(x: float, ends: tuple[float, float], text: str) -> list[Item]:
    ticks = [shape(line_moves([(x - 3.5, y), (x + 1, y)]), stroke="ink3", width_pt=0.35) for y in ends]
    if ends[1] - ends[0] < 0.05:
        return []
    return [
        *ticks,
        *arrowed([(x, ends[0]), (x, ends[1])], head_mm=min(1.5, 0.45 * (ends[1] - ends[0]))),
        words(text, (x + 1.8, (ends[0] + ends[1]) / 2), anchor="lm"),
    ]
