"""How one flat shape follows a bulging wall: the misfit of its girth, plotted along the wall with its limit."""

from __future__ import annotations

import math

from wrapwright.core.blank.wrapped import TOLERANCE_MM, Wrapped
from wrapwright.outside.documents.screen.lengths import Unit, said
from wrapwright.outside.documents.screen.svg import chain, dot, drawing, shape, wide, words

_LEFT, _RIGHT, _ABOVE, _BELOW = 66.0, 34.0, 16.0, 40.0


def misfit_plot(wrapped: Wrapped, *, unit: Unit, size: tuple[float, float]) -> str:
    """Return the plot: wrap less wall in girth, over the position along the wall, within and beyond the limit."""
    curve, limit = wrapped.misfit.curve, TOLERANCE_MM
    low, high = wrapped.wall_from_mm, wrapped.wall_from_mm + wrapped.wall_mm
    most = 1.15 * max(limit, *(abs(value) for _, value in curve))
    width, height = size[0] - _LEFT - _RIGHT, size[1] - _ABOVE - _BELOW

    def at(position: float, value: float) -> tuple[float, float]:
        across = (position - low) / (high - low)
        return _LEFT + width * across, _ABOVE + height * (0.5 - value / most / 2.0)

    corners = [at(low, limit), at(high, limit), at(high, -limit), at(low, -limit)]
    parts = [shape(chain(corners, closed=True), "f-accent-soft")]
    for value in (limit, -limit):
        parts.append(shape(chain([at(low, value), at(high, value)]), "wd-thin wd-dash s-accent"))
        sign = "+" if value > 0 else "−"
        parts.append(words(f"{sign}{said(limit, unit)}", (_LEFT - 8.0, at(low, value)[1]), "wd-small", anchor="end"))
    parts.append(shape(chain([at(low, 0.0), at(high, 0.0)]), "wd-hair s-ink-3"))
    parts.append(words("0", (_LEFT - 8.0, at(low, 0.0)[1]), "wd-small", anchor="end"))
    parts.append(shape(chain([at(*point) for point in curve]), "wd-hair s-ink", width=1.5))
    for point in curve:
        over = abs(point[1]) > limit + 1e-9
        parts.append(dot(at(*point), 4.5 if over else 3.0, "f-bad" if over else "f-ink"))
    parts += _positions([(position, at(position, 0.0)[0]) for position, _ in curve], size[1], unit)
    parts.append(words("up the wall", (_LEFT + width / 2.0, size[1] - 8.0), "wd-small"))
    return drawing(*size, parts, spoken=misfit_spoken(wrapped, unit))


def _positions(ticks: list[tuple[float, float]], bottom: float, unit: Unit) -> list[str]:
    """Return a tick and its words below each reading, as far as they stand clear of each other."""
    parts, last = [], -math.inf
    for position, x in ticks:
        parts.append(shape(chain([(x, bottom - _BELOW), (x, bottom - _BELOW + 5.0)]), "wd-thin s-ink-3"))
        text = said(position, unit)
        if x - wide(text, size=11.0) / 2.0 > last + 8.0:
            parts.append(words(text, (x, bottom - _BELOW + 13.0), "wd-small"))
            last = x + wide(text, size=11.0) / 2.0
    return parts


def misfit_spoken(wrapped: Wrapped, unit: Unit) -> str:
    """Return the plot in one sentence."""
    worst_at, worst = max(wrapped.misfit.curve, key=lambda point: abs(point[1]))
    side = "longer" if worst > 0 else "shorter"
    held = "within" if abs(worst) <= TOLERANCE_MM else "over"
    return (
        f"Misfit along the wall: at most {said(abs(worst), unit, digits=2)}, {side} than the girth, at"
        f" {said(worst_at, unit)}; {held} the limit of {said(TOLERANCE_MM, unit)}."
    )
