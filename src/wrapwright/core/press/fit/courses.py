"""What the air of an oven and the wall of a blank may have done: each course a model with what its parameters mean."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.fit.curves import (
    approach,
    held,
    wall_in_approach,
    wall_in_held,
    wall_in_measured,
    weighed_back,
)
from wrapwright.core.press.fit.least import Least, fitted, slopes
from wrapwright.core.press.fit.values import Form

Floats = NDArray[np.float64]
Air = Callable[[Floats, Floats], Floats]
Pace = Callable[[Floats, Floats], Floats]  # (air, wall in degrees C) -> quicker than usual by

ROOM_HALF_K = 5.0  # of a room that nobody measured; common practice, no source
BETTER = 10.0  # of Schwarz's criterion: what one more parameter must gain before it is believed
WHITE = 2.0  # residuals that hang together more than this many in a row are not those of the model alone


@dataclass(frozen=True)
class Far:
    """Where full power would lead an oven's air.

    Attributes:
        rise_k: so far above the room.
        room_c: round the oven, known to ROOM_HALF_K; None: the oven begins as cold as the room.
    """

    rise_k: float
    room_c: float | None = None

    def level(self, start_c: float) -> float:
        """Return where it leads air that begins at `start_c`, degrees C."""
        return self.rise_k + (start_c if self.room_c is None else self.room_c)

    def doubt(self, start_c: float, level_c: float) -> float:
        """Return what the room's doubt adds to the logarithm of the constant of air held at `level_c`, either way.

        The air is seen to take t = tau ln((far - start) / (far - level)) to its level; its derivative by far.
        """
        from_start, from_level = self.level(start_c) - start_c, self.level(start_c) - level_c
        if self.room_c is None or not from_start > from_level > 0.0:
            return 0.0
        return ROOM_HALF_K * float((1.0 / from_level - 1.0 / from_start) / np.log(from_start / from_level))


@dataclass(frozen=True)
class Course:
    """A fit with the meaning of its parameters.

    Attributes:
        form: how the air was taken.
        least: the fit.
        at: what each parameter is: level, air-start, ln-air-tau, wall-start, ln-wall-tau, difference.
        fits: fitted air and wall; None where there is no such column.
        model: the model, for a closer look at one parameter; None where that takes too long.
        columns: what was fitted.
    """

    form: Form
    least: Least
    at: tuple[str, ...]
    fits: tuple[Floats | None, Floats | None]
    model: Callable[[Floats], list[Floats]] | None
    columns: tuple[Floats, ...]

    def value(self, name: str) -> float | None:
        """Return a parameter by its name, or None."""
        return float(self.least.at[self.at.index(name)]) if name in self.at else None

    def half(self, name: str) -> float:
        """Return a parameter's standard deviation."""
        which = self.at.index(name)
        return float(np.sqrt(max(float(self.least.spread[which, which]), 0.0)))


