"""The dose of a heat by what a logger reads along: the coating's own temperature, or the air that the wall is in."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.press.run.live import INSIDE, Track
from wrapwright.core.press.values import Heater, Load

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from wrapwright.core.press.dose.doubt import Doubts

    Floats = NDArray[np.float64]

SENSOR_K = 3.0  # half-width of a cheap sensor's own doubt, its place included. Common practice, no source
MOST_POINTS = 1200
LATE_S = 30.0  # a log that begins later than this after the door's closing leaves a part to be guessed
SILENT_S = 60.0


@dataclass(frozen=True)
class Row:
    """One reading: seconds from the door's closing (below 0 before it), temperatures in degrees C or None."""

    at_s: float
    air_c: float | None
    coating_c: float | None


def logged_track(heater: Heater, load: Load, rows: Sequence[Row], until_s: float) -> Track | None:
    """Return the track that a log tells, None where it has no reading since the door's closing.

    A sensor under the wrap tells the coating's temperature itself. A sensor in the air drives the wall: its time
    constant from wall, film and covers with their doubt, one temperature for the whole wall. Beyond the last reading,
    up to `until_s`, that reading is taken to hold.
    """
    inside = [one for one in rows if one.at_s >= 0.0]
    under = [(one.at_s, one.coating_c) for one in inside if one.coating_c is not None]
    around = [(one.at_s, one.air_c) for one in inside if one.air_c is not None]
    if len(under) >= 2:
        return _under_the_wrap(heater, load, _held(under, until_s), _held(around, until_s) if around else None)
    if len(around) >= 2:
        return _in_the_air(heater, load, _held(around, until_s))
    return None


def log_words(rows: Sequence[Row], in_s: float) -> tuple[str, ...]:
    """Return what there is to say of a log while its heat runs."""
    from wrapwright.core.base.heat_words import seconds_words

    inside = [one for one in rows if one.at_s >= 0.0]
    if not inside:
        return ("The log has said nothing since the door was closed; the dose is the model's.",)
    said = []
    if rows[0].at_s > LATE_S:
        said.append(
            f"The log begins {seconds_words(rows[0].at_s)} after the door was closed; before that it is guessed."
        )
    silent = in_s - inside[-1].at_s
    if silent > SILENT_S:
        said.append(f"The logger has said nothing for {seconds_words(silent)}: its last reading is taken to hold.")
    return tuple(said)


def _held(points: Sequence[tuple[float, float]], until_s: float) -> tuple[Floats, Floats]:
    """Return times from 0 to `until_s` and readings at them, thinned; the first and the last reading are held."""
    import numpy as np

    every = math.ceil(len(points) / MOST_POINTS)
    kept = [*points[:-1:every], points[-1]]
    times, values = (np.array(row, dtype=np.float64) for row in zip(*kept, strict=True))
    rising = np.concatenate([[True], np.diff(np.maximum.accumulate(times)) > 0.0])
    times, values = times[rising], values[rising]
    if times[0] > 0.0:
        times, values = np.insert(times, 0, 0.0), np.insert(values, 0, values[0])
    ahead = np.arange(math.floor(times[-1]) + 1.0, until_s + 1.0)
    return np.concatenate([times, ahead]), np.concatenate([values, np.full(len(ahead), values[-1])])


def _under_the_wrap(
    heater: Heater, load: Load, under: tuple[Floats, Floats], around: tuple[Floats, Floats] | None
) -> Track:
    import numpy as np

    from wrapwright.core.press.dose.doubt import doubts

    what = doubts(heater, load)
    times, coating = under
    air = coating if around is None else np.interp(times, *around)
    return _track(times, coating[None, :] + _sensor(heater, what)[:, None], air, what)


def _in_the_air(heater: Heater, load: Load, around: tuple[Floats, Floats]) -> Track:
    import numpy as np

    from wrapwright.core.press.dose.doubt import doubts
    from wrapwright.core.press.fit.curves import wall_in_measured
    from wrapwright.core.press.heat.films import conductance
    from wrapwright.core.press.heat.lumped import wall_constant_s

    what = doubts(heater, load)
    times, air = around
    cases = what.cases
    count = len(what.ea_kj)
    film = np.full(count, heater.film.mid) if cases.film is None else cases.film
    thick = np.ones(count) if cases.thickness is None else cases.thickness
    passes = conductance(film, load.covers, 0.0 if cases.cover is None else cases.cover)
    constants = [wall_constant_s(load.wall, float(one)) * float(by) for one, by in zip(passes, thick, strict=True)]
    off = _sensor(heater, what)
    walls = [wall_in_measured(times, air + k, load.room_c, tau) for k, tau in zip(off, constants, strict=True)]
    return _track(times, np.array(walls), air, what)


def _sensor(heater: Heater, what: Doubts) -> Floats:
    """Return by how much the sensor may be off in each case, (k,), in place of the heater's own doubt."""
    import numpy as np

    offset = what.cases.offset_k
    if offset is None or heater.offset_half_k <= 0.0:
        return np.zeros(len(what.ea_kj))
    place: Floats = (offset - heater.offset_k) / heater.offset_half_k
    return place * SENSOR_K


def _track(times: Floats, coating: Floats, air: Floats, what: Doubts) -> Track:
    import numpy as np

    from wrapwright.core.press.dose.dose import cumulative_minutes

    minutes = cumulative_minutes(times, coating, what.ea_kj)
    low, high = np.quantile(minutes[what.apart :], ((1 - INSIDE) / 2, (1 + INSIDE) / 2), axis=0)
    return Track(times, low, minutes[0], high, coating[0], air)
