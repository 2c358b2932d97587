"""One load's middle case over time: temperatures, the dose so far, and when a dose is reached."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wrapwright.core.press.load.values import BEYOND_S, LONGEST_S, NEAR_K
from wrapwright.core.press.values import Curve, Heater, Load

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

FIRST_S = 600.0  # how far is looked at first; thrice as far when that is not enough


@dataclass(frozen=True, eq=False)
class Course:
    """Temperatures in degrees C and equivalent minutes so far, all of shape (m,), at times_s (m,)."""

    times_s: Array
    air_c: Array
    wall_c: Array
    coating_c: Array
    dose: Array

    def dose_at(self, seconds: float) -> float:
        """Return the equivalent minutes after a dwell."""
        import numpy as np

        return float(np.interp(seconds, self.times_s, self.dose))

    def reaches(self, dose: float) -> float:
        """Return when a dose is reached, seconds; BEYOND_S when not within the course."""
        import numpy as np

        if self.dose[-1] < dose:
            return BEYOND_S
        return float(np.interp(dose, self.dose, self.times_s))

    def coating_until(self, seconds: float) -> Curve:
        """Return the coating's curve up to a moment, which is its last."""
        import numpy as np

        before = self.times_s < seconds - 1e-9
        end = float(np.interp(seconds, self.times_s, self.coating_c))
        return Curve((*self.times_s[before].tolist(), seconds), (*self.coating_c[before].tolist(), end))


def course_of(heater: Heater, load: Load, until_s: float) -> Course:
    """Return the course of the middle case: film, offset, wall and covers at their mid, the default energy."""
    from wrapwright.core.press.dose.dose import cumulative_minutes
    from wrapwright.core.press.heat.warming import warm_up

    until = max(5.0, math.ceil(until_s))
    step = 1.0 if until <= FIRST_S * 3 else 2.0
    warmed = warm_up(heater, load, until_s=until, step_s=step)
    dose = cumulative_minutes(warmed.times_s, warmed.coating_c)
    return Course(warmed.times_s, warmed.air_c[0], warmed.wall_c[0], warmed.coating_c[0], dose[0])


def course_to(heater: Heater, load: Load, dose: float, *, guess_s: float = FIRST_S) -> Course:
    """Return the course, long enough to reach a dose; up to LONGEST_S when it does not."""
    until = min(LONGEST_S, max(60.0, guess_s))
    while True:
        course = course_of(heater, load, until)
        if course.dose[-1] >= dose or until >= LONGEST_S:
            return course
        until = min(LONGEST_S, 3.0 * until)


def to_temperature_s(course: Course, heater: Heater, load: Load) -> float:
    """Return when the coating is first within NEAR_K of what the heater really holds; BEYOND_S when never."""
    held = load.set_c + heater.offset_k
    there = course.coating_c >= held - NEAR_K
    return float(course.times_s[int(there.argmax())]) if bool(there.any()) else BEYOND_S
