"""Which part of a log is a heat-up, and whether it is one at all: refusals with their reason."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_words, step_words
from wrapwright.core.press.fit.values import Asked, Series

Floats = NDArray[np.float64]

FEWEST = 20  # rows
MOST = 4000  # rows that are fitted; more are averaged in groups
LEAST_RISE_K = 20.0
COLDEST_C, HOTTEST_C = -40.0, 400.0
STUCK_ROWS = 30
WILD_K = 10.0  # off the readings round it
HOTTER_K = 3.0


@dataclass(frozen=True)
class Window:
    """The rows of a log that are a heat-up; times from its first row.

    Attributes:
        times_s: of each row.
        air_c, wall_c: None where the log has no such column.
        from_s: where it begins in the log's own time.
        words: what was left out or bridged.
    """

    times_s: Floats
    air_c: Floats | None
    wall_c: Floats | None
    from_s: float
    words: tuple[str, ...]


def heat_up(series: Series, asked: Asked) -> Window:
    """Return the part of a log that is a heat-up.

    Raises:
        WrapwrightError: unusable, with the reason: too few rows, temperatures that cannot be, a stuck sensor, no
            heat-up, a wall hotter than the air round it.
    """
    times = np.asarray(series.times_s, dtype=np.float64)
    columns = {
        name: np.asarray(values, dtype=np.float64)
        for name, values in (("air", series.air_c), ("wall", series.wall_c))
        if len(values)
    }
    if not columns:
        raise unusable("The log has no column of temperatures.", remedy="Say which column is the air or the wall.")
    words: list[str] = []
    _refuse_impossible(columns)
    _refuse_stuck(times, columns)
    columns, wild = _tamed(columns)
    if wild:
        words.append(f"Left out: {wild} reading{'s' if wild > 1 else ''} far off all others round it.")
    kept = np.ones(len(times), dtype=bool)
    for values in columns.values():
        kept &= np.isfinite(values)
    kept &= _between(times, asked)
    if int(kept.sum()) < FEWEST:
        message = f"The log has {int(kept.sum())} rows that can be used; a fit needs at least {FEWEST}."
        raise unusable(message, remedy="Log the whole heat-up, a reading every second to every ten.")
    missing = len(times) - int(kept.sum()) - wild
    if missing > 0 and asked.from_s is None and asked.to_s is None:
        words.append(f"{missing} of {len(times)} rows lack a reading and were left out.")
    times, columns = times[kept], {name: values[kept] for name, values in columns.items()}
    first, last = _part(times, columns, asked)
    if asked.from_s is None and times[first] > times[0]:
        words.append(f"The first {times[first] - times[0]:.0f} s come before the heat-up and were left out.")
    if last < len(times) - 1:
        words.append(f"The last {times[-1] - times[last]:.0f} s come after it was taken out and were left out.")
    times, columns = times[first : last + 1], {name: values[first : last + 1] for name, values in columns.items()}
    if len(times) < FEWEST:
        message = f"The heat-up in this log has {len(times)} rows; a fit needs at least {FEWEST}."
        raise unusable(message, remedy="Log it a reading every second to every ten.")
    _refuse_hotter(columns)
    words += _gaps(times)
    since, times = float(times[0]), times - times[0]
    times, columns = _averaged(times, columns)
    return Window(times, columns.get("air"), columns.get("wall"), since, tuple(words))


def _tamed(columns: dict[str, Floats]) -> tuple[dict[str, Floats], int]:
    """Return the columns without readings that stand far off the median of the five round them, and how many."""
    made, wild = {}, 0
    for name, values in columns.items():
        known = np.flatnonzero(np.isfinite(values))
        off = np.abs(values[known] - _smooth(values[known]))
        far = known[off > max(12.0 * float(np.median(off)), WILD_K)]
        made[name] = values.copy()
        made[name][far] = np.nan
        wild += len(far)
    return made, wild


def _between(times: Floats, asked: Asked) -> NDArray[np.bool_]:
    low = -np.inf if asked.from_s is None else asked.from_s
    high = np.inf if asked.to_s is None else asked.to_s
    if low >= high:
        message = f"The part of the log to look at ends at {high:g} s, before it begins at {low:g} s."
        raise unusable(message, remedy="Give the begin before the end.")
    return np.asarray((times >= low) & (times <= high))


def _refuse_impossible(columns: dict[str, Floats]) -> None:
    for name, values in columns.items():
        known = values[np.isfinite(values)]
        for worst in (float(known.max(initial=0.0)), float(known.min(initial=0.0))):
            if not COLDEST_C <= worst <= HOTTEST_C:
                limits = f"{celsius_words(COLDEST_C)} and {celsius_words(HOTTEST_C)}"
                message = f"The {name} reads {celsius_words(worst)}; logs of heating blanks lie between {limits}."
                remedy = "See whether the sensor is broken (an open one reads its highest value), or the unit is F."
                raise unusable(message, remedy=remedy)


def _refuse_stuck(times: Floats, columns: dict[str, Floats]) -> None:
    """Raise where a sensor stands still though what it measures moves."""
    for name, values in columns.items():
        known = np.flatnonzero(np.isfinite(values))
        if len(known) < STUCK_ROWS:
            continue
        shown = values[known]
        if float(np.ptp(shown)) == 0.0:
            stands = f"{celsius_words(shown[0])} in all {len(shown)} rows"
            message = f"The {name} reads {stands}: that sensor is stuck or not connected."
            raise unusable(message, remedy="Look at its plug and its column, then log again.")
        begin, length = _longest_run(shown)
        if length < STUCK_ROWS:
            continue
        part = slice(known[begin], known[begin + length - 1] + 1)
        jumps = begin + length < len(shown) and abs(float(shown[begin + length] - shown[begin])) > 8.0
        others = [other for key, other in columns.items() if key != name]
        moved = any(_range(other[part]) > LEAST_RISE_K for other in others)
        # Before it goes in a blank stands at room temperature, and at its level it stands too: neither is stuck.
        rests = begin == 0 or (shown[begin] > shown.max() - LEAST_RISE_K / 2.0 and not moved)
        if not rests and (jumps or moved):
            message = (
                f"The {name} stands at {celsius_words(shown[begin])} for {length} rows "
                f"({times[known[begin]]:.0f} to {times[known[begin + length - 1]]:.0f} s) and moves again or while the "
                "other sensor moves: it is stuck."
            )
            raise unusable(message, remedy="Look at its plug, then log again, or give the part to look at.")


def _range(values: Floats) -> float:
    known = values[np.isfinite(values)]
    return float(np.ptp(known)) if len(known) else 0.0


def _longest_run(values: Floats) -> tuple[int, int]:
    edges = np.flatnonzero(np.diff(values) != 0.0)
    starts = np.concatenate([[0], edges + 1])
    lengths = np.diff(np.concatenate([starts, [len(values)]]))
    at = int(np.argmax(lengths))
    return int(starts[at]), int(lengths[at])


def _part(times: Floats, columns: dict[str, Floats], asked: Asked) -> tuple[int, int]:
    """Return the first and last row of the heat-up: from where the wall (else the air) has begun to rise."""
    name = "wall" if "wall" in columns else "air"
    values = columns[name]
    smooth = _smooth(values)
    low = float(np.min(smooth[: max(1, int(np.argmax(smooth)) + 1)]))
    top = int(np.argmax(smooth))
    rise = float(smooth[top]) - low
    if rise < LEAST_RISE_K:
        message = (
            f"There is no heat-up in this log: the {name} rises by {step_words(max(rise, 0.0))}; at least "
            f"{step_words(LEAST_RISE_K)} are needed."
        )
        remedy = "Log from before the blank goes in until its temperature is level."
        if any(float(np.ptp(other)) >= LEAST_RISE_K for key, other in columns.items() if key != name):
            remedy = "The air changes more than that: are the two columns the other way round?"
        raise unusable(message, remedy=remedy)
    begun = np.flatnonzero(smooth[: top + 1] <= low + 0.03 * rise)
    first = 0 if asked.from_s is not None else int(begun[-1]) if len(begun) else 0
    # Rows from the start of a rise that the log opens with are all of use.
    if float(times[first] - times[0]) <= 0.03 * float(times[top] - times[0]):
        first = 0 if float(smooth[first] - smooth[0]) >= 0.015 * rise or first < 3 else first
    return first, _end(smooth, low, rise) if asked.to_s is None else len(times) - 1


def _end(smooth: Floats, low: float, rise: float) -> int:
    """Return the last row before the temperature falls for good by a tenth of its rise."""
    last = len(smooth) - 1
    high = np.flatnonzero(smooth >= low + 0.9 * rise)
    if smooth[last] > low + 0.85 * rise or not len(high):
        return last
    # The fall begins where the readings last stood within 2 % of the level of the last fifth that was hot.
    hot = smooth[: high[-1] + 1]
    level = float(np.median(hot[-max(3, len(hot) // 10) :]))
    near = np.flatnonzero(hot >= level - 0.01 * rise)
    return int(near[-1]) if len(near) else int(high[-1])


def _smooth(values: Floats) -> Floats:
    """Return the running median of five: one wild reading does no harm."""
    if len(values) < 5:
        return values
    padded = np.pad(values, 2, mode="edge")
    made: Floats = np.median(np.lib.stride_tricks.sliding_window_view(padded, 5), axis=1)
    return made


def _refuse_hotter(columns: dict[str, Floats]) -> None:
    if len(columns) < 2:
        return
    # Once it is hot an oven that cycles is cooler than the wall every now and then; on the way up it cannot be.
    wall = columns["wall"]
    rising = np.arange(len(wall)) < int(np.argmax(wall >= wall.min() + 0.9 * np.ptp(wall)))
    over = (wall - columns["air"])[rising]
    share = float(np.mean(over > HOTTER_K)) if len(over) else 0.0
    if share > 0.2:
        message = (
            f"On its way up the wall is hotter than the air in {share * 100:.0f} % of the rows, by up to "
            f"{step_words(round(float(over.max())))}, and that cannot be."
        )
        raise unusable(message, remedy="The two columns are likely the other way round: say which is which.")


def _gaps(times: Floats) -> list[str]:
    steps = np.diff(times)
    usual = float(np.median(steps))
    wide = steps[steps > max(5.0 * usual, 10.0)]
    if not len(wide):
        return []
    return [
        f"{len(wide)} gap{'s' if len(wide) > 1 else ''} of up to {float(wide.max()):.0f} s; nothing is made up there."
    ]


def _averaged(times: Floats, columns: dict[str, Floats]) -> tuple[Floats, dict[str, Floats]]:
    """Return rows averaged in groups, so that at most MOST are left."""
    group = -(-len(times) // MOST)
    if group == 1:
        return times, columns
    whole = len(times) // group * group
    return (
        times[:whole].reshape(-1, group).mean(axis=1),
        {name: values[:whole].reshape(-1, group).mean(axis=1) for name, values in columns.items()},
    )
