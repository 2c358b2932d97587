"""The bare wall: from readings, whatever they were taken with, to girths along the wall."""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.measuring.plausible import DIAMETER, GIRTH, WALL, Plausible, doubt
from wrapwright.core.blank.measuring.tape import PAPER_TOOLS, tape_kind
from wrapwright.core.blank.readings import Blank, Reading, Tape

THICKEST_TAPE_MM = 3.0
MOST_READINGS = 60
_SLIVER_MM = 1e-6

_READS: dict[str, tuple[str, Plausible]] = {
    "girth": ("the girth", GIRTH),
    "diameter": ("the diameter", DIAMETER),
    "flat": ("the flat length", GIRTH),
}


@dataclass(frozen=True)
class Wall:
    """A bare wall as a surface of revolution, straight between its readings.

    Attributes:
        positions_mm: distances along the wall from position 0, rising; two at least.
        girths_mm: distance round the bare wall at each of them.
    """

    positions_mm: tuple[float, ...]
    girths_mm: tuple[float, ...]

    @property
    def from_mm(self) -> float:
        """Lowest position with a known girth."""
        return self.positions_mm[0]

    @property
    def to_mm(self) -> float:
        """Highest position with a known girth."""
        return self.positions_mm[-1]

    @property
    def length_mm(self) -> float:
        """Length of the wall, along it."""
        return self.to_mm - self.from_mm

    @property
    def steepest_deg(self) -> float:
        """Largest half-angle of any stretch: 0 for a straight wall, 90 for a flat disc."""
        return max(
            math.degrees(math.asin(min(1.0, abs(c2 - c1) / (2.0 * math.pi * (s2 - s1)))))
            for s1, s2, c1, c2 in zip(
                self.positions_mm, self.positions_mm[1:], self.girths_mm, self.girths_mm[1:], strict=False
            )
        )

    def girth_at(self, position_mm: float) -> float:
        """Return the girth at a position inside the wall, straight between readings."""
        at = min(max(bisect_right(self.positions_mm, position_mm), 1), len(self.positions_mm) - 1)
        low, high = self.positions_mm[at - 1], self.positions_mm[at]
        share = (position_mm - low) / (high - low)
        return self.girths_mm[at - 1] * (1.0 - share) + self.girths_mm[at] * share

    def between(self, from_mm: float, to_mm: float) -> Wall:
        """Return the part of the wall between two positions inside it."""
        # A reading at an edge is the edge: rounding must not leave a sliver whose slope means nothing.
        inner = [at for at in self.positions_mm if from_mm + _SLIVER_MM < at < to_mm - _SLIVER_MM]
        knots = (from_mm, *inner, to_mm)
        return Wall(knots, tuple(self.girth_at(at) for at in knots))


def bare_girth(reading: Reading, tape: Tape, *, thickness_mm: float) -> float:
    """Return the girth of the bare wall that a reading means.

    A tape of thickness b round a blank reads girth + pi b; of an unknown one nothing is subtracted. A strip of
    paper (thickness t) reads girth + pi t, which is what a flat length is.
    """
    if reading.how == "diameter":
        return math.pi * reading.length_mm
    if reading.how == "flat":
        return reading.length_mm - math.pi * thickness_mm
    own = thickness_mm if tape_kind(tape) in PAPER_TOOLS else 0.0
    return reading.length_mm - math.pi * (own if tape.thickness_mm is None else tape.thickness_mm)


def tape_taken_off(blank: Blank, *, thickness_mm: float) -> bool:
    """Return whether any girth was read round a tape (or a strip of paper) whose thickness was taken off."""
    girths = (one for one in blank.readings if one.how == "girth")
    return any(bare_girth(one, blank.tape, thickness_mm=thickness_mm) < one.length_mm for one in girths)


def wall_of(blank: Blank, *, thickness_mm: float) -> Wall:
    """Return the bare wall of a blank; thickness_mm is the paper's (flat lengths were read with it).

    Raises:
        WrapwrightError: unusable; every reading that is missing, impossible or implausible, each named.
    """
    problems = _readings_in_doubt(blank)
    raise_all(problems)
    girths = tuple(bare_girth(one, blank.tape, thickness_mm=thickness_mm) for one in blank.readings)
    raise_all(_taken_off(blank, girths))
    wall = _profile(blank, girths) if blank.kind == "profile" else _plain(blank, girths)
    raise_all(_too_steep(blank, wall))
    return wall


def _readings_in_doubt(blank: Blank) -> list[WrapwrightError]:
    """Return what is wrong with the readings, one by one and in their number."""
    problems: list[WrapwrightError] = []
    wanted = {"straight": (1, 1), "tapered": (2, 2), "profile": (2, MOST_READINGS)}[blank.kind]
    if not wanted[0] <= len(blank.readings) <= wanted[1]:
        problems.append(
            unusable(
                f"a {blank.kind} blank takes {_count(wanted)}, but {len(blank.readings)} came.",
                remedy="Give one girth for a straight blank, two for a tapered one, three or more for a profile.",
                where="blank",
            )
        )
    for one in blank.readings:
        what, limits = _READS[one.how]
        problems += doubt(what + _where_read(one), one.length_mm, limits, where=one.where)
    if blank.kind == "profile":
        problems += _out_of_order(blank.readings)
    elif blank.wall_mm is None and blank.axial_mm is None:
        problems.append(
            unusable("the height of the wall is missing.", remedy="Measure it along the wall.", where="blank: wall")
        )
    if blank.wall_mm is not None:
        problems += doubt("the wall", blank.wall_mm, WALL, where="blank: wall")
    if blank.axial_mm is not None:
        problems += doubt("the height", blank.axial_mm, WALL, where="blank: height")
    return problems + _tape_in_doubt(blank.tape)


