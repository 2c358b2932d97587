"""The ruled field of a plot of heat: minutes along, Celsius up its left side and Fahrenheit up its right."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.units import to_celsius, to_fahrenheit
from wrapwright.outside.documents.screen.svg import Point, chain, shape, words

LEFT, RIGHT, ABOVE = 50.0, 68.0, 30.0
_MINUTE_STEPS = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 15.0)
_MOST_TICKS = 12


@dataclass(frozen=True)
class Field:
    """Where a plot's field lies on the drawing, px, and what it spans.

    Attributes:
        width, height: of the drawing and of the field.
        most_s: at its right edge; its left edge is nought.
        low_c, high_c: at its lower and its upper edge.
    """

    width: float
    height: float
    most_s: float
    low_c: float
    high_c: float

    @property
    def right(self) -> float:
        """The field's right edge."""
        return self.width - RIGHT

    @property
    def bottom(self) -> float:
        """The field's lower edge."""
        return ABOVE + self.height

    def across(self, seconds: float) -> float:
        """Return where a time lies; times beyond the right edge lie on it."""
        return LEFT + (self.right - LEFT) * min(1.0, max(0.0, seconds / self.most_s))

    def at(self, seconds: float, celsius: float) -> Point:
        """Return where a temperature at a time lies."""
        up = (celsius - self.low_c) / (self.high_c - self.low_c)
        return self.across(seconds), self.bottom - self.height * min(1.0, max(0.0, up))


def minute_step(most_s: float) -> float:
    """Return how many minutes lie between two ticks."""
    return next((one for one in _MINUTE_STEPS if most_s / 60.0 / one <= _MOST_TICKS), _MINUTE_STEPS[-1])


def ticks_s(field: Field) -> list[float]:
    """Return the times that have a tick, seconds."""
    step = minute_step(field.most_s) * 60.0
    return [step * number for number in range(int(field.most_s / step + 1e-6) + 1)]


def ruled(field: Field) -> list[str]:
    """Return the field's hairlines with both scales of temperature; the minutes stand below by `foot`."""
    parts = []
    for celsius in range(int(field.low_c), int(field.high_c) + 1, 50):
        left, y = field.at(0.0, float(celsius))
        line = "s-ink-3" if celsius == int(field.low_c) else "s-line"
        parts.append(shape(chain([(left, y), (field.right, y)]), f"wd-thin {line}"))
        parts.append(words(f"{celsius}", (LEFT - 8.0, y), "wd-small", anchor="end"))
    top_f, low_f = to_fahrenheit(field.high_c), to_fahrenheit(field.low_c)
    for fahrenheit in range(int(-(-low_f // 100) * 100), int(top_f) + 1, 100):
        _, y = field.at(0.0, to_celsius(float(fahrenheit)))
        parts.append(shape(chain([(field.right, y), (field.right + 5.0, y)]), "wd-thin s-ink-3"))
        parts.append(words(f"{fahrenheit}", (field.right + 9.0, y), "wd-small", anchor="start"))
    parts.append(words("°C", (LEFT - 8.0, ABOVE - 14.0), "wd-small", anchor="end"))
    parts.append(words("°F", (field.right + 9.0, ABOVE - 14.0), "wd-small", anchor="start"))
    return parts


def uprights(field: Field, top: float, bottom: float) -> list[str]:
    """Return the hairlines of the minutes, from one height down to another."""
    return [
        shape(chain([(field.across(one), top), (field.across(one), bottom)]), "wd-thin s-line")
        for one in ticks_s(field)
    ]


def foot(field: Field, y: float) -> list[str]:
    """Return the minutes below the field, and what they count from."""
    unit = words("min", (field.right + 9.0, y), "wd-small", anchor="start")
    return [*(words(f"{one / 60.0:g}", (field.across(one), y), "wd-small") for one in ticks_s(field)), unit]
