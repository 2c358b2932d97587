"""Text: the line round the glyphs below, the glyphs above."""

from __future__ import annotations

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.design.drawlist import Extent, PlacedOutline
from wrapwright.core.design.elements import Text
from wrapwright.core.design.fields import field_names
from wrapwright.core.design.kinds.ground import (
    Ground,
    Layer,
    across,
    box_of,
    over_laps,
    placed,
    stacked,
    supplied,
    text_lay,
)
from wrapwright.core.design.path import Path, joined, rectangle
from wrapwright.core.design.supplies import SetText
from wrapwright.core.design.warp import bent


def lay_text(index: int, element: Text, ground: Ground) -> Layer:
    """Return a text's items and extents, copy by copy. The lay goes by the width that the glyphs really take."""
    text = supplied(ground, index, SetText, element)
    left, bottom, right, top = text.path.box()
    size = (right - left, top - bottom) if text.path.subpaths else (text.width_mm, text.height_mm)
    lay = text_lay(ground, element, element.lay, across(*size, element.turn_deg))
    return stacked([_copy(index, copy, (element, text, lay), ground) for copy in range(len(element.at_deg))])


def _copy(index: int, copy: int, job: tuple[Text, SetText, str], ground: Ground) -> Layer:
    element, text, lay = job
    at = element.at_deg[copy]
    placement = placed(ground, element, at, lay, element.turn_deg)
    stroke = element.outline.width_mm if element.outline is not None else 0.0
    border = box_of(text.width_mm, text.height_mm, text.centre_mm)
    # Bent in one go, for a list of names has many of them: the glyphs, the block's border, and what may be reached.
    together = bent(joined((text.path, border, _reach(text.path, stroke))), placement).subpaths
    ink, outline, reach = Path(together[:-2]), Path(together[-2:-1]), Path(together[-1:])
    items: list[PlacedOutline] = []
    if ink.subpaths:
        fields = field_names(element.text, where=element.name)
        if element.outline is not None and stroke > 0.0:
            line = rgb_of(element.outline.colour, where=element.name)
            items.append(_item(index, copy, element, ink, (line, stroke), fields))
        items.append(_item(index, copy, element, ink, (rgb_of(element.colour, where=element.name), 0.0), fields))
    extent = Extent(
        element=index,
        copy=copy,
        at_deg=at % 360.0,
        across_mm=element.across_mm,
        up_mm=placement.up_mm,
        width_mm=text.width_mm,
        height_mm=text.height_mm,
        lay=lay,
        outline=outline,
        ink=ink,
    )
    return Layer(over_laps(ground, items, reach), (extent,))


def _item(
    index: int,
    copy: int,
    element: Text,
    ink: Path,
    paint: tuple[tuple[float, float, float], float],
    fields: frozenset[str],
) -> PlacedOutline:
    return PlacedOutline(
        element=index,
        copy=copy,
        copy_opacity=element.opacity,
        fields=fields,
        path=ink,
        colour=paint[0],
        stroke_mm=paint[1],
    )


def _reach(path: Path, stroke: float) -> Path:
    """Return the box in local mm that the glyphs and the line round them can reach."""
    left, bottom, right, top = path.box()
    half = stroke / 2.0
    return rectangle(left - half, bottom - half, right + half, top + half)
