"""The blank from the side, a flat one from above, from its own numbers: small for the shelf, large with dimensions."""

from __future__ import annotations

import math
from itertools import pairwise

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.base.places import place_words
from wrapwright.core.blank.readings import Blank, Keepout
from wrapwright.core.blank.wrapped import Wrapped
from wrapwright.outside.documents.screen.lengths import Unit, said
from wrapwright.outside.documents.screen.plate_drawing import large_plate, small_plate
from wrapwright.outside.documents.screen.side_view import OPEN, SideView, extent_mm, handle_shape, side_view
from wrapwright.outside.documents.screen.svg import Point, arrowed, chain, drawing, shape, words

SMALL = (132.0, 132.0)
_EDGE = 4.0
_SIDE, _RIGHT, _ABOVE, _BELOW = 92.0, 24.0, 40.0, 58.0  # room for dimensions round the large form, px
_MOST_GIRTHS = 9  # girths written beside a profile
_APART = 16.0  # least distance of two lines of words, px


def small_blank(blank: Blank, wrapped: Wrapped, *, name: str = "") -> str:
    """Return the shelf's drawing: the blank with its band, without words, 132 px square."""
    if wrapped.wrap.plate is not None:
        return small_plate(blank, wrapped, size=SMALL, name=name)
    room = (_EDGE, _EDGE, SMALL[0] - 2 * _EDGE, SMALL[1] - 2 * _EDGE)
    view = side_view(blank, wrapped, room)
    return drawing(*SMALL, _body(blank, wrapped, view), spoken=spoken(blank, wrapped, "mm", name=name))


def large_blank(blank: Blank, wrapped: Wrapped, *, unit: Unit, size: tuple[float, float]) -> str:
    """Return the measuring drawing, `size[0]` px wide and at most `size[1]` high: band, handle and dimensions."""
    if wrapped.wrap.plate is not None:
        return large_plate(blank, wrapped, unit=unit, size=size)
    side = min(_SIDE, 0.27 * size[0])
    right = side if len(wrapped.profile) > 2 else _RIGHT
    across, up = size[0] - side - right, size[1] - _ABOVE - _BELOW
    wide, tall = extent_mm(blank, wrapped)
    up = min(up, tall * across / wide)
    size = (size[0], up + _ABOVE + _BELOW)
    view = side_view(blank, wrapped, (side, _ABOVE, across, up))
    parts = [*_body(blank, wrapped, view), *_girths(wrapped, view, unit), *_walls(wrapped, view, unit)]
    eye = place_words(round(view.eye_deg, 1))
    parts.append(words(f"seen from the {eye}", (view.middle, size[1] - 9.0), "wd-small"))
    return drawing(*size, parts, spoken=spoken(blank, wrapped, unit))


def spoken(blank: Blank, wrapped: Wrapped, unit: Unit, *, name: str = "") -> str:
    """Return the drawing in one sentence."""
    kinds = {"straight": "Straight blank", "tapered": "Tapered blank", "profile": "Bulging blank"}
    bottom, top = wrapped.girth_bottom_mm, wrapped.girth_top_mm
    girths = (
        f"girth {said(bottom, unit)}"
        if wrapped.kind == "straight"
        else f"girth {said(bottom, unit)} at the bottom and {said(top, unit)} at the top"
    )
    handle = f", handle at {place_words(blank.handle.at_deg)}" if blank.handle else ""
    band = f"band {said(wrapped.band_height_mm, unit)} high from {said(wrapped.band_from_mm, unit)} up"
    return f"{name or kinds[blank.kind]}: {girths}, wall {said(wrapped.wall_mm, unit)}{handle}; {band}."


def _body(blank: Blank, wrapped: Wrapped, view: SideView) -> list[str]:
    low, high = view.positions[0], view.positions[-1]
    start, end = wrapped.band_from_mm, wrapped.band_from_mm + wrapped.band_height_mm
    parts = []
    if blank.handle:
        parts.append(shape(handle_shape(view), "wd-hair s-ink-2", fill=blank.coating, even_odd=True))
    parts.append(shape(chain(view.stretch(low, high), closed=True), "wd-hair s-ink-2", fill=blank.coating))
    if wrapped.band_height_mm < wrapped.wall_mm - 0.05:
        on = _ON_DARK if _is_dark(blank.coating) else _ON_LIGHT
        parts += [shape(chain(view.ring(edge, front=True)), "wd-thin wd-dash", stroke=on) for edge in (start, end)]
    for one in blank.keepouts:
        parts += _keepout(one, view)
    rim = chain([*view.ring(high, front=True), *reversed(view.ring(high, front=False))], closed=True)
    parts.append(shape(rim, "wd-hair s-ink-2 f-panel"))
    parts.append(_band_bar(view, start, end))
    return parts


# Lines on a coating are its own contrast, whatever the page's colours are.
_ON_LIGHT, _ON_DARK = "#4d5a57", "#e4eae8"


def _is_dark(coating: str) -> bool:
    red, green, blue = rgb_of(coating)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue < 0.45


