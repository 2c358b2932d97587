"""Where a wrap is parted into panels: few of them, each on the paper, the joins where they show least."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.flat import FlatWrap

Array = NDArray[np.float64]
Fits = Callable[[FlatWrap], bool]

STEP_DEG = 0.5  # between two places looked at: less than a millimetre on anything held in a hand
MOST = 12  # panels
# What a place costs, in CIEDE2000 along the join (common practice, no source: the eye forgives about 3).
IN_ELEMENT = 40.0
FROM_SIDE = 6.0  # 30 degrees or more away from left and right
_SIDE_DEG = (90.0, 270.0)
_EVEN = 1e-3  # of two equal choices the more even one


@dataclass(frozen=True, eq=False)
class JoinsAsked:
    """What is known when the joins are placed.

    Attributes:
        wrap: the whole wrap; its own overlap, or its handle, is the last panel's.
        overlap_mm: of every other join.
        count: panels wanted; 0 for as few as fit.
        joins_deg: angles round the blank where the joins must be; empty to choose them here.
        shows: contrast along the upright at each of n turns evenly spread over the whole turn, CIEDE2000; may be empty.
        busy: (first turn, last turn) of each element that should not be cut.
    """

    wrap: FlatWrap
    overlap_mm: float
    count: int = 0
    joins_deg: tuple[float, ...] = ()
    shows: Array | None = None
    busy: tuple[tuple[float, float], ...] = ()


def panels_of(asked: JoinsAsked, fits: Fits) -> tuple[FlatWrap, ...]:
    """Return the panels from left to right as seen, each a part of the wrap in the wrap's own frame.

    Args:
        asked: the wrap and the wishes.
        fits: tells whether a panel can lie on the paper.

    Raises:
        WrapwrightError: unusable; joins or a number of panels that do not fit, or no number up to 12 that does.
    """
    if asked.joins_deg:
        return _as_asked(asked, fits)
    counts = [asked.count] if asked.count else range(1, MOST + 1)
    turns = np.arange(0.0, 360.0 + STEP_DEG / 2.0, STEP_DEG)
    reach = _reach(asked, fits, turns)
    costs = place_costs(asked, turns)
    for count in counts:
        joins = _best(turns, reach, costs, count)
        if joins is not None:
            return _panels(asked, joins)
    many = f"in {asked.count} panels" if asked.count else f"in {MOST} panels"
    raise unusable(
        f"even {many} the wrap does not fit the paper: a panel is as tall as the wrap, {asked.wrap.height_mm:g} mm, "
        "and its margins and marks need room beside that.",
        remedy="Take a larger paper, a lower band, or more panels.",
        where="wrap: panels",
    )


def place_costs(asked: JoinsAsked, turns: Array) -> Array:
    """Return what a join at each turn costs: contrast, elements cut, and the way to left and right."""
    costs = np.zeros(len(turns))
    if asked.shows is not None and len(asked.shows):
        places = (np.arange(len(asked.shows)) + 0.5) * 360.0 / len(asked.shows)
        costs += np.interp(turns, places, asked.shows, period=360.0)
    for first, last in asked.busy:
        costs += IN_ELEMENT * (((turns - first) % 360.0) < last - first)
    at = (turns + asked.wrap.seam_deg) % 360.0
    away = np.min([np.abs((at - side + 180.0) % 360.0 - 180.0) for side in _SIDE_DEG], axis=0)
    costs += FROM_SIDE * np.minimum(away / 30.0, 1.0)
    return costs


def _panel(asked: JoinsAsked, first: float, last: float) -> FlatWrap:
    overlap = asked.wrap.overlap_mm if last >= 360.0 else asked.overlap_mm
    return replace(asked.wrap, from_turn=first, to_turn=last, overlap_mm=overlap)


def _panels(asked: JoinsAsked, joins: Sequence[float]) -> tuple[FlatWrap, ...]:
    ends = [0.0, *joins, 360.0]
    return tuple(_panel(asked, first, last) for first, last in pairwise(ends))


def _as_asked(asked: JoinsAsked, fits: Fits) -> tuple[FlatWrap, ...]:
    joins = sorted({asked.wrap.turn_of(at) for at in asked.joins_deg} - {0.0})
    panels = _panels(asked, joins)
    if asked.count and asked.count != len(panels):
        raise unusable(
            f"joins at {len(joins)} places beside the seam make {len(panels)} panels, and {asked.count} are asked for.",
            remedy="Leave out one of the two keys.",
            where="wrap: joins",
        )
    for number, panel in enumerate(panels, 1):
        if not fits(panel):
            raise unusable(
                f"panel {number} of {len(panels)} would be {panel.trim_width_mm:.1f} mm wide and does not fit the "
                "paper with its margins and marks.",
                remedy='Put more joins, or leave "joins" out to have them placed.',
                where="wrap: joins",
            )
    return panels


def _reach(asked: JoinsAsked, fits: Fits, turns: Array) -> NDArray[np.int64]:
    """Return for each start the index of the farthest end of a panel that fits; the start itself when none does.

    Whatever fits goes on fitting when it is made narrower, so each start is searched by halves.
    """
    last = len(turns) - 1

    def works(start: int, end: int) -> bool:
        return fits(_panel(asked, float(turns[start]), float(turns[end])))

    # Between the wrap's own ends all panels of one width are alike: only their turn about the apex differs.
    middle = _most(lambda steps: works(1, 1 + steps), last - 2)
    found = np.minimum(np.arange(len(turns)) + middle, last - 1)
    found[0] = _most(lambda end: works(0, end), last - 1)
    found[last - _most(lambda steps: works(last - steps, last), last - 1) : last] = last
    found[0] = last if works(0, last) else found[0]
    found[last] = last
    return found


def _most(works: Callable[[int], bool], high: int) -> int:
    """Return the largest number from 1 to `high` that works, or 0; below one that works all do."""
    low = 0
    while low < high:
        middle = (low + high + 1) // 2
        if works(middle):
            low = middle
        else:
            high = middle - 1
    return low


def _best(turns: Array, reach: NDArray[np.int64], costs: Array, count: int) -> tuple[float, ...] | None:
    """Return the joins of the cheapest way to part the whole turn into so many panels; None when there is none."""
    size, last = len(turns), len(turns) - 1
    even = 360.0 / count
    least = np.full(size, np.inf)
    least[0] = 0.0
    froms: list[NDArray[np.int64]] = []
    for _ in range(count):
        nearer = np.full(size, np.inf)
        came = np.zeros(size, dtype=np.int64)
        for start in np.flatnonzero(np.isfinite(least)):
            ends = np.arange(start + 1, reach[start] + 1)
            uneven = _EVEN * ((turns[ends] - turns[start]) / even - 1.0) ** 2
            sums = least[start] + uneven + np.where(ends == last, 0.0, costs[ends])
            better = sums < nearer[ends]
            nearer[ends[better]], came[ends[better]] = sums[better], start
        least = nearer
        froms.append(came)
    if not np.isfinite(least[last]):
        return None
    joins, at = [], last
    for came in reversed(froms):
        at = int(came[at])
        joins.append(float(turns[at]))
    return tuple(reversed(joins[:-1]))
