"""What a log tells of a wall and its oven: the order of work from rows to figures with their intervals."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_words, step_words
from wrapwright.core.press.fit.courses import (
    WHITE,
    Course,
    Far,
    Pace,
    air_courses,
    in_measured_air,
    together,
    wall_alone,
)
from wrapwright.core.press.fit.film import film_of, film_with_wall
from wrapwright.core.press.fit.least import quantile
from wrapwright.core.press.fit.profile import profile_interval
from wrapwright.core.press.fit.values import (
    SENSOR_HALF_K,
    Asked,
    Drawn,
    Estimate,
    Fitted,
    Found,
    Name,
    Series,
    Untold,
)
from wrapwright.core.press.fit.window import LEAST_RISE_K, Window, heat_up
from wrapwright.core.press.fit.words import words_of
from wrapwright.core.press.heat.films import Face, cover_resistance, passing
from wrapwright.core.press.values import UNCALIBRATED_K

Floats = NDArray[np.float64]

WIDEST = math.log(2.0)  # of a time constant's interval, high over low: wider is not told
LOOK_CLOSER = 0.05  # half-width of a logarithm from which the profile is walked
WARM_C = 35.0  # an oven that begins below is as cold as the room
NEAR_K = 5.0  # of the level: from there on the air has reached it
FARTHEST_K = 60.0  # no oven is off by more
LEAST_FILM, MOST_FILM = 5.0, 150.0  # W/m2K: beyond any oven, still air to a strong fan; common practice, no source
ROUGH = 0.15  # of the air's rise: residuals beyond this share, and the course is not the air's


@dataclass
class _Told:
    estimates: list[Estimate] = field(default_factory=list)
    untold: list[Untold] = field(default_factory=list)

    def cannot(self, name: Name, why: str) -> None:
        self.untold.append(Untold(name, why))


def fit_log(series: Series, asked: Asked) -> Fitted:
    """Return what a log tells: time constants, film coefficient, offset, each with its 95 % interval.

    What it cannot tell is named with the reason and not fitted. Everything else (the wall's properties, the heater's
    power and loss) is held as given.

    Raises:
        WrapwrightError: unusable, when there is no heat-up that could be fitted, and why.
    """
    window = heat_up(series, asked)
    far = _far(asked, series, window)
    wall, oven = _courses(window, asked, far)
    told = _Told()
    if window.wall_c is not None:
        _refuse_shapeless(wall, window.wall_c)
        _wall_constant(wall, window, told)
        _film(asked, told)
    if oven is not None or window.wall_c is not None:
        _oven_constant(oven, window, told, far)
        _level(oven or wall, window, asked, told)
    if not told.estimates:
        raise unusable(
            f"This log of {window.times_s[-1]:.0f} s tells nothing: {told.untold[0].why}",
            remedy="Log from before the blank goes in until its temperature is level.",
        )
    return _fitted(window, (wall, oven), told, asked)


def _refuse_shapeless(course: Course, wall: Floats) -> None:
    """Raise where the wall follows no heat-up at all."""
    off = float(course.least.noise[-1])
    rise = float(np.ptp(wall))
    if off > ROUGH * rise:
        message = (
            f"The wall goes up and down by {step_words(round(off))} about any heat-up of its "
            f"{step_words(round(rise))}; nothing can be fitted."
        )
        raise unusable(message, remedy="Look at the sensor's contact with the wall, and at the columns.")


def _courses(window: Window, asked: Asked, far: Far | None) -> tuple[Course, Course | None]:
    """Return the course the wall's figures come from, and the one the oven's come from (None: no air was logged)."""
    times, air, wall = window.times_s, window.air_c, window.wall_c
    if air is None:
        if wall is None:
            raise unusable("The log has no column of temperatures.")
        return wall_alone(times, wall)[0], None
    best = air_courses(times, air, far)[0]
    if wall is None:
        return best, best
    if best.least.together[0] <= WHITE:
        joint = together(times, air, wall, best, far)
        if joint.least.together[0] <= 2.0 * WHITE:
            return joint, joint
    return in_measured_air(times, air, wall, _pace(asked, float(np.median(air[-len(air) // 4 :])))), best


def _far(asked: Asked, series: Series, window: Window) -> Far | None:
    """Return where full power would lead the air; a cold oven is as cold as the room.

    Where the part that is looked at begins with the log, the room is fitted with the air; else it is only about known.
    """
    heater = asked.heater
    if heater is None or heater.kind != "oven" or heater.loss_w_k <= 0.0:
        return None
    early = [one for one in series.air_c[:25] if math.isfinite(one)][:3]
    first_c = float(np.median(early)) if early else math.inf
    rise_k = heater.power_w / heater.loss_w_k
    if first_c >= WARM_C:
        return Far(rise_k, asked.room_c)
    return Far(rise_k, None if window.from_s <= series.times_s[0] else first_c)


def _pace(asked: Asked, level_c: float) -> Pace | None:
    """Return how much quicker heat passes at some temperatures than on average, where a share of it is radiation."""
    heater, room = asked.heater, asked.room_c
    if heater is None or heater.radiant <= 0.0 or heater.kind != "oven":
        return None
    covers = np.array([float(cover_resistance(asked.covers))])
    face = Face(np.array([heater.film.mid]), covers, heater.radiant, level_c - room, room)
    usual, anchor = face.usual(), face.anchor()

    def pace(air: Floats, wall: Floats) -> Floats:
        quick: Floats = passing(face, usual, anchor, air - room, wall - room) / usual
        return quick

    return pace


def _constant(course: Course, which: str) -> tuple[float, float, float] | None:
    """Return a time constant with its interval, or None where the log leaves it open."""
    middle = course.value(which)
    if middle is None:
        return None
    half = quantile(course.least.free) * course.half(which)
    low, high = middle - half, middle + half
    if course.model is not None and LOOK_CLOSER < half < 3.0 * WIDEST:
        low, high = profile_interval(course.model, course.columns, course.least, course.at.index(which))
    if not math.isfinite(high - low) or high - low > WIDEST or half == 0.0 or not 0.01 < middle < 11.3:
        return None
    return math.exp(middle), math.exp(low), math.exp(high)


def _wall_constant(course: Course, window: Window, told: _Told) -> None:
    if course.form == "two-constants":
        pair = sorted(math.exp(course.value(one) or 0.0) for one in ("ln-air-tau", "ln-wall-tau"))
        told.cannot(
            "wall-time-constant",
            f"two time constants show in it, {pair[0]:.0f} s and {pair[1]:.0f} s, and without a column of the air "
            "nothing says which is the wall's; log the air too, or put the blank into an oven that is level.",
        )
        return
    found = _constant(course, "ln-wall-tau")
    if found is None:
        told.cannot(
            "wall-time-constant",
            f"within {window.times_s[-1]:.0f} s the wall's curve does not bend enough to part its time constant from "
            "where it would end; log until it is level.",
        )
        return
    told.estimates.append(Estimate("wall-time-constant", *found))


def _film(asked: Asked, told: _Told) -> None:
    tau = next((one for one in told.estimates if one.name == "wall-time-constant"), None)
    if tau is None:
        told.cannot("film", "it comes from the wall's time constant, which the log does not tell.")
        return
    if asked.wall is None:
        told.cannot("film", "the log does not say what the wall is made of and how thick it is; give both.")
        return
    try:
        middle, high, low = (film_of(one, asked.wall, asked.covers) for one in (tau.value, tau.low, tau.high))
    except ValueError as error:
        told.cannot(
            "film", f"{error} than the {tau.value:.0f} s that were logged: the wall given is not the one logged."
        )
        return
    if asked.heater is not None and asked.heater.kind == "oven" and not LEAST_FILM <= middle <= MOST_FILM:
        told.cannot(
            "film",
            f"it would be {middle:.0f} W/m²K, and ovens have 20 to 48 W/m²K: look at the thickness and material given.",
        )
        return
    told.estimates.append(Estimate("film", middle, low, high))


def _oven_constant(course: Course | None, window: Window, told: _Told, far: Far | None) -> None:
    if course is None:
        told.cannot("oven-time-constant", "the log has no column of the air.")
        return
    rise = abs((course.value("level") or 0.0) - (course.value("air-start") or 0.0))
    if course.form == "steady-air" or rise < LEAST_RISE_K:
        why = "the air hardly leaves its level in this log; log the oven as it heats up from cold."
        told.cannot("oven-time-constant", why)
        return
    found = _constant(course, "ln-air-tau")
    if found is None or course.least.noise[0] > ROUGH * rise:
        told.cannot(
            "oven-time-constant",
            f"within {window.times_s[-1]:.0f} s the air does not bend enough, or goes up and down too much.",
        )
        return
    middle, low, high = found
    if course.form == "full-power" and far is not None:
        off = far.doubt(course.value("air-start") or 0.0, course.value("level") or 0.0)
        low, high = low * math.exp(-off), high * math.exp(off)
    told.estimates.append(Estimate("oven-time-constant", middle, low, high))


def _level(course: Course, window: Window, asked: Asked, told: _Told) -> None:
    level = course.value("level")
    half = quantile(course.least.free) * course.half("level") if level is not None else math.inf
    why = ""
    if level is None or not half < UNCALIBRATED_K:
        why = "the log ends too far below the oven's level to say where that would be."
    elif course.fits[0] is not None and not _reached(window.times_s, course.fits[0], level):
        last = celsius_words(round(float(course.fits[0][-1])))
        why = f"the log ends while the air still changes, at {last}; log until it is held."
    if level is None or why:
        told.cannot("level", why)
        told.cannot("offset", why)
        return
    shown = (asked.reference.shown_c - asked.reference.true_c) if asked.reference else 0.0
    half = math.hypot(half, asked.reference.half_k) if asked.reference else half
    level -= shown
    told.estimates.append(Estimate("level", level, level - half, level + half))
    if asked.set_c is None:
        told.cannot("offset", "the log does not say what the oven was set to; give it.")
        return
    offset = level - asked.set_c
    if abs(offset) > FARTHEST_K:
        off = f"{step_words(round(abs(offset)))} from the {celsius_words(asked.set_c)} set"
        told.cannot("offset", f"the level of {celsius_words(round(level))} is {off}: that is another setting.")
        return
    told.estimates.append(Estimate("offset", offset, offset - half, offset + half))


def _reached(times: Floats, fit: Floats, level: float) -> bool:
    """Return whether the air stood near its level at the end, for half a minute and a twentieth of the log."""
    near = times[np.abs(fit - level) < NEAR_K]
    if not len(near) or abs(float(fit[-1]) - level) >= NEAR_K:
        return False
    return float(near[-1] - near[0]) >= max(30.0, 0.05 * float(times[-1]))


def _fitted(window: Window, courses: tuple[Course, Course | None], told: _Told, asked: Asked) -> Fitted:
    wall, oven = courses
    air_fit = wall.fits[0]
    if air_fit is None and oven is not None and oven.form != "steady-air":
        air_fit = oven.fits[0]
    drawn = Drawn(
        *(
            () if one is None else tuple(float(value) for value in one)
            for one in (window.times_s, window.air_c, air_fit, window.wall_c, wall.fits[1])
        )
    )
    tau = next((one for one in told.estimates if one.name == "wall-time-constant"), None)
    film = next((one for one in told.estimates if one.name == "film"), None)
    wider = (
        film_with_wall((tau.low, tau.high), asked.wall, asked.covers)
        if tau is not None and film is not None and asked.wall is not None
        else None
    )
    reference = asked.reference
    noise = (_noise(drawn.air_c, drawn.air_fit_c), _noise(drawn.wall_c, drawn.wall_fit_c))
    made = Fitted(
        tuple(told.estimates),
        tuple(told.untold),
        wall.form,
        drawn,
        len(window.times_s),
        window.from_s,
        window.from_s + float(window.times_s[-1]),
        noise,
        None if reference is None else (reference.shown_c - reference.true_c, reference.half_k),
        wider,
    )
    together = max(max(wall.least.together), max(oven.least.together) if oven is not None else 1.0)
    words = words_of(made, asked, difference=wall.value("difference"), together=together)
    return Fitted(**{**vars(made), "words": (*window.words, *words)})


def _noise(measured: tuple[float, ...], fit: tuple[float, ...]) -> float | None:
    return float(np.std(np.subtract(measured, fit))) if measured and fit else None


def found_in(fitted: Fitted, asked: Asked) -> Found:
    """Return what a fitted log says of its heater: what goes into the heater's figures."""
    offset, film, tau = fitted.told("offset"), fitted.told("film"), fitted.told("oven-time-constant")
    sensor = 0.0 if asked.reference is not None else SENSOR_HALF_K
    empty = not fitted.drawn.wall_c
    own = None
    if tau is not None and fitted.form == "full-power" and empty and asked.heater is not None:
        own = tau.value * asked.heater.loss_w_k
    wide = fitted.film_with_wall
    return Found(
        offset_k=None if offset is None else offset.value,
        offset_half_k=None if offset is None else math.hypot(offset.half, sensor),
        film=None if film is None or wide is None else (min(wide[0], film.low), film.value, max(wide[1], film.high)),
        own_j_k=own,
        source="a log",
    )
