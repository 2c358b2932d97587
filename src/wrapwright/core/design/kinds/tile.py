"""A tile: a picture repeated over the whole wrap so that a whole number goes round."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import Tile
from wrapwright.core.design.kinds.art import PLAIN, Sizing, painter, solid_items
from wrapwright.core.design.kinds.fill import whole_wrap
from wrapwright.core.design.kinds.ground import Ground, Layer, across, centre_up, reach_turns, supplied
from wrapwright.core.design.path import Path, joined
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Art
from wrapwright.core.design.warp import bent

MOST_REPEATS = 20_000
MUCH = 0.1  # a change of size that is seen; common practice, no source


@dataclass(frozen=True)
class Repeat:
    """How a tile repeats, in local mm of its placement.

    Attributes:
        count: repeats in one whole turn; a whole number unless the blank is flat.
        scale: size as laid over size as asked, both at the band's middle level.
        width_mm, height_mm: one picture.
        step_a, step_b: from one repeat to the next along the level, and from row to row.
        shift: by how many repeats each row is moved from the one below.
    """

    count: float
    scale: float
    width_mm: float
    height_mm: float
    step_a: float
    step_b: float
    shift: float


def lay_tile(index: int, element: Tile, ground: Ground) -> Layer:
    """Return the pattern: one picture with its repeat, or one outline a shape for all its repeats.

    One repeat is centred on the element's first angle and height. The change of size that closes the pattern at
    the seam is said in a remark.
    """
    art = supplied(ground, index, Art, element)
    wrap = ground.wrap
    at = element.at_deg[0] if element.at_deg else 0.0
    placement = Placement(wrap, wrap.turn_at(at, element.across_mm), centre_up(ground, element), "level")
    repeat = closing_repeat(wrap, element, art.height / art.width, placement.up_mm)
    if art.kind == "outlines":
        items: tuple[PlacedOutline | PlacedPicture, ...] = _solid_tiles(
            index, element, art, (placement, repeat), ground
        )
    else:
        items = (_pixel_tiles(index, element, art, placement, repeat),)
    remarks = () if wrap.plate is not None else (_remark(element, repeat, wrap),)
    return Layer(items, (whole_wrap(index, ground),), remarks)


def _remark(element: Tile, repeat: Repeat, wrap: FlatWrap) -> str:
    asked, laid = element.width_mm, element.width_mm * repeat.scale
    said = "1 repeat goes" if repeat.count == 1 else f"{repeat.count} repeats go"
    remark = (
        f"{element.name}: {said} round; each is laid {laid:.2f} mm wide instead of {asked:.2f} mm "
        f"({100.0 * (repeat.scale - 1.0):+.1f} %) so that the pattern closes at the seam."
    )
    if abs(repeat.scale - 1.0) <= MUCH:
        return remark
    middle = wrap.turn_length(wrap.height_mm / 2.0)
    few = max(1, math.floor(middle / (asked + element.gap_mm)))
    widths = [(count, middle / count - element.gap_mm) for count in (few, few + 1)]
    good = " or ".join(f"{width:.2f} mm ({count} round)" for count, width in widths if width > 0.0)
    return f"{remark} That is much: over {100.0 * MUCH:g} %." + (
        f" Without a change of size it closes at a width of {good}." if good else ""
    )


def closing_repeat(wrap: FlatWrap, element: Tile, aspect: float, up: float) -> Repeat:
    """Return the repeat nearest in size to the one asked of which a whole number goes round.

    On a flat blank it is the one asked.

    The number is counted at the band's middle level. Local mm along the level are arcs at `up`, so on a taper
    widths are carried there from the middle level.
    """
    step = element.width_mm + element.gap_mm
    if element.width_mm <= 0.0 or step <= 0.0:
        raise unusable(f"a repeat of {step:g} mm cannot be laid.", remedy="Give a width above 0.", where=element.name)
    middle = wrap.turn_length(wrap.height_mm / 2.0)
    exact = middle / step
    few = max(1, math.floor(exact))
    count: float = few if exact / few <= (few + 1) / exact else few + 1
    if wrap.plate is not None:
        count = exact  # nothing closes: the repeat stays as it is asked
    scale = exact / count
    carried = wrap.turn_length(up) / middle
    height = element.width_mm * aspect * scale
    return Repeat(
        count=count,
        scale=scale,
        width_mm=element.width_mm * scale * carried,
        height_mm=height,
        step_a=wrap.turn_length(up) / count,
        step_b=height + element.gap_mm * scale,
        shift=element.shift,
    )


def _pixel_tiles(index: int, element: Tile, art: Art, placement: Placement, repeat: Repeat) -> PlacedPicture:
    return PlacedPicture(
        element=index,
        copy=0,
        opacity=element.opacity,
        picture=art.id,
        placement=placement,
        width_mm=repeat.width_mm,
        height_mm=repeat.height_mm,
        window_mm=(repeat.width_mm, repeat.height_mm),
        repeat=(repeat.step_a, repeat.step_b, repeat.shift),
        tile_turn_deg=element.turn_deg,
    )


def _solid_tiles(
    index: int, element: Tile, art: Art, laid: tuple[Placement, Repeat], ground: Ground
) -> tuple[PlacedOutline, ...]:
    """Return each shape of the art once, as the outline of all its repeats, limited to the bleed outline.

    A row's repeats are one bent shape turned about the apex, so each row is bent once.
    """
    placement, repeat = laid
    wrap = ground.wrap
    rows = _rows(element, repeat, placement, ground)
    columns = {row: _columns(element, repeat, placement, row, ground) for row in rows}
    if sum(len(some) for some in columns.values()) > MOST_REPEATS:
        raise unusable(
            f"a repeat of {element.width_mm:g} mm gives more than {MOST_REPEATS} tiles.",
            remedy="Make the tile wider.",
            where=element.name,
        )
    sizing = Sizing(repeat.width_mm, repeat.height_mm, (repeat.width_mm, repeat.height_mm))
    turn = _turn_matrix(element.turn_deg)
    paint = painter(ground, PLAIN)

    def everywhere(path: Path) -> Path:
        turned = path.times(turn)
        tiles = []
        for row in rows:
            shift = np.array([[1.0, 0.0, repeat.shift * row * repeat.step_a], [0, 1, row * repeat.step_b], [0, 0, 1]])
            first = bent(turned.times(shift), placement)
            tiles += [first.times(wrap.carried_round(column / repeat.count)) for column in columns[row]]
        return joined(tiles)

    rim = bleed_outline(wrap, ground.bleed_mm)
    return tuple(
        replace(item, element=index, copy_opacity=element.opacity, clips=(*item.clips, rim))
        for item in solid_items(art, sizing, everywhere, paint=paint, clip=None)
    )


def _turn_matrix(degrees: float) -> NDArray[np.float64]:
    """Return a turn clockwise as seen."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.array([[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]])


def _rows(element: Tile, repeat: Repeat, placement: Placement, ground: Ground) -> range:
    """Return the rows that reach into the band or its bleed; row 0 is centred on the placement."""
    half = across(repeat.height_mm, repeat.width_mm, element.turn_deg) / 2.0
    low = -ground.bleed_mm - placement.up_mm - half
    high = ground.wrap.height_mm + ground.bleed_mm - placement.up_mm + half
    return range(math.ceil(low / repeat.step_b - 1e-9), math.floor(high / repeat.step_b + 1e-9) + 1)


def _columns(element: Tile, repeat: Repeat, placement: Placement, row: int, ground: Ground) -> range:
    """Return the columns of a row that reach between the two ends."""
    first, last = reach_turns(ground, (-ground.bleed_mm, ground.wrap.height_mm + ground.bleed_mm))
    left, right = first - placement.turn, last - placement.turn
    half = across(repeat.width_mm, repeat.height_mm, element.turn_deg) / 2.0 / repeat.step_a
    start = repeat.shift * row
    low, high = left / 360.0 * repeat.count - start - half, right / 360.0 * repeat.count - start + half
    return range(math.ceil(low - 1e-9), math.floor(high + 1e-9) + 1)
