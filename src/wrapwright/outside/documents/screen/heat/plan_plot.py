"""One load in its heater: air, wall and coating over time with their bands, and below how long n pieces want."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wrapwright.core.base.heat_words import celsius_words
from wrapwright.core.press.load.telling import minutes, minutes_words, pieces_words, span_words
from wrapwright.core.press.load.values import Recommended, Span
from wrapwright.core.press.values import Curve
from wrapwright.outside.documents.screen.heat.axes import ABOVE, LEFT, Field, foot, ruled, uprights
from wrapwright.outside.documents.screen.svg import (
    Point,
    chain,
    dot,
    drawing,
    figure,
    shape,
    standing_alone,
    wide,
    words,
)

WIDTH, FIELD_HEIGHT = 720.0, 250.0
_ROW, _GAP, _FOOT = 17.0, 30.0, 26.0
_MOST_POINTS = 180  # of a curve: about one every three px
_MOST_ROWS = 12
_WARM = "at temperature"


@dataclass(frozen=True)
class PlanPicture:
    """What the plot shows.

    Attributes:
        title: the load in words.
        set_c: what the heater is set to.
        pieces: of the load.
        dwell_s: how long the pieces stay.
        band: how long they may want; None when the dwell was given, not reckoned.
        to_temperature_s: when the coating is at temperature; infinite for never.
        air, wall, coating: with their bands.
        rows: how long n pieces want, n rising.
        door: whether it is an oven, with air in it; else a press with its element.
    """

    title: str
    set_c: float
    pieces: int
    dwell_s: float
    band: Span | None
    to_temperature_s: float
    air: Curve
    wall: Curve
    coating: Curve
    rows: tuple[Recommended, ...] = ()
    door: bool = True


def plan_plot(picture: PlanPicture, *, alone: bool = False) -> str:
    """Return the plot as SVG: with the page's tokens, or `alone` with its own colours for a file."""
    rows = shown_rows(picture.rows, picture.pieces)
    field = _field(picture)
    below = field.bottom + (_GAP + _ROW * len(rows) if rows else 0.0)
    parts = [
        *uprights(field, ABOVE, below),
        *ruled(field),
        words(picture.title, (LEFT, ABOVE - 14.0), "wd-strong f-ink", anchor="start"),
        *_band(field, picture.air, "ink-3", 0.10),
        *_band(field, picture.coating, "heat", 0.18),
        *_dwell(field, picture, below),
        _line(field, picture.air, "wd-thin s-ink-3"),
        _line(field, picture.wall, "wd-hair wd-dash s-ink-2"),
        _line(field, picture.coating, "wd-thick s-heat"),
        *_key(field, picture),
        *_pieces(field, rows, picture.pieces),
        *foot(field, below + 12.0),
    ]
    make = standing_alone if alone else drawing
    return make(WIDTH, below + _FOOT, parts, spoken=plan_spoken(picture))


def plan_spoken(picture: PlanPicture) -> str:
    """Return the plot in words."""
    said = [f"{picture.title}."]
    if math.isfinite(picture.to_temperature_s):
        said.append(f"The coating is at temperature after {minutes_words(picture.to_temperature_s)}.")
    if picture.band is not None and math.isfinite(picture.band.mid):
        low, mid, high = picture.band.low, picture.band.mid, picture.band.high
        said.append(f"It wants about {minutes_words(mid)}, between {span_words(low, high)}.")
    known = [one for one in picture.rows if math.isfinite(one.dwell_s.mid)]
    if len(known) > 1:
        said.append(
            f"{pieces_words(known[0].pieces)} {minutes_words(known[0].dwell_s.mid)}, "
            f"{pieces_words(known[-1].pieces)} {minutes_words(known[-1].dwell_s.mid)}."
        )
    return " ".join(said)


def shown_rows(rows: Sequence[Recommended], pieces: int) -> tuple[Recommended, ...]:
    """Return the rows that have room: all, or evenly chosen ones with the first, the last and the asked one."""
    if len(rows) <= _MOST_ROWS:
        return tuple(rows)
    step = (len(rows) - 1) / (_MOST_ROWS - 2)
    kept = {round(step * number) for number in range(_MOST_ROWS - 1)} | {
        at for at, one in enumerate(rows) if one.pieces == pieces
    }
    return tuple(rows[at] for at in sorted(kept))


def _field(picture: PlanPicture) -> Field:
    """Return a field that holds the curves, and the dwells as far as they are not many times as long."""
    last = picture.coating.times_s[-1]
    dwells = [one.dwell_s.mid for one in picture.rows if math.isfinite(one.dwell_s.mid)]
    longest = max([last, picture.dwell_s, *dwells])
    top = max(picture.set_c, *picture.air.high_c, *picture.coating.high_c, *picture.air.mid_c)
    return Field(WIDTH, FIELD_HEIGHT, longest * 1.02, 0.0, math.ceil((top + 5.0) / 50.0) * 50.0)


