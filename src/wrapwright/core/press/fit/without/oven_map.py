"""An oven's map: its offset by set point and by place, in between interpolated, beyond never without saying so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_words, shift_words, step_words
from wrapwright.core.press.fit.values import Found
from wrapwright.core.press.values import REFERENCE_C, UNCALIBRATED_K

MOST_POINTS = 200
LONGEST_PLACE = 40
How = Literal["measured", "between", "beyond", "another place"]


@dataclass(frozen=True)
class Point:
    """One measured point: what was set, where on the shelves, offset in K and its half-width."""

    set_c: float
    place: str
    offset_k: float
    half_k: float


@dataclass(frozen=True)
class Mapped:
    """An offset read off a map.

    Attributes:
        offset_k, half_k: with its half-width.
        how: measured there; between two set points; beyond the measured ones; of another place.
        words: a sentence that says so.
    """

    offset_k: float
    half_k: float
    how: How
    words: str


def checked(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the points of a map in order: by place as first named, then by set point.

    Raises:
        WrapwrightError: unusable: none, too many, two of the same place and set point, an offset that cannot be.
    """
    if not points:
        raise unusable(
            "The map has no points.", remedy="Give at least one: set point, place and reading.", where="points"
        )
    if len(points) > MOST_POINTS:
        message = f"The map has {len(points)} points; at most {MOST_POINTS} are kept."
        raise unusable(message, remedy="Keep fewer set points or places.", where="points")
    seen: set[tuple[float, str]] = set()
    for one in points:
        key = (one.set_c, one.place.casefold())
        if key in seen:
            message = f'"{one.place}" at {celsius_words(one.set_c)} is in the map twice.'
            raise unusable(message, remedy="Keep one of the two, or their mean.", where="points")
        seen.add(key)
        if not one.place.strip() or len(one.place) > LONGEST_PLACE:
            message = f"A place needs a name of 1 to {LONGEST_PLACE} characters."
            raise unusable(message, remedy='Call it "top left", "middle" ...', where="points")
        if abs(one.offset_k) > 60.0:
            message = (
                f'"{one.place}" is {shift_words(one.offset_k)} from the {celsius_words(one.set_c)} set; that cannot be.'
            )
            raise unusable(message, remedy="Look at the thermometer and at C and F.", where="points")
    places = list(dict.fromkeys(one.place.casefold() for one in points))
    return tuple(sorted(points, key=lambda one: (places.index(one.place.casefold()), one.set_c)))


def places_of(points: Sequence[Point]) -> tuple[str, ...]:
    """Return the places of a map, each once, as first named."""
    named: dict[str, str] = {}
    for one in points:
        named.setdefault(one.place.casefold(), one.place)
    return tuple(named.values())


def offset_at(points: Sequence[Point], set_c: float, place: str) -> Mapped:
    """Return the offset at a set point and a place.

    Between two measured set points of the place: on the straight line between them, with the larger half-width.
    Beyond them: that of the nearest, its half-width at least that of an oven nobody has looked at, and it says so. Of a
    place that was not measured: the mean of all places, half their spread let in.
    """
    here = sorted((one for one in points if one.place.casefold() == place.casefold()), key=lambda one: one.set_c)
    if not here:
        return _elsewhere(points, set_c, place)
    for one in here:
        if abs(one.set_c - set_c) < 0.5:
            return Mapped(one.offset_k, one.half_k, "measured", f"Measured at {celsius_words(one.set_c)}, {one.place}.")
    below = [one for one in here if one.set_c < set_c]
    above = [one for one in here if one.set_c > set_c]
    if below and above:
        low, high = below[-1], above[0]
        share = (set_c - low.set_c) / (high.set_c - low.set_c)
        offset = low.offset_k + share * (high.offset_k - low.offset_k)
        words = f"Between {celsius_words(low.set_c)} and {celsius_words(high.set_c)}, {low.place}."
        return Mapped(offset, max(low.half_k, high.half_k), "between", words)
    near = below[-1] if below else above[0]
    side = "above" if below else "below"
    words = (
        f"Not measured: {celsius_words(set_c)} lies {side} {celsius_words(near.set_c)}, the "
        f"{'highest' if below else 'lowest'} that was "
        f"measured at {near.place}; its offset is used and counts as known to no better than "
        f"{step_words(UNCALIBRATED_K)}."
    )
    return Mapped(near.offset_k, max(near.half_k, UNCALIBRATED_K), "beyond", words)


def _elsewhere(points: Sequence[Point], set_c: float, place: str) -> Mapped:
    each = [offset_at(points, set_c, one) for one in places_of(points)]
    offsets = [one.offset_k for one in each]
    half = (max(offsets) - min(offsets)) / 2.0 + max(one.half_k for one in each)
    words = f'"{place}" was not measured; the middle of {len(each)} other places stands for it.'
    return Mapped((max(offsets) + min(offsets)) / 2.0, half, "another place", words)


def whole_oven(points: Sequence[Point], set_c: float) -> Mapped:
    """Return the offset of the oven as one: the middle of its places, with half their spread in the half-width."""
    each = [offset_at(points, set_c, one) for one in places_of(points)]
    offsets = [one.offset_k for one in each]
    half = (max(offsets) - min(offsets)) / 2.0 + max(one.half_k for one in each)
    worst = max(each, key=lambda one: ("measured", "between", "another place", "beyond").index(one.how))
    middle = shift_words((max(offsets) + min(offsets)) / 2.0)
    words = f"At {celsius_words(set_c)}: {middle}, known to {step_words(half)} over all places."
    if worst.how == "beyond":
        words += f" {worst.words}"
    return Mapped((max(offsets) + min(offsets)) / 2.0, half, worst.how, words)


def chief_set_c(points: Sequence[Point]) -> float:
    """Return the set point that most places were measured at, of several the nearest to REFERENCE_C."""
    counts = Counter(one.set_c for one in points)
    return max(counts, key=lambda one: (counts[one], -abs(one - REFERENCE_C), -one))


def map_found(points: Sequence[Point]) -> Found:
    """Return what goes into the heater's figures: the oven as one, at its chief set point."""
    whole = whole_oven(points, chief_set_c(points))
    return Found(whole.offset_k, whole.half_k, source="a map of the oven")


def map_words(points: Sequence[Point]) -> tuple[str, ...]:
    """Return what is to be said of a map: how far its places differ, and where it is warmest and coldest."""
    said: list[str] = []
    for set_c in sorted({one.set_c for one in points}):
        here = sorted((one for one in points if one.set_c == set_c), key=lambda one: one.offset_k)
        if len(here) < 2:
            continue
        cold, hot = here[0], here[-1]
        said.append(
            f"At {celsius_words(set_c)} set, {hot.place} is {step_words(hot.offset_k - cold.offset_k)} warmer than "
            f"{cold.place}."
        )
    if len({one.set_c for one in points}) == 1:
        said.append(
            f"One set point was measured, {celsius_words(points[0].set_c)}: other settings are told nothing of."
        )
    return tuple(said)