def air_courses(times: Floats, air: Floats, far: Far | None) -> list[Course]:
    """Return the courses that the air may have taken, the best first; `far`: where full power would lead."""
    found = [_steady(times, air)]
    guess = (float(np.mean(air[-max(3, len(air) // 10) :])), float(air[0]), np.log(_constant(times, air)))
    found.append(_air("approach", times, air, guess, lambda at, t: approach(t, at[0], at[1], np.exp(at[2]))))
    far_c = -np.inf if far is None else far.level(guess[1])
    if far is not None and far_c > float(air.max()):
        bent = int(np.argmax(air >= guess[0] - 0.05 * (guess[0] - guess[1])))
        span = max(float(times[bent]), 1.0)
        share = np.log((far_c - guess[1]) / max(far_c - float(air[bent]), 1.0))
        at_power = (guess[0], guess[1], float(np.log(span / max(share, 1e-3))))
        found.append(
            _air(
                "full-power",
                times,
                air,
                at_power,
                lambda at, t: held(t, (far.level(at[1]), at[1], np.exp(at[2])), at[0]),
            )
        )
    return sorted(found, key=lambda one: one.least.rule())


def _steady(times: Floats, air: Floats) -> Course:
    def model(at: Floats) -> list[Floats]:
        return [np.full(len(times), at[0])]

    least = fitted(model, [air], [float(air.mean())])
    return Course("steady-air", least, ("level",), (model(least.at)[0], None), model, (air,))


def _air(form: Form, times: Floats, air: Floats, guess: tuple[float, float, float], curve: Air) -> Course:
    def model(at: Floats) -> list[Floats]:
        return [curve(_within(at, 2), times)]

    least = fitted(model, [air], guess)
    return Course(form, least, ("level", "air-start", "ln-air-tau"), (model(least.at)[0], None), model, (air,))


def together(times: Floats, air: Floats, wall: Floats, course: Course, far: Far | None) -> Course:
    """Return air and wall fitted as one, the air on the course that was found for it."""
    form, kept = course.form, len(course.at)

    def model(at: Floats) -> list[Floats]:
        at = _within(_within(at, 2), kept + 1) if kept > 1 else _within(at, kept + 1)
        start, tau = float(at[kept]), float(np.exp(at[kept + 1]))
        off = float(at[kept + 2]) if len(at) > kept + 2 else 0.0
        if form == "steady-air":
            return [np.full(len(times), at[0]), approach(times, at[0], start, tau) + off]
        own = (float(at[0]), float(at[1]), float(np.exp(at[2])))
        if form == "full-power" and far is not None:
            rise = (far.level(own[1]), own[1], own[2])
            return [held(times, rise, own[0]), wall_in_held(times, rise, own[0], start, tau) + off]
        return [approach(times, *own), wall_in_approach(times, own, start, tau) + off]

    names = (*course.at, "wall-start", "ln-wall-tau")
    guess = [*course.least.at, float(wall[0]), float(np.log(_constant(times, wall)))]
    plain = fitted(model, [air, wall], guess)
    least, names = _with_difference(model, [air, wall], plain, names)
    fits = model(least.at)
    return Course(form, least, names, (fits[0], fits[1]), model, (air, wall))


def in_measured_air(times: Floats, air: Floats, wall: Floats, pace: Pace | None = None) -> Course:
    """Return the wall fitted in the air as it was measured; the air's own noise counts in what comes out.

    With a `pace` (how much quicker heat passes at some temperatures than on average of a heat-up, for radiation) it is
    fitted a second time on a clock that runs at that pace, and the better of the two is returned.
    """
    plain = _in_air(times, air, wall)
    if pace is None or plain.fits[1] is None:
        return plain
    quick = pace(air, plain.fits[1])
    clock = np.concatenate([[0.0], np.cumsum((quick[1:] + quick[:-1]) / 2.0 * np.diff(times))])
    paced = _in_air(clock, air, wall)
    return paced if paced.least.rule() < plain.least.rule() else plain


def _in_air(times: Floats, air: Floats, wall: Floats) -> Course:
    def model(at: Floats) -> list[Floats]:
        tau = float(np.exp(np.clip(at[1], 0.0, 11.0)))
        off = float(at[2]) if len(at) > 2 else 0.0
        return [wall_in_measured(times, air, float(at[0]), tau) + off]

    names: tuple[str, ...] = ("wall-start", "ln-wall-tau")
    plain = fitted(model, [wall], [float(wall[0]), float(np.log(_constant(times, wall) / 2.0))])
    least, names = _with_difference(model, [wall], plain, names)
    spread = least.spread + _from_air(model, least, times, air)
    return Course("measured-air", replace(least, spread=spread), names, (None, model(least.at)[0]), None, (wall,))


def wall_alone(times: Floats, wall: Floats) -> list[Course]:
    """Return the wall fitted in steady air, and in air that nears its level too; the best first."""

    def one(at: Floats) -> list[Floats]:
        at = _within(at, 2)
        return [approach(times, at[0], at[1], np.exp(at[2]))]

    def two(at: Floats) -> list[Floats]:
        at = _within(_within(at, 3), 4)
        return [wall_in_approach(times, (at[0], at[1], np.exp(at[3])), at[2], np.exp(at[4]))]

    level, start, tau = float(np.mean(wall[-max(3, len(wall) // 20) :])), float(wall[0]), _constant(times, wall)
    single = fitted(one, [wall], [level, start, np.log(tau)])
    found = [
        Course("steady-air", single, ("level", "wall-start", "ln-wall-tau"), (None, one(single.at)[0]), one, (wall,))
    ]
    double = fitted(two, [wall], [level, start, start, np.log(tau / 3.0), np.log(tau * 0.8)])
    names = ("level", "air-start", "wall-start", "ln-air-tau", "ln-wall-tau")
    # Of an oven that cycles the residuals hang together, and rows that do are not evidence each.
    if (single.rule() - double.rule()) / double.together[0] > BETTER:
        found.insert(0, Course("two-constants", double, names, (None, two(double.at)[0]), None, (wall,)))
    return found


def _with_difference(
    model: Callable[[Floats], list[Floats]], columns: list[Floats], plain: Least, names: tuple[str, ...]
) -> tuple[Least, tuple[str, ...]]:
    """Return the fit in which the two sensors may differ by a constant, where the log asks for it."""
    wider = fitted(model, columns, [*plain.at, 0.0])
    if wider.rule() < plain.rule() - BETTER:
        return wider, (*names, "difference")
    return plain, names


def _from_air(model: Callable[[Floats], list[Floats]], least: Least, times: Floats, air: Floats) -> Floats:
    """Return what the noise of the air's own sensor adds to the covariance: it drives the wall, so it counts."""
    second = air[2:] - 2.0 * air[1:-1] + air[:-2]
    noise = float(np.mean(second**2)) / 6.0  # of white noise the second differences have six times the variance
    lean = slopes(model, least.at)[0]
    pull = np.linalg.pinv(lean.T @ lean, hermitian=True) @ lean.T
    tau = float(np.exp(least.at[1]))
    moved = np.stack([weighed_back(times, row, tau) for row in pull])
    made: Floats = noise * moved @ moved.T
    return made


def _within(at: Floats, which: int) -> Floats:
    """Return parameters with a logarithm of a time constant held between 1 s and a day."""
    if 0.0 <= at[which] <= 11.4:
        return at
    kept = at.copy()
    kept[which] = min(max(float(at[which]), 0.0), 11.4)
    return kept


def _constant(times: Floats, values: Floats) -> float:
    """Return when 63 % of the way is gone, in s: a first guess."""
    first, last = float(values[0]), float(np.mean(values[-max(3, len(values) // 10) :]))
    if last == first:
        return max(float(times[-1]) / 3.0, 2.0)
    gone = np.flatnonzero((values - first) / (last - first) >= 0.632)
    return max(float(times[gone[0]]) if len(gone) else float(times[-1]) / 2.0, 2.0)
