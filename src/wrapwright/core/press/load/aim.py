"""What dose is aimed at: the bounds of accepted trials, or before there are any what the recipe's own range gives."""

from __future__ import annotations

import math

from wrapwright.core.press.load.course import course_of
from wrapwright.core.press.load.values import Aim
from wrapwright.core.press.values import Heater, Load, Window

_ABOVE_LOW = 1.2  # aimed at over a lower bound alone; common practice, no source


def recipe_aim(heater: Heater, load: Load, seconds: tuple[float, float]) -> Aim:
    """Return the doses that a recipe's own range of dwells gives.

    Args:
        heater: one of the recipe's kind, at its middle figures.
        load: one piece of the recipe's own wall and covers, at the middle of its temperatures.
        seconds: the recipe's shortest and longest dwell, from the door closing.
    """
    short, long = seconds
    course = course_of(heater, load, long)
    middle = (short + long) / 2.0
    low, mid, high = (course.dose_at(one) for one in (short, middle, long))
    return Aim(low, mid, high, made_by=course.coating_until(middle))


def aim_of(window: Window, recipe: Aim) -> Aim:
    """Return what is aimed at: between the window's bounds, each taken at its careful end.

    A bound that is not known yet is the recipe's; with neither known the aim is the recipe's own.
    """
    if window.low is None and window.high is None:
        return recipe
    if window.low is not None and window.high is not None:
        low, high = window.low[1], window.high[0]
        mid = math.sqrt(low * high)  # doses count by their ratios
        return Aim(min(low, mid), mid, max(high, mid), "trials", window)
    if window.low is not None:
        low = window.low[1]
        mid = max(low * _ABOVE_LOW, recipe.mid)
        return Aim(low, mid, max(mid, recipe.high), "trials", window)
    high = window.high[0] if window.high is not None else recipe.high
    mid = min(high / _ABOVE_LOW, recipe.mid)
    return Aim(min(mid, recipe.low), mid, high, "trials", window)
