"""The facts that need no pixels, gathered from a draw list and from what was asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Blank, WrapRequest
from wrapwright.core.checks.facts import (
    BlankFacts,
    CopyFacts,
    ElementFacts,
    Facts,
    KeepoutHit,
)
from wrapwright.core.checks.places import Reach, keepout_hits, reach, room_to_outline
from wrapwright.core.design.drawlist import DrawList, Extent, PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import AnyElement, Code, Fill, Picture, Text, Tile, goes_round, kind_word
from wrapwright.core.design.kinds.code import QUIET_MODULES
from wrapwright.core.design.path import Path
from wrapwright.core.design.supplies import Art, CodeModules, SetText, Supplies


@dataclass(frozen=True, eq=False)
class Asked:
    """What the job asks, as far as checks want to know it.

    Attributes:
        blank, wrap: the job's.
        elements: the job's, in order.
        supplies: what was made ready for each, by index.
        band_from_mm: the band's lower edge on the wall.
        calibrated: whether the printer's scale was measured.
    """

    blank: Blank
    wrap: WrapRequest
    elements: Sequence[AnyElement]
    supplies: Supplies
    band_from_mm: float = 0.0
    calibrated: bool = False


def facts_of(
    draw: DrawList,
    asked: Asked,
    *,
    raised: Sequence[Finding] = (),
) -> Facts:
    """Return the facts of a job that need no pixels; `measured` is empty until a render has been looked at.

    `raised` are the findings that came with the wrap (its fit to the blank) and with the arranged sheets.
    """
    counts: dict[int, int] = {}
    for extent in draw.extents:
        counts[extent.element] = counts.get(extent.element, 0) + 1
    return Facts(
        blank=_blank_facts(draw, asked),
        elements=tuple(
            _element_facts(element, asked.supplies.get(index), _strokes(draw, index))
            for index, element in enumerate(asked.elements)
        ),
        copies=tuple(_copy_facts(draw, asked, extent, counts) for extent in draw.extents),
        raised=tuple(raised),
    )


def _blank_facts(draw: DrawList, asked: Asked) -> BlankFacts:
    return BlankFacts(
        coating=rgb_of(asked.blank.coating),
        has_handle=draw.wrap.gap_mm > 0.0,
        bleed_mm=asked.wrap.bleed_mm,
        safe_mm=asked.wrap.safe_mm,
        band_mm=draw.wrap.height_mm,
        cut=(asked.wrap.rim == "cut", asked.wrap.base == "cut"),
        calibrated=asked.calibrated,
        flat=draw.wrap.plate is not None,
    )


def _strokes(draw: DrawList, index: int) -> list[float]:
    return [
        item.stroke_mm
        for item in draw.items
        if isinstance(item, PlacedOutline) and item.element == index and item.stroke_mm > 0.0
    ]


def _element_facts(element: AnyElement, supply: object, strokes: list[float]) -> ElementFacts:
    kind = kind_word(element)
    if isinstance(element, Text) and isinstance(supply, SetText):
        # Half of the outline's width lies under the glyph.
        line = None if element.outline is None else element.outline.width_mm / 2.0
        return ElementFacts(
            element.name,
            kind,
            cap_height_mm=supply.cap_height_mm,
            stem_mm=supply.stem_mm,
            line_mm=line,
            missing=supply.missing,
            advice=supply.advice,
            text_misfit=supply.misfit,
        )
    if isinstance(element, Code) and isinstance(supply, CodeModules):
        modules = len(supply.dark) + 2 * QUIET_MODULES
        return ElementFacts(element.name, kind, module_mm=element.width_mm / modules)
    if isinstance(supply, Art):
        line = min(strokes, default=None)
        pixels = supply.kind == "pixels"
        profile, space = supply.profile, supply.space
        return ElementFacts(element.name, kind, art_profile=profile, art_pixels=pixels, art_space=space, line_mm=line)
    return ElementFacts(element.name, kind)


def _copy_facts(draw: DrawList, asked: Asked, extent: Extent, counts: Mapping[int, int]) -> CopyFacts:
    element = asked.elements[extent.element]
    wrap, wide = draw.wrap, goes_round(element)
    # A code's quiet zone has to stay whole as well; of the rest only what prints matters.
    path = extent.outline if isinstance(element, Code) or not extent.ink.subpaths else extent.ink
    found = reach(wrap, path) or Reach(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    low, high = (0.0, wrap.height_mm) if isinstance(element, Fill | Tile) else (found.low_mm, found.high_mm)
    circle = wrap.turn_length(extent.up_mm)
    flat = wrap.plate is not None
    span = 0.0 if flat else min(360.0, found.last_turn - found.first_turn)
    return CopyFacts(
        element=element.name,
        kind=kind_word(element),
        copy=extent.copy,
        of=counts[extent.element],
        at_deg=extent.at_deg,
        wide=wide,
        span_deg=span,
        span_mm=span / 360.0 * circle,
        round_mm=circle,
        room_rim_mm=wrap.height_mm - high,
        room_base_mm=low,
        room_left_mm=found.left_mm,
        room_right_mm=found.right_mm,
        room_trim_mm=room_to_outline(wrap, path) if flat else None,
        keepouts=_hits(wrap, asked, path, (low, high), wide=wide),
        uncoated_mm=_uncoated_mm(asked, max(0.0, low), min(wrap.height_mm, high)),
        on_fill=any(isinstance(one, Fill) and one.opacity == 1.0 for one in asked.elements[: extent.element]),
        ppi=_least_ppi(draw, asked, extent),
        stretch=_stretch(element, extent, asked.supplies.get(extent.element)),
    )


def _hits(
    wrap: FlatWrap, asked: Asked, path: Path, heights: tuple[float, float], *, wide: bool
) -> tuple[KeepoutHit, ...]:
    """Return the keep-outs a copy prints on; what goes all round prints on every one it is tall enough for."""
    keepouts = asked.blank.keepouts
    if not wide:
        return keepout_hits(wrap, path, keepouts, asked.band_from_mm)
    hits = []
    for one in keepouts:
        up = one.up_mm - asked.band_from_mm
        low = max(0.0, heights[0], up - one.height_mm / 2.0)
        high = min(wrap.height_mm, heights[1], up + one.height_mm / 2.0)
        if high > low:
            hits.append(KeepoutHit(one.why or "keep-out", (high - low) * one.width_mm))
    return tuple(hits)


def _uncoated_mm(asked: Asked, low: float, high: float) -> float:
    """Return how much of a height inside the band lies on wall that takes no dye."""
    if asked.blank.coated is None or high <= low:
        return 0.0
    start, end = (edge - asked.band_from_mm for edge in asked.blank.coated)
    return max(0.0, min(high, start) - low) + max(0.0, high - max(low, end))


def _least_ppi(draw: DrawList, asked: Asked, extent: Extent) -> float | None:
    """Return the least effective ppi of a copy's pixel pictures, or None when it has none."""
    art = asked.supplies.get(extent.element)
    if not isinstance(art, Art) or art.kind != "pixels":
        return None
    figures = [
        effective_ppi(item, art)
        for item in draw.items
        if isinstance(item, PlacedPicture) and (item.element, item.copy) == (extent.element, extent.copy)
    ]
    return min(figures, default=None)