def _thinned(curve: Curve) -> range:
    count = len(curve.times_s)
    step = max(1, math.ceil(count / _MOST_POINTS))
    return range(0, count, step)


def _points(field: Field, curve: Curve, heights: Sequence[float]) -> list[Point]:
    at = [*_thinned(curve)]
    if at[-1] != len(curve.times_s) - 1:
        at.append(len(curve.times_s) - 1)
    return [field.at(curve.times_s[one], heights[one]) for one in at]


def _line(field: Field, curve: Curve, how: str) -> str:
    return shape(chain(_points(field, curve, curve.mid_c)), how)


def _band(field: Field, curve: Curve, token: str, share: float) -> list[str]:
    if not curve.low_c or not curve.high_c:
        return []
    ring = _points(field, curve, curve.high_c) + _points(field, curve, curve.low_c)[::-1]
    return [f'<path class="f-{token}" fill-opacity="{figure(share)}" d="{chain(ring, closed=True)}"/>']


def _dwell(field: Field, picture: PlanPicture, below: float) -> list[str]:
    """Return where the coating is at temperature and where the dwell ends, with its band."""
    parts = []
    left, y = field.at(0.0, picture.set_c)
    parts.append(shape(chain([(left, y), (field.right, y)]), "wd-thin wd-dash s-accent"))
    above = max(_late(picture.air), _late(picture.coating), picture.set_c)
    label = f"set {celsius_words(picture.set_c)}"
    place = (field.right - 6.0, field.at(0.0, above)[1] - 10.0)
    parts.append(words(label, place, "wd-small wd-halo f-accent", anchor="end"))
    if math.isfinite(picture.to_temperature_s) and picture.to_temperature_s < field.most_s:
        x = field.across(picture.to_temperature_s)
        parts.append(shape(chain([(x, field.bottom), (x, field.bottom - 16.0)]), "wd-hair s-heat"))
        late = picture.dwell_s < picture.to_temperature_s and x + wide(_WARM, size=11.0) < field.right
        beside, anchor = (x + 5.0, "start") if late else (x - 5.0, "end")
        parts.append(words(_WARM, (beside, field.bottom - 10.0), "wd-small wd-halo f-heat", anchor=anchor))
    if math.isfinite(picture.dwell_s):
        x = field.across(picture.dwell_s)
        parts.append(shape(chain([(x, ABOVE), (x, below)]), "wd-hair s-accent"))
    return parts


def _late(curve: Curve) -> float:
    """Return the highest temperature of a curve's last fifth, its band with it."""
    heights = curve.high_c or curve.mid_c
    return max(heights[-max(1, len(heights) // 5) :])


def _key(field: Field, picture: PlanPicture) -> list[str]:
    """Return the names of the curves, above the field at its right."""
    parts, x = [], field.right
    for name, how, dashed in (
        ("air" if picture.door else "element", "s-ink-3 wd-thin", False),
        ("wall", "s-ink-2 wd-hair", True),
        ("coating", "s-heat wd-thick", False),
    ):
        parts.append(words(name, (x, ABOVE - 14.0), "wd-small", anchor="end"))
        x -= wide(name, size=11.5) + 5.0
        dash = " wd-dash" if dashed else ""
        parts.append(shape(chain([(x - 20.0, ABOVE - 14.0), (x, ABOVE - 14.0)]), how + dash))
        x -= 34.0
    return parts


def _pieces(field: Field, rows: Sequence[Recommended], asked: int) -> list[str]:
    """Return how long n pieces want, a row each on the same minutes."""
    if not rows:
        return []
    top = field.bottom + _GAP
    head = "dwell" if len(rows) == 1 else "dwell, by how many pieces are heated together"
    parts = [words(head, (LEFT, field.bottom + 13.0), "wd-small", anchor="start")]
    for number, row in enumerate(rows):
        y = top + _ROW * number + _ROW / 2.0
        here = row.pieces == asked
        parts.append(
            words(str(row.pieces), (LEFT - 8.0, y), "wd-small" + (" wd-strong f-ink" if here else ""), anchor="end")
        )
        parts += _row(field, row, y, token="accent" if here else "ink-3")
    return parts


def _row(field: Field, row: Recommended, y: float, *, token: str) -> list[str]:
    span = row.dwell_s
    if not math.isfinite(span.mid):
        return [words("not within an hour", (LEFT + 8.0, y), "wd-small f-warn", anchor="start")]
    low, mid, high = field.across(span.low), field.across(span.mid), field.across(span.high)
    wide_px = figure(max(1.0, high - low))
    place_px = f'x="{figure(low)}" y="{figure(y - 3.5)}" width="{wide_px}" height="7"'
    bar = f'<rect class="f-{token}" fill-opacity="0.28" {place_px}/>'
    how = "wd-small wd-strong f-ink" if token == "accent" else "wd-small"
    label = words(f"{minutes(span.mid)} min", (field.right + 9.0, y), how, anchor="start")
    return [bar, dot((mid, y), 4.0, f"f-{token}"), label]
