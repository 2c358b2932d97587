"""A log with what was fitted to it: air and wall over time, and below what is left of each, row by row."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wrapwright.core.press.fit.values import Drawn, Fitted
from wrapwright.outside.documents.screen.heat.axes import ABOVE, LEFT, Field, foot, ruled, uprights
from wrapwright.outside.documents.screen.svg import Point, chain, drawing, figure, shape, standing_alone, wide, words

WIDTH, HEIGHT, LEFT_OVER = 720.0, 230.0, 76.0
_GAP, _FOOT = 34.0, 26.0
_MOST_POINTS = 240  # of a column: about one every two and a half px
_REACHES = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)


def log_plot(fitted: Fitted, title: str, *, alone: bool = False) -> str:
    """Return the plot as SVG: with the page's tokens, or `alone` with its own colours for a file."""
    drawn = fitted.drawn
    values = [*drawn.air_c, *drawn.wall_c]
    low = math.floor(min(0.0, *values) / 50.0) * 50.0
    field = Field(WIDTH, HEIGHT, max(drawn.times_s[-1], 1.0), low, math.ceil(max(values) / 50.0 + 0.02) * 50.0)
    below = field.bottom + _GAP
    parts = [
        *uprights(field, ABOVE, below + LEFT_OVER),
        *ruled(field),
        words(title, (LEFT, ABOVE - 14.0), "wd-strong f-ink", anchor="start"),
        *_column(field, drawn, drawn.air_c, drawn.air_fit_c, "ink-3"),
        *_column(field, drawn, drawn.wall_c, drawn.wall_fit_c, "heat"),
        *_key(field, drawn),
        *_left(field, drawn, below),
        *foot(field, below + LEFT_OVER + 12.0),
    ]
    make = standing_alone if alone else drawing
    return make(WIDTH, below + LEFT_OVER + _FOOT, parts, spoken=log_spoken(fitted))


def log_spoken(fitted: Fitted) -> str:
    """Return what the plot shows to those who do not see it."""
    names = [name for name, values in (("air", fitted.drawn.air_c), ("wall", fitted.drawn.wall_c)) if values]
    noise = [
        f"{name} {value:.2f} K"
        for name, value in zip(("air", "wall"), fitted.noise_k, strict=True)
        if value is not None
    ]
    left = f" Residuals: {', '.join(noise)} (standard deviation)." if noise else ""
    return f"Log of {' and '.join(names)} over {fitted.drawn.times_s[-1] / 60.0:.1f} minutes with the fit.{left}"


def _picked(count: int) -> range:
    return range(0, count, -(-count // _MOST_POINTS))


def _column(field: Field, drawn: Drawn, values: Sequence[float], fit: Sequence[float], token: str) -> list[str]:
    parts = []
    if values:
        at = [field.at(drawn.times_s[one], values[one]) for one in _picked(len(values))]
        parts.append(_dots(at, token))
    if fit:
        line = [field.at(drawn.times_s[one], fit[one]) for one in _picked(len(fit))]
        line.append(field.at(drawn.times_s[-1], fit[-1]))
        parts.append(shape(chain(line), f"wd-thick wd-none s-{'ink' if token == 'ink-3' else token}"))
    return parts


def _dots(points: Sequence[Point], token: str) -> str:
    """Return small round dots as one path."""
    path = "".join(f"M{figure(x)} {figure(y)}h0" for x, y in points)
    return f'<path class="wd-none s-{token}" d="{path}" stroke-width="2.6" stroke-linecap="round" opacity=".55"/>'


def _key(field: Field, drawn: Drawn) -> list[str]:
    """Return the names of the columns, at the upper right."""
    parts, right = [], field.right
    for name, token, values in (("wall", "heat", drawn.wall_c), ("air", "ink", drawn.air_c)):
        if values:
            parts.append(words(name, (right, ABOVE - 14.0), "wd-small", anchor="end"))
            left = right - wide(name, size=11.0) - 8.0
            line = [(left - 16.0, ABOVE - 14.0), (left, ABOVE - 14.0)]
            parts.append(shape(chain(line), f"wd-thick s-{token}"))
            right = left - 28.0
    return parts


def _left(field: Field, drawn: Drawn, top: float) -> list[str]:
    """Return what is left of each column once the fit is taken off."""
    columns = [
        (token, [value - fit for value, fit in zip(values, fits, strict=True)])
        for token, values, fits in (
            ("ink-3", drawn.air_c, drawn.air_fit_c),
            ("heat", drawn.wall_c, drawn.wall_fit_c),
        )
        if values and fits
    ]
    worst = max((abs(one) for _, column in columns for one in column), default=1.0)
    reach = next((one for one in _REACHES if one >= worst), _REACHES[-1])
    middle, half = top + LEFT_OVER / 2.0, LEFT_OVER / 2.0
    parts = [words("measured less fitted, °C", (LEFT, top - 10.0), "wd-small", anchor="start")]
    for share in (-1.0, 0.0, 1.0):
        y = middle - share * half
        line = "s-ink-3" if share == 0.0 else "s-line"
        parts.append(shape(chain([(LEFT, y), (field.right, y)]), f"wd-thin {line}"))
        label = "0" if share == 0.0 else f"{share * reach:+g}".replace("-", "−")
        parts.append(words(label, (LEFT - 8.0, y), "wd-small", anchor="end"))
    for token, column in columns:
        at = [
            (field.across(drawn.times_s[one]), middle - max(-1.0, min(1.0, column[one] / reach)) * half)
            for one in _picked(len(column))
        ]
        parts.append(_dots(at, token))
    return parts
