"""How long 1, 2, 3 ... pieces want: the dwell that gives the aim's dose, with its band."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.press.load.course import FIRST_S
from wrapwright.core.press.load.values import BEYOND_S, LONGEST_S, NEAR_K, Aim, Recommended, Span
from wrapwright.core.press.values import Dose, Heater, Load

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from wrapwright.core.press.heat.warming import Cases

    Array = NDArray[np.float64]
    Kept = tuple[Cases, Array]

_MOMENTS = 900  # at most that are looked at; the steps between are finer
_EVERY = 24  # so many loads are each reckoned; beyond, steps of a quarter, and straight lines between
_ENDS = (0.05, 0.95)  # nine of ten cases lie between


@dataclass(frozen=True, eq=False)
class _Reckoned:
    """All cases of n loads: times_s (m,), coating_c and minutes (n, k, m); of the k the first is the middle one."""

    times_s: Array
    coating_c: Array
    minutes: Array


def recommend(heater: Heater, load: Load, aim: Aim, capacity: int) -> tuple[Recommended, ...]:
    """Return how long 1 to `capacity` pieces want, never less for more pieces.

    The middle is the middle case's time to the aim's middle. The band holds nine of ten cases of what is not known of
    heater, film, wall, covers and activation energy. Where the aim is a curve of a recipe, that curve is counted with
    each case's own activation energy, so that its doubt is not counted twice.

    Beyond 24 pieces some loads are reckoned, each a quarter larger than the one before; between two of them times and
    doses run straight.

    Args:
        heater: the heater.
        load: what one of the loads is like; its number of pieces is not looked at.
        aim: the dose that is wanted.
        capacity: the most pieces, at least 1.

    Raises:
        WrapwrightError: unusable: figures that no heater, wall or load can have.
    """
    import numpy as np

    kept, counts = _kept(heater, load), _counts(capacity)
    wanted = _wanted(aim, kept[1])
    until = FIRST_S if aim.made_by is None else min(LONGEST_S, max(60.0, 1.8 * aim.made_by.times_s[-1]))
    while True:
        reckoned = _reckoned(heater, load, kept, counts, until)
        dwells = _dwells(reckoned, wanted)
        if until >= LONGEST_S or bool(np.all(np.isfinite(_high(dwells)))):
            break
        until = min(LONGEST_S, 2.5 * until)
    held_c = load.set_c + heater.offset_k
    rows = _rising(
        [
            _recommended(
                count, reckoned.minutes[at], reckoned.coating_c[at, 0], reckoned.times_s, dwells[at], aim, held_c
            )
            for at, count in enumerate(counts)
        ]
    )
    return tuple(_between(rows, counts, count) for count in range(1, capacity + 1))


def _counts(capacity: int) -> list[int]:
    """Return the numbers of pieces that are reckoned, growing, the capacity among them."""
    counts = list(range(1, min(capacity, _EVERY) + 1))
    while counts[-1] < capacity:
        counts.append(min(capacity, math.ceil(counts[-1] * 1.25)))
    return counts


def _kept(heater: Heater, load: Load) -> Kept:
    """Return the middle case and the mixed ones, with the activation energy of each; not the sources on their own."""
    import numpy as np

    from wrapwright.core.press.dose.doubt import doubts
    from wrapwright.core.press.heat.warming import Cases

    what = doubts(heater, load)
    at = np.concatenate([[0], np.arange(what.apart, len(what.ea_kj))])
    given = what.cases
    found = (None if one is None else one[at] for one in (given.film, given.offset_k, given.thickness, given.cover))
    return Cases(*found), what.ea_kj[at]


def _wanted(aim: Aim, ea_kj: Array) -> Array:
    """Return the dose that is wanted in each case, (k,)."""
    import numpy as np

    from wrapwright.core.press.dose.dose import equivalent_minutes

    if aim.made_by is None:
        return np.full(len(ea_kj), aim.mid)
    curve = np.tile(np.asarray(aim.made_by.mid_c), (len(ea_kj), 1))
    return equivalent_minutes(aim.made_by.times_s, curve, ea_kj)


def _reckoned(heater: Heater, load: Load, kept: Kept, counts: list[int], until_s: float) -> _Reckoned:
    """Return every case of every load up to a moment."""
    import numpy as np

    from wrapwright.core.press.dose.dose import cumulative_minutes
    from wrapwright.core.press.heat.warming import Cases, warm_up

    given, ea_kj = kept

    def tiled(one: Array | None) -> Array | None:
        return None if one is None else np.tile(one, len(counts))

    pieces = np.repeat(np.array(counts, dtype=np.float64), len(ea_kj))
    cases = Cases(tiled(given.film), tiled(given.offset_k), tiled(given.thickness), tiled(given.cover), None, pieces)
    warmed = warm_up(heater, load, until_s=until_s, step_s=max(1.0, until_s / _MOMENTS), cases=cases)
    minutes = cumulative_minutes(warmed.times_s, warmed.coating_c, np.tile(ea_kj, len(counts)))
    shape = (len(counts), len(ea_kj), len(warmed.times_s))
    return _Reckoned(warmed.times_s, warmed.coating_c.reshape(shape), minutes.reshape(shape))


def _dwells(reckoned: _Reckoned, wanted: Array) -> Array:
    """Return when each case has its dose, (n, k); infinite where it has not."""
    import numpy as np

    count, cases, _ = reckoned.minutes.shape
    found = np.empty((count, cases))
    for at in np.ndindex(count, cases):
        found[at] = np.interp(wanted[at[1]], reckoned.minutes[at], reckoned.times_s, right=math.inf)
    return found


def _high(dwells: Array) -> Array:
    """Return the upper end of each load's band, (n,)."""
    import numpy as np

    return np.sort(dwells[:, 1:], axis=1)[:, _place(dwells.shape[1] - 1, _ENDS[1])]


