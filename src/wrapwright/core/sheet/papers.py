"""Which papers are known by name, and the size of any paper a person writes."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.base.units import length_mm

INCH = 25.4

# A sizes: ISO 216:2007. Letter and Tabloid: ANSI/ASME Y14.1 sizes A and B. Legal: US trade size, common practice.
PAPERS: dict[str, tuple[float, float]] = {
    "Letter": (215.9, 279.4),  # 8.5 x 11 in
    "Legal": (215.9, 355.6),  # 8.5 x 14 in
    "Tabloid": (279.4, 431.8),  # 11 x 17 in
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
}

# What a desktop or roll printer can be fed with; common practice, no source.
SMALLEST_MM = 50.0
LARGEST_MM = 3000.0

_TIMES = re.compile(r"\s*[x×]\s*", re.IGNORECASE)
_UNIT = re.compile(r"[^\d\s.,/½¼¾⅛⅜⅝⅞-]+\s*$")


@dataclass(frozen=True)
class Paper:
    """A paper.

    Attributes:
        name: how the sheet and the ticket call it.
        width_mm, height_mm: upright (portrait) size; height_mm is None for a roll.
    """

    name: str
    width_mm: float
    height_mm: float | None


def paper_named(written: str, *, where: str = "") -> Paper:
    """Return the paper of a name ("A4", "letter") or of a size in words ("13x19 in", "210 x 297 mm").

    Upright whatever the order of the two sides. Raises WrapwrightError (unusable) for an unknown name, with the
    nearest known one, and for sides outside 50..3000 mm.
    """
    text = written.strip()
    for name, (width, height) in PAPERS.items():
        if text.casefold() == name.casefold():
            return Paper(name, width, height)
    parts = _TIMES.split(text)
    if len(parts) == 2 and all(any(sign.isdigit() or sign in "½¼¾⅛⅜⅝⅞" for sign in part) for part in parts):
        first, second = parts
        unit = _UNIT.search(second)
        if unit and not _UNIT.search(first):
            first += " " + unit.group().strip()
        return sheet_of(length_mm(first, where=where), length_mm(second, where=where), where=where)
    raise _unknown(written, where)


def sheet_of(one_mm: float, other_mm: float, *, where: str = "") -> Paper:
    """Return the upright sheet with these two sides in mm; raises WrapwrightError outside 50..3000 mm."""
    width, height = sorted((one_mm, other_mm))
    for side in (width, height):
        _fits_a_printer(side, where)
    for name, size in PAPERS.items():
        if math.dist(size, (width, height)) < 0.1:
            return Paper(name, *size)
    return Paper(f"{width:.10g} x {height:.10g} mm", width, height)


def roll_of(width_mm: float, *, where: str = "") -> Paper:
    """Return the roll of this width in mm; raises WrapwrightError outside 50..3000 mm."""
    _fits_a_printer(width_mm, where, roll=True)
    return Paper(f"roll {width_mm:.10g} mm", width_mm, None)


def _fits_a_printer(side: float, where: str, *, roll: bool = False) -> None:
    if SMALLEST_MM <= side <= LARGEST_MM:
        return
    inches = f" Is it {side:.10g} in ({side * INCH:.10g} mm)? Then write the unit." if 2.0 <= side < SMALLEST_MM else ""
    what = f"a roll {side:.10g} mm wide" if roll else f"a paper {side:.10g} mm wide or high"
    sides = "Give the roll's width with its unit." if roll else "Give the paper's two sides with their unit."
    raise unusable(
        f"{what} is outside {SMALLEST_MM:g} to {LARGEST_MM:g} mm.{inches}",
        remedy="" if inches else sides,
        where=where,
    )


def _unknown(written: str, where: str) -> WrapwrightError:
    near = nearest(written, PAPERS)
    hint = f"did you mean {near}? " if near else ""
    return unusable(
        f"the paper {written!r} is not known; {hint}known are {', '.join(PAPERS)}.",
        remedy='A size may be written instead: "13x19 in" or [330, 483].',
        where=where,
    )
