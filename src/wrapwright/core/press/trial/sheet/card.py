"""What is printed on one coupon, as seen when it is done: what is judged for each quality, and its number."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.path import Path, joined, polygon, rectangle
from wrapwright.core.sheet.marks import motion

if TYPE_CHECKING:
    from wrapwright.core.sheet.marks import SetLabel

WIDTH_MM, HEIGHT_MM = 26.0, 44.0
BLACK: Rgb = (0.0, 0.0, 0.0)

_GREYS = (0.0, 0.2, 0.4, 0.6, 0.8, 0.9)
_FULL: tuple[Rgb, ...] = (
    (0.0, 1.0, 1.0), (1.0, 0.0, 1.0), (1.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0),
)  # fmt: skip
LINES_MM = (0.1, 0.15, 0.2, 0.3, 0.4)
CAPS_MM = (0.9, 1.3, 1.8, 2.5)
_SPOKES = 18
_STAR_MM = 5.0  # its radius; its spokes run together where they get finer than the eye or the blur


@dataclass(frozen=True, eq=False)
class Tint:
    """A filled shape (nonzero) of one colour; words are drawn on a coarser grid than lines."""

    colour: Rgb
    path: Path
    words: bool = False


def card(number: int, set_label: SetLabel) -> tuple[Tint, ...]:
    """Return the shapes of one coupon in mm from its lower left corner, bottom to top.

    From the top: its number beside a field without ink, in which yellowing shows; black in six steps and six full
    colours for density; lines from 0.1 to 0.4 mm, as far apart as they are wide, and a star, for sharpness; words from
    0.9 to 2.5 mm tall.
    """
    return (
        Tint(BLACK, _at(set_label(str(number), 5.6), 0.0, 38.0), words=True),
        *_bare(set_label),
        *_ramps(),
        Tint(BLACK, joined([*_upright(), *_level()])),
        Tint(BLACK, _star(20.6, 18.9)),
        *_words(set_label),
    )


def _bare(set_label: SetLabel) -> tuple[Tint, ...]:
    left, bottom, right, top = 13.0, 37.6, WIDTH_MM, HEIGHT_MM
    edge = 0.2
    frame = joined(
        [
            rectangle(left, bottom, right, bottom + edge),
            rectangle(left, top - edge, right, top),
            rectangle(left, bottom, left + edge, top),
            rectangle(right - edge, bottom, right, top),
        ]
    )
    return (
        Tint(BLACK, frame),
        Tint((0.55, 0.55, 0.55), _at(set_label("bare", 1.2), left + 0.9, bottom + 0.8), words=True),
    )


def _ramps() -> tuple[Tint, ...]:
    step = WIDTH_MM / len(_GREYS)
    found = []
    for at, grey in enumerate(_GREYS):
        found.append(Tint((grey, grey, grey), rectangle(at * step, 31.2, (at + 1) * step, 36.4)))
    for at, colour in enumerate(_FULL):
        found.append(Tint(colour, rectangle(at * step, 25.4, (at + 1) * step, 30.6)))
    return tuple(found)


def _upright() -> list[Path]:
    found, x = [], 0.0
    for width in LINES_MM:
        found += [rectangle(x + 2 * at * width, 19.6, x + (2 * at + 1) * width, 24.2) for at in range(3)]
        x += 5 * width + 1.6
    return found


def _level() -> list[Path]:
    found, y = [], 14.0
    for width in LINES_MM:
        found += [rectangle(0.0, y + 2 * at * width, 13.0, y + (2 * at + 1) * width) for at in range(2)]
        y += 3 * width + 0.45
    return found


def _star(x: float, y: float) -> Path:
    """Return a star of wedges, every other one inked."""
    parts = []
    for spoke in range(_SPOKES):
        start, end = (2.0 * math.pi * (spoke + share) / _SPOKES for share in (0.0, 0.5))
        arc = np.linspace(start, end, 5)
        rim = [(x + _STAR_MM * math.cos(one), y + _STAR_MM * math.sin(one)) for one in arc]
        parts.append(polygon([(x, y), *rim]))
    return joined(parts)


def _words(set_label: SetLabel) -> tuple[Tint, ...]:
    found, y = [], 0.3
    for cap in reversed(CAPS_MM):
        found.append(Tint(BLACK, _at(set_label(f"Ragbe {cap:g} mm", cap), 0.0, y), words=True))
        y += 1.62 * cap
    return tuple(found)


def _at(path: Path, x: float, y: float) -> Path:
    """Return words moved so that their left edge lies at `x`, their base line at `y`."""
    if not path.subpaths:
        return path
    return path.times(motion(0.0, (x - path.box()[0], y)))