def _place(count: int, share: float) -> int:
    return round(share * (count - 1))


def _recommended(
    pieces: int, minutes: Array, coating_c: Array, times: Array, dwells: Array, aim: Aim, held_c: float
) -> Recommended:
    import numpy as np

    middle, mixed = float(dwells[0]), np.sort(dwells[1:])
    low, high = (float(mixed[_place(len(mixed), share)]) for share in _ENDS)
    ends = tuple(float(np.interp(dose, minutes[0], times, right=math.inf)) for dose in (aim.low, aim.high))
    there = coating_c >= held_c - NEAR_K
    warm = float(times[int(there.argmax())]) if bool(there.any()) else BEYOND_S
    dose = Dose(0.0, 0.0, 0.0)
    if math.isfinite(middle):
        at = np.array([np.interp(middle, times, one) for one in minutes])
        ends_at = np.quantile(at[1:], _ENDS)
        dose = Dose(min(float(ends_at[0]), float(at[0])), float(at[0]), max(float(ends_at[1]), float(at[0])))
    return Recommended(pieces, Span(min(low, middle), middle, max(high, middle)), (ends[0], ends[1]), warm, dose)


def _between(rows: tuple[Recommended, ...], counts: list[int], pieces: int) -> Recommended:
    """Return the row of so many pieces: as reckoned, else on the straight line between the two reckoned round it."""
    right = bisect_left(counts, pieces)
    if counts[right] == pieces:
        return rows[right]
    less, more = rows[right - 1], rows[right]
    share = (pieces - less.pieces) / (more.pieces - less.pieces)

    def on(one: float, other: float) -> float:
        return one + share * (other - one) if math.isfinite(other) else other

    span, dose = more.dwell_s, more.dose
    return Recommended(
        pieces,
        Span(on(less.dwell_s.low, span.low), on(less.dwell_s.mid, span.mid), on(less.dwell_s.high, span.high)),
        (on(less.range_s[0], more.range_s[0]), on(less.range_s[1], more.range_s[1])),
        on(less.to_temperature_s, more.to_temperature_s),
        Dose(on(less.dose.low, dose.low), on(less.dose.mid, dose.mid), on(less.dose.high, dose.high))
        if math.isfinite(span.mid)
        else dose,
    )


def _rising(rows: list[Recommended]) -> tuple[Recommended, ...]:
    """Return the rows with no time less than a row's before: the thermostat's beat may not make more pieces quicker."""
    found: list[Recommended] = []
    for row in rows:
        if found:
            last = found[-1]
            span = Span(
                max(row.dwell_s.low, last.dwell_s.low),
                max(row.dwell_s.mid, last.dwell_s.mid),
                max(row.dwell_s.high, last.dwell_s.high),
            )
            ends = (max(row.range_s[0], last.range_s[0]), max(row.range_s[1], last.range_s[1]))
            warm = max(row.to_temperature_s, last.to_temperature_s)
            row = Recommended(row.pieces, span, ends, warm, row.dose)
        found.append(row)
    return tuple(found)
