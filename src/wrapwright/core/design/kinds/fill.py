"""A fill: the whole wrap with its bleed in one colour or a change of colour."""

from __future__ import annotations

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import Extent, PlacedGradient, PlacedOutline
from wrapwright.core.design.elements import Fill
from wrapwright.core.design.kinds.ground import Ground, Layer


def lay_fill(index: int, element: Fill, ground: Ground) -> Layer:
    """Return one item over the whole wrap, rim and base bleed in, and its one extent."""
    wrap = ground.wrap
    border = bleed_outline(wrap, ground.bleed_mm)
    item: PlacedOutline | PlacedGradient
    if element.gradient is not None and element.colour is None:
        change = element.gradient
        start, end = rgb_of(change.start, where=element.name), rgb_of(change.end, where=element.name)
        item = PlacedGradient(element=index, copy=0, opacity=element.opacity, start=start, end=end, along=change.along)
    elif element.colour is not None and element.gradient is None:
        colour = rgb_of(element.colour, where=element.name)
        item = PlacedOutline(element=index, copy=0, opacity=element.opacity, path=border, colour=colour)
    else:
        raise unusable("a fill needs either a colour or a gradient, not both.", where=element.name)
    return Layer((item,), (whole_wrap(index, ground),))


def whole_wrap(index: int, ground: Ground) -> Extent:
    """Return the extent of something that covers the whole wrap: its middle, overlap in, and the band's height."""
    wrap = ground.wrap
    middle = wrap.height_mm / 2.0
    left, right = end_turns(wrap, middle)
    border = bleed_outline(wrap, ground.bleed_mm)
    return Extent(
        element=index,
        copy=0,
        at_deg=wrap.at_of((left + right) / 2.0),
        up_mm=middle,
        width_mm=(right - left) / 360.0 * wrap.turn_length(middle),
        height_mm=wrap.height_mm,
        lay="level",
        outline=border,
        ink=border,
    )
