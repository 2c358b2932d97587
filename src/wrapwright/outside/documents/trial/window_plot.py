"""Scores over the logarithm of the dose, each quality on a lane, with the bounds they tell and the window between."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from wrapwright.core.press.trial.values import BEST, GOOD, QUALITIES, Coupon, Found, Known, Quality, Scores
from wrapwright.core.press.trial.words import dose_words, interval_words
from wrapwright.core.press.values import Window
from wrapwright.outside.documents.screen.svg import chain, dot, drawing, figure, shape, wide, words

_SIDE = 12.0
_TOP = 8.0
_WINDOW, _LANE, _GAP, _NAME = 26.0, 58.0, 8.0, 24.0
_FOOT = 44.0
_TICKS = (1.0, 2.0, 5.0)
_TITLES: Mapping[Quality, str] = {"density": "Density", "sharpness": "Sharpness", "yellowing": "Yellowing"}
_LEAST_DECADES = 1.4


@dataclass(frozen=True)
class _Axis:
    """The logarithm of the dose along the drawing."""

    width: float
    low: float
    high: float

    def x(self, minutes: float) -> float:
        """Return where a dose lies, never off the drawing."""
        share = (math.log10(max(minutes, 1e-6)) - self.low) / (self.high - self.low)
        return _SIDE + (self.width - 2 * _SIDE) * min(1.0, max(0.0, share))


def window_plot(
    coupons: Sequence[Coupon],
    scores: Mapping[int, Scores],
    found: Found,
    *,
    next_dose: float | None = None,
    accepted: Window | None = None,
    width: float = 760.0,
) -> str:
    """Return the plot as SVG.

    Args:
        coupons: of the trial.
        scores: by the coupons' numbers.
        found: what they tell.
        next_dose: of the heat that is proposed, None for none.
        accepted: the window that planning goes by, None for none.
        width: px; what is written keeps its size.
    """
    axis = _axis(coupons, found, next_dose, accepted, width)
    lanes = {quality: _TOP + _WINDOW + _NAME + at * (_LANE + _GAP + _NAME) for at, quality in enumerate(QUALITIES)}
    bottom = lanes[QUALITIES[-1]] + _LANE
    parts = [*_grid(axis, bottom), *_window(axis, found, accepted)]
    for known in found.known:
        parts += _lane(axis, lanes[known.quality], known, coupons, scores)
    parts += _numbers(axis, bottom, coupons)
    if next_dose is not None:
        parts += _next(axis, bottom, next_dose)
    spoken = f"Scores of {len(coupons)} coupons over their dose. {' '.join(found.words)}"
    return drawing(width, bottom + _FOOT, parts, spoken=spoken)


def _axis(
    coupons: Sequence[Coupon], found: Found, next_dose: float | None, accepted: Window | None, width: float
) -> _Axis:  # fmt: skip
    doses = [one.dose.mid for one in coupons if one.dose.mid > 0.0]
    windows = [found.window, *([accepted] if accepted else [])]
    doses += [end for window in windows for bound in (window.low, window.high) if bound for end in bound]
    doses += [next_dose] if next_dose else []
    low, high = math.log10(min(doses)) - 0.12, math.log10(max(doses)) + 0.12
    more = max(0.0, _LEAST_DECADES - (high - low)) / 2.0
    return _Axis(width, low - more, high + more)


def _grid(axis: _Axis, bottom: float) -> list[str]:
    parts, last = [], -1e9
    for decade in range(math.floor(axis.low), math.ceil(axis.high) + 1):
        for tick in _TICKS:
            minutes = tick * 10.0**decade
            if not axis.low <= math.log10(minutes) <= axis.high:
                continue
            x = axis.x(minutes)
            strong = "s-ink-3" if tick == 1.0 else "s-line"
            parts.append(shape(chain([(x, _TOP + _WINDOW + 4.0), (x, bottom + 4.0)]), f"wd-thin {strong}"))
            text = f"{minutes:g}"
            room = wide(text, size=11.0) / 2.0
            if x - room > last + 6.0 and x - room >= _SIDE and x + room <= axis.width - _SIDE:
                parts.append(words(text, (x, bottom + 34.0), "wd-small"))
                last = x + room
    return parts


def _window(axis: _Axis, found: Found, accepted: Window | None) -> list[str]:
    """Return the strip at the top: both bounds as hatched ends, and between them what is known to work."""
    window, y, height = found.window, _TOP, _WINDOW
    parts = [_box(axis.x(0.0), y, axis.width - _SIDE, y + height, "f-sheet")]
    low, high = window.low, window.high
    if low is not None and high is not None and low[1] < high[0]:
        left, right = axis.x(low[1]), axis.x(high[0])
        parts.append(_box(left, y, right, y + height, "f-accent"))
        text = f"{dose_words(low[1]).removesuffix(' min')} to {dose_words(high[0])}"
        if wide(text) + 12.0 < right - left:
            parts.append(words(text, ((left + right) / 2.0, y + height / 2.0), "wd-strong wt-on"))
    for bound in (low, high):
        if bound is not None:
            parts.append(_box(axis.x(bound[0]), y, axis.x(bound[1]), y + height, "f-accent-soft"))
            ends = [axis.x(end) for end in bound]
            parts += [shape(chain([(x, y), (x, y + height)]), "wd-hair s-accent") for x in ends]
    if low is None and high is None:
        parts.append(words("not known yet", (axis.width / 2.0, y + height / 2.0)))
    parts.append(shape(_corners(axis.x(0.0), y, axis.width - _SIDE, y + height), "wd-hair s-line wd-none"))
    if accepted is not None:
        start = axis.x(accepted.low[1]) if accepted.low else _SIDE
        end = axis.x(accepted.high[0]) if accepted.high else axis.width - _SIDE
        at = y + height + 3.0
        parts.append(shape(chain([(start, at + 4.0), (start, at), (end, at), (end, at + 4.0)]), "wd-thick s-ink"))
    return parts


def _lane(
    axis: _Axis, top: float, known: Known, coupons: Sequence[Coupon], scores: Mapping[int, Scores]
) -> list[str]:  # fmt: skip
    quality = known.quality
    parts = [words(_TITLES[quality], (_SIDE, top - 9.0), "wd-strong wd-halo", anchor="start")]
    told = f"bound {interval_words(known.interval)}" if known.interval else known.state.replace("-", " ")
    parts.append(words(told, (axis.width - _SIDE, top - 9.0), "wd-small wd-halo", anchor="end"))
    if known.interval is not None and known.middle is not None:
        left, right = (axis.x(end) for end in known.interval)
        parts.append(_box(left, top, right, top + _LANE, "f-accent-soft"))
        x = axis.x(known.middle)
        parts.append(shape(chain([(x, top), (x, top + _LANE)]), "wd-thick s-accent"))
    right_end = axis.width - _SIDE
    edges = (top, top + _LANE)
    parts += [shape(chain([(_SIDE, edge), (right_end, edge)]), "wd-thin s-line") for edge in edges]
    line = _height(top, GOOD - 0.5)
    parts.append(shape(chain([(_SIDE, line), (axis.width - _SIDE, line)]), "wd-hair wd-dash s-ink-3"))
    for coupon in coupons:
        score = scores[coupon.number].of(quality) if coupon.number in scores else None
        if score is not None:
            parts.append(_mark((axis.x(_dose(coupon, quality)), _height(top, score)), good=score >= GOOD))
    return parts


def _dose(coupon: Coupon, quality: Quality) -> float:
    return coupon.bare if quality == "yellowing" and coupon.bare is not None else coupon.dose.mid


def _mark(at: tuple[float, float], *, good: bool) -> str:
    """Return a score: a full dot where it is accepted, an open diamond where it is not."""
    if good:
        return dot(at, 4.5, "f-ink")
    x, y = at
    corners = [(x, y - 5.5), (x + 5.5, y), (x, y + 5.5), (x - 5.5, y)]
    return shape(chain(corners, closed=True), "wd-thick s-heat f-panel")


def _height(top: float, score: float) -> float:
    return top + 8.0 + (BEST - score) / (BEST - 1.0) * (_LANE - 16.0)


def _numbers(axis: _Axis, bottom: float, coupons: Sequence[Coupon]) -> list[str]:
    """Return the coupons' numbers under their doses; where two would run together the later one is left out."""
    parts = []
    taken: list[tuple[float, float]] = []
    for coupon in coupons:
        x, text = axis.x(coupon.dose.mid), str(coupon.number)
        room = wide(text) / 2.0 + 2.0
        parts.append(shape(chain([(x, bottom), (x, bottom + 6.0)]), "wd-hair s-ink"))
        if all(x + room < left or x - room > right for left, right in taken):
            parts.append(words(text, (x, bottom + 16.0), "wd-strong"))
            taken.append((x - room, x + room))
    return parts


def _next(axis: _Axis, bottom: float, minutes: float) -> list[str]:
    x = axis.x(minutes)
    corners = [(x, bottom - 1.0), (x - 5.0, bottom + 9.0), (x + 5.0, bottom + 9.0)]
    line = shape(chain([(x, _TOP + _WINDOW + 4.0), (x, bottom)]), "wd-hair wd-dots s-heat")
    return [line, shape(chain(corners, closed=True), "f-heat")]


def _box(left: float, top: float, right: float, bottom: float, how: str) -> str:
    size = f'width="{figure(max(0.0, right - left))}" height="{figure(bottom - top)}"'
    return f'<rect class="{how}" x="{figure(left)}" y="{figure(top)}" {size}/>'


def _corners(left: float, top: float, right: float, bottom: float) -> str:
    return chain([(left, top), (right, top), (right, bottom), (left, bottom)], closed=True)