def _tape_in_doubt(tape: Tape) -> list[WrapwrightError]:
    problems: list[WrapwrightError] = []
    if not 0.0 < tape.division_mm <= 25.4:
        problems.append(
            unusable(
                f"the tape's division reads {mm_words(tape.division_mm, digits=3)}; it must lie between 0 and 25.4 mm.",
                remedy="Give the distance between two neighbouring marks.",
                where="blank: tape division",
            )
        )
    if tape.thickness_mm is not None and not 0.0 <= tape.thickness_mm <= THICKEST_TAPE_MM:
        problems.append(
            unusable(
                f"the tape's thickness reads {mm_words(tape.thickness_mm, digits=3)};"
                f" it must lie between 0 and {mm_words(THICKEST_TAPE_MM)}.",
                remedy="Leave it out if you do not know it.",
                where="blank: tape thickness",
            )
        )
    return problems


def _out_of_order(readings: tuple[Reading, ...]) -> list[WrapwrightError]:
    """Return the problems with the positions of a profile: missing, below 0, or not rising."""
    problems: list[WrapwrightError] = []
    last = -math.inf
    for one in readings:
        at = one.position_mm
        if at is None or not math.isfinite(at) or at < 0.0 or at > WALL.most_mm:
            shown = "no position" if at is None else f"the position {mm_words(at, digits=3)}"
            problems.append(
                unusable(
                    f"the reading of {mm_words(one.length_mm, digits=3)} has {shown};"
                    f" it must lie between 0 and {mm_words(WALL.most_mm)} along the wall.",
                    remedy="Measure positions upwards from the wall's lower edge.",
                    where=one.where,
                )
            )
            continue
        if at <= last:
            problems.append(
                unusable(
                    f"the reading at {mm_words(at, digits=3)} comes after the one at {mm_words(last, digits=3)}.",
                    remedy="List the readings from the base up, each position once.",
                    where=one.where,
                )
            )
        last = at
    return problems


def _plain(blank: Blank, girths: tuple[float, ...]) -> Wall:
    bottom, top = girths[0], girths[-1]
    if blank.wall_mm is not None:
        length = blank.wall_mm
    else:
        length = math.hypot(blank.axial_mm or 0.0, (top - bottom) / (2.0 * math.pi))
    return Wall((0.0, length), (bottom, top))


def _profile(blank: Blank, girths: tuple[float, ...]) -> Wall:
    positions = tuple(one.position_mm or 0.0 for one in blank.readings)
    if blank.wall_mm is not None and blank.wall_mm < positions[-1] - 1e-6:
        raise unusable(
            f"the highest reading lies at {mm_words(positions[-1])}, above the wall's {mm_words(blank.wall_mm)}.",
            remedy="Measure the wall again, or leave it out: the readings say how high it is.",
            where="blank: wall",
        )
    span = positions[-1] - positions[0]
    if span < WALL.least_mm:
        raise unusable(
            f"the readings span {mm_words(span)} of the wall, less than {mm_words(WALL.least_mm)}.",
            remedy=_apart(span),
            where="blank: readings",
        )
    return Wall(positions, girths)


def _apart(span_mm: float) -> str:
    meant = f"Were the positions in inches ({mm_words(span_mm * 25.4)})? " if span_mm * 25.4 >= WALL.usual_mm[0] else ""
    return f"{meant}Read at the foot, in the middle and at the top."


def _too_steep(blank: Blank, wall: Wall) -> list[WrapwrightError]:
    """Return the problems of stretches whose girths differ more than a wall of that length can make them."""
    problems: list[WrapwrightError] = []
    stretches = zip(wall.positions_mm, wall.positions_mm[1:], wall.girths_mm, wall.girths_mm[1:], strict=False)
    for at, (from_mm, to_mm, low, high) in enumerate(stretches, start=1):
        length = to_mm - from_mm
        limit = 2.0 * math.pi * length
        if abs(high - low) >= limit:
            problems.append(
                unusable(
                    f"the girths {mm_words(low)} and {mm_words(high)} differ by {mm_words(abs(high - low))};"
                    f" on {mm_words(length)} of wall they can differ by less than {mm_words(limit)} (2 pi times it).",
                    remedy="Measure both girths again, and the wall along its slope.",
                    where=blank.readings[min(at, len(blank.readings) - 1)].where,
                )
            )
    return problems


def _taken_off(blank: Blank, girths: tuple[float, ...]) -> list[WrapwrightError]:
    """Return the problems of readings of which nothing is left without the tape's or the paper's thickness."""
    return [
        unusable(
            f"the girth is {mm_words(girth)} once the thickness measured along is taken off.",
            remedy="Check the thickness of the tape or the paper.",
            where=reading.where,
        )
        for girth, reading in zip(girths, blank.readings, strict=True)
        if girth <= 0.0
    ]


def _where_read(reading: Reading) -> str:
    return "" if reading.position_mm is None else f" at {mm_words(reading.position_mm)}"


def _count(wanted: tuple[int, int]) -> str:
    if wanted == (1, 1):
        return "1 reading"
    return f"{wanted[0]} readings" if wanted[0] == wanted[1] else f"{wanted[0]} to {wanted[1]} readings"