def effective_ppi(item: PlacedPicture, art: Art) -> float:
    """Return pixels per inch of a placed picture, the smaller axis at its worst point.

    A `level` picture on a taper is widest where the wall is: there its pixels lie apart by the ratio of the turns.
    """
    left, top, right, bottom = item.crop
    across = art.width * (right - left) / (item.width_mm / 25.4)
    along = art.height * (bottom - top) / (item.height_mm / 25.4)
    place = item.placement
    if place.lay == "level":
        half = (item.window_mm[1] or item.height_mm) / 2.0
        turns = [place.wrap.turn_length(place.up_mm + side) for side in (-half, half)]
        across /= max(1.0, max(turns) / place.wrap.turn_length(place.up_mm))
    return float(min(across, along))


def _stretch(element: AnyElement, extent: Extent, art: object) -> float:
    """Return by how much `fit = stretch` changes a picture's proportions, 1 = not at all."""
    if not isinstance(element, Picture) or not isinstance(art, Art) or element.fit != "stretch":
        return 1.0
    left, top, right, bottom = element.crop
    own = art.width * (right - left) / (art.height * (bottom - top))
    wide = element.width_mm is not None or element.wrap_width
    if not wide or element.height_mm is None or extent.height_mm <= 0.0 or extent.width_mm <= 0.0:
        return 1.0
    ratio = extent.width_mm / extent.height_mm / own
    return max(ratio, 1.0 / ratio)