def _band_bar(view: SideView, start: float, end: float) -> str:
    """Return the band as a bar on the drawing's left outline."""
    inner = [at for at in view.positions if start < at < end]
    points = [view.side(at, -1.0) for at in (start, *inner, end)]
    return shape(chain([(x - 3.0, y) for x, y in points]), "wd-hair s-accent", width=3.0)


def _keepout(one: Keepout, view: SideView) -> list[str]:
    half = math.degrees(one.width_mm * view.scale / 2.0 / view.radius(one.up_mm))
    low, high = one.up_mm - one.height_mm / 2.0, one.up_mm + one.height_mm / 2.0
    turns = [one.at_deg - half + 2.0 * half * step / 8.0 for step in range(9)]
    lower = [view.place(turn, low) for turn in turns]
    upper = [view.place(turn, high) for turn in turns]
    seen: list[Point] = [place for place in (*lower, *reversed(upper)) if place is not None]
    return [shape(chain(seen, closed=True), "wd-hair s-bad")] if len(seen) > 2 else []


def _girths(wrapped: Wrapped, view: SideView, unit: Unit) -> list[str]:
    """Return what was read round: above and below a plain wall, beside each reading of a profile."""
    high, low = view.positions[-1], view.positions[0]
    if len(wrapped.profile) > 2:
        return _profile_girths(wrapped, view, unit)
    top = view.level(high) - OPEN * view.radius(high)
    parts = _round_mark(view, high, top - 20.0, _girth_words(wrapped.girth_top_mm, unit), above=True)
    if wrapped.kind != "straight":
        bottom = view.level(low) + OPEN * view.radius(low)
        parts += _round_mark(view, low, bottom + 20.0, _girth_words(wrapped.girth_bottom_mm, unit), above=False)
    return parts


def _girth_words(girth: float, unit: Unit) -> str:
    return f"round {said(girth, unit)}  ·  ⌀ {said(girth / math.pi, unit)}"


def _round_mark(view: SideView, position: float, y: float, text: str, *, above: bool) -> list[str]:
    """Return an arc with heads that follows the ring at a position, and its words beyond it."""
    off = -5.0 if above else 5.0
    ring = [(x, py + off) for x, py in view.ring(position, front=not above)]
    return [arrowed(ring), words(text, (view.middle, y), "wd-strong")]


def _profile_girths(wrapped: Wrapped, view: SideView, unit: Unit) -> list[str]:
    step = max(1, math.ceil(len(wrapped.profile) / _MOST_GIRTHS))
    chosen = list(wrapped.profile)[::step]
    if chosen[-1] != wrapped.profile[-1]:
        chosen[-1] = wrapped.profile[-1]
    edge = view.middle + max(view.radius(at) for at in view.positions) + 12.0
    parts, last = [], math.inf
    for at, girth in chosen:
        x, y = view.side(at, 1.0)
        said_at = min(y, last - _APART)
        last = said_at
        parts.append(shape(chain([(x + 2.0, y), (edge - 4.0, y), (edge + 4.0, said_at)]), "wd-thin s-ink-3"))
        parts.append(words(said(girth, unit), (edge + 8.0, said_at), "wd-strong", anchor="start"))
    parts.append(words("round", (edge + 8.0, last - _APART), "wd-small", anchor="start"))
    return parts


def _walls(wrapped: Wrapped, view: SideView, unit: Unit) -> list[str]:
    """Return the dimensions along the wall: the band and what is left bare, then the whole wall."""
    low, high = view.positions[0], view.positions[-1]
    start, end = wrapped.band_from_mm, wrapped.band_from_mm + wrapped.band_height_mm
    widest = max(view.radius(at) for at in view.positions)
    x = view.middle - widest - 16.0
    stops = [low, start, end, high] if end - start < high - low - 0.05 else [low, high]
    parts = []
    for bottom, top in pairwise(stops):
        if top - bottom > 0.05:
            parts += _upright(view, x, (bottom, top), said(top - bottom, unit), strong=len(stops) == 2)
    if len(stops) > 2:
        parts += _upright(view, x - 30.0, (low, high), said(high - low, unit), strong=True)
    return parts


def _upright(view: SideView, x: float, ends: tuple[float, float], text: str, *, strong: bool) -> list[str]:
    """Return an upright dimension with its ticks to the wall and its words turned along it."""
    bottom, top = view.level(ends[0]), view.level(ends[1])
    ticks = [shape(chain([(x - 4.0, y), (x + 6.0, y)]), "wd-thin s-ink-3") for y in (bottom, top)]
    head = min(6.0, 0.4 * (bottom - top))
    middle, how = (bottom + top) / 2.0, "wd-strong" if strong else ""
    if bottom - top < 8.0 * len(text):  # too short for words along it: they stand level beside it
        said_there = words(text, (x - 7.0, middle), f"{how} wd-halo", anchor="end")
    else:
        said_there = words(text, (x - 11.0, middle), how, turn_deg=-90.0)
    return [*ticks, arrowed([(x, bottom), (x, top)], head=head), said_there]
