"""A figure with its doubt on a rule: where it is taken to lie, and how far it may lie from there."""

from __future__ import annotations

import math

from wrapwright.outside.documents.screen.svg import chain, dot, drawing, figure, shape, words

WIDTH, HEIGHT = 460.0, 54.0
_SIDE, _LINE, _ROW = 16.0, 30.0, 14.0
_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
_MOST_TICKS = 9


def doubt_rule(
    span: tuple[float, float], known: tuple[float, float, float], *, sure: bool, spoken: str, other: float = 0.0
) -> str:
    """Return the rule as SVG.

    Args:
        span: lowest and highest of the rule.
        known: low, middle and high of the figure; ends beyond the rule are drawn at its ends.
        sure: whether it was found by calibrating; else it is drawn as an estimate, dashed.
        spoken: what it shows to those who do not see it.
        other: how many of another unit one is; a second row of figures tells the rule in it. 0: none.
    """
    low, middle, high = (_across(span, one) for one in known)
    step = next((one for one in _STEPS if (span[1] - span[0]) / one <= _MOST_TICKS), _STEPS[-1])
    first = math.ceil(span[0] / step - 1e-9)
    ticks = [step * number for number in range(first, math.floor(span[1] / step + 1e-9) + 1)]
    parts = [shape(chain([(_SIDE, _LINE), (WIDTH - _SIDE, _LINE)]), "wd-thin s-ink-3")]
    for one in ticks:
        x = _across(span, one)
        parts.append(shape(chain([(x, _LINE), (x, _LINE + 6.0)]), "wd-thin s-ink-3"))
        parts.append(words(_label(span, one), (x, _LINE + 16.0), "wd-small"))
        if other:
            parts.append(words(_label(span, one * other), (x, _LINE + 16.0 + _ROW), "wd-small"))
    token = "accent" if sure else "ink-3"
    fill = "f-accent-soft" if sure else "wd-none"
    box = f'x="{figure(low)}" y="{figure(_LINE - 16.0)}" width="{figure(max(high - low, 1.0))}" height="16"'
    parts.append(f'<rect {box} class="{fill} wd-thin s-{token}{"" if sure else " wd-dash"}"/>')
    parts.append(shape(chain([(middle, _LINE - 20.0), (middle, _LINE)]), f"wd-thick s-{token}"))
    parts.append(dot((middle, _LINE - 8.0), 3.5, f"f-{token}"))
    return drawing(WIDTH, HEIGHT + (_ROW if other else 0.0), parts, spoken=spoken)


def _label(span: tuple[float, float], value: float) -> str:
    """Return a tick's figure, with its sign on a rule that goes below zero."""
    return f"{value:+g}".replace("-", "−") if span[0] < 0.0 and value else f"{value:g}"


def _across(span: tuple[float, float], value: float) -> float:
    share = (value - span[0]) / (span[1] - span[0])
    return _SIDE + (WIDTH - 2.0 * _SIDE) * min(1.0, max(0.0, share))
