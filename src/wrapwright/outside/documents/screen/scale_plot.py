"""A printer's scale over its measurements: across and along, each with the doubt of reading it."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.sheet.scale.entries import ScaleEntry
from wrapwright.outside.documents.screen.svg import drawing, figure

WIDTH, HEIGHT = 520, 200
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 66, 14, 26
_LEAST = 0.003  # of scale, from the middle to an edge


def scale_plot(entries: Sequence[ScaleEntry]) -> str:
    """Return the plot as SVG; `entries` are the oldest first, two at least."""
    most = max(abs(one.lengths.scale[axis] - 1.0) + one.lengths.error[axis] for one in entries for axis in range(2))
    reach = max(_LEAST, most * 1.1)
    parts = [_frame(reach)]
    for axis, (token, name) in enumerate((("accent", "across"), ("heat", "along"))):
        parts.append(_series(entries, axis, token, name, reach))
    first, last = entries[0].day, entries[-1].day
    parts.append(f'<text x="{_LEFT}" y="{HEIGHT - 6}" class="wd-small">{first}</text>')
    parts.append(f'<text x="{WIDTH - _RIGHT}" y="{HEIGHT - 6}" text-anchor="end" class="wd-small">{last}</text>')
    told = f"Scale over {len(entries)} measurements from {first} to {last}; the table beside it has the figures."
    return drawing(WIDTH, HEIGHT, parts, spoken=told)


def _frame(reach: float) -> str:
    rows = []
    for share in (-1.0, -0.5, 0.0, 0.5, 1.0):
        y = figure(_height(1.0 + share * reach / 1.1, reach))
        words = "true" if share == 0 else f"{share * reach / 1.1 * 100:+.2f} %"
        line = "s-ink-3" if share == 0 else "s-line"
        rows.append(f'<line x1="{_LEFT}" x2="{WIDTH - _RIGHT}" y1="{y}" y2="{y}" class="wd-thin {line}"/>')
        rows.append(f'<text x="{_LEFT - 6}" y="{y}" dy="4" text-anchor="end" class="wd-small">{words}</text>')
    return "".join(rows)


def _series(entries: Sequence[ScaleEntry], axis: int, token: str, name: str, reach: float) -> str:
    places = [_along(entries, at) + (6.0 if axis else -6.0) for at in range(len(entries))]
    scales = [one.lengths.scale[axis] for one in entries]
    parts = []
    for x, one, scale in zip(places, entries, scales, strict=True):
        error = one.lengths.error[axis]
        low, high = figure(_height(scale - error, reach)), figure(_height(scale + error, reach))
        parts.append(f'<line x1="{figure(x)}" x2="{figure(x)}" y1="{low}" y2="{high}" class="wd-hair s-{token}"/>')
        dot = f'cx="{figure(x)}" cy="{figure(_height(scale, reach))}"'
        shape = f'<circle {dot} r="3.5" class="f-{token}"/>' if axis == 0 else _square(x, _height(scale, reach), token)
        parts.append(shape)
    points = " ".join(f"{figure(x)},{figure(_height(scale, reach))}" for x, scale in zip(places, scales, strict=True))
    parts.append(f'<polyline points="{points}" class="wd-thin s-{token}"/>')
    end = figure(_height(scales[-1], reach) + (12.0 if axis else -4.0))
    parts.append(f'<text x="{WIDTH - _RIGHT + 10}" y="{end}" class="wd-small">{name}</text>')
    return "".join(parts)


def _square(x: float, y: float, token: str) -> str:
    return f'<rect x="{figure(x - 3.2)}" y="{figure(y - 3.2)}" width="6.4" height="6.4" class="f-{token}"/>'


def _along(entries: Sequence[ScaleEntry], at: int) -> float:
    """Return the place of an entry: by its day, or evenly where all are of one day."""
    first, last = entries[0].day.toordinal(), entries[-1].day.toordinal()
    share = (entries[at].day.toordinal() - first) / (last - first) if last > first else at / (len(entries) - 1)
    return _LEFT + 14.0 + share * (WIDTH - _RIGHT - _LEFT - 28.0)


def _height(scale: float, reach: float) -> float:
    return _TOP + (1.0 - (scale - 1.0) / reach) / 2.0 * (HEIGHT - _TOP - _BOTTOM)
