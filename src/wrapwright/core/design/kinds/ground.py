"""What every kind of element is laid on, and what it gives back."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

import numpy as np

from wrapwright.core.base.colours import Rgb
from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.design.borders import bleed_outline, touches
from wrapwright.core.design.drawlist import AnyItem, Extent, PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import Adjust, Element
from wrapwright.core.design.path import Path, rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Supplies, Supply

Recolour = Callable[[Rgb, Adjust], Rgb]
Piece = PlacedOutline | PlacedPicture
LAPS = (-1, 0, 1)
STEEPEST_EDGE_DEG = 4.0
DEEPEST_DROOP_MM = 0.5

ASupply = TypeVar("ASupply")


@dataclass(frozen=True, eq=False)
class Ground:
    """The wrap and all that the elements draw on.

    Attributes:
        wrap, bleed_mm: as in DrawList.
        supplies: what the outside made for each element.
        masks: by element index, the filled shape of its mask file in shares of the mask's page, y up.
        recolour: the colour a solid colour becomes by an element's changes in CIELAB.
    """

    wrap: FlatWrap
    bleed_mm: float
    supplies: Supplies
    masks: Mapping[int, Path] = field(default_factory=dict)
    recolour: Recolour | None = None


@dataclass(frozen=True, eq=False)
class Layer:
    """What one element puts on the wrap: items bottom to top, one extent a copy, remarks for the user."""

    items: tuple[AnyItem, ...] = ()
    extents: tuple[Extent, ...] = ()
    remarks: tuple[str, ...] = ()


def stacked(layers: list[Layer]) -> Layer:
    """Return several layers as one, the first lowest."""
    return Layer(
        tuple(item for layer in layers for item in layer.items),
        tuple(extent for layer in layers for extent in layer.extents),
        tuple(remark for layer in layers for remark in layer.remarks),
    )


def supplied(ground: Ground, index: int, kind: type[ASupply], element: Element) -> ASupply:
    """Return what was made for an element; it is our own fault when it is not there."""
    supply: Supply = ground.supplies.get(index)
    if not isinstance(supply, kind):
        raise WrapwrightError(Kind.FAULT, f"nothing was made ready for {element.name} ({kind.__name__}).")
    return supply


def centre_up(ground: Ground, element: Element) -> float:
    """Return the element's centre above the band's lower edge."""
    return ground.wrap.height_mm / 2.0 if element.up_mm is None else element.up_mm


def placed(ground: Ground, element: Element, at_deg: float, lay: str, turn_deg: float) -> Placement:
    """Return where a copy lies, before any lap."""
    turn = ground.wrap.turn_at(at_deg, element.across_mm)
    return Placement(ground.wrap, turn, centre_up(ground, element), lay, turn_deg)


def reach_turns(ground: Ground, heights: Sequence[float]) -> tuple[float, float]:
    """Return the first and last turn that the wrap reaches at any of the heights; a flat blank with its bleed."""
    wrap = ground.wrap
    turns = [end_turns(wrap, height) for height in heights]
    more = 0.0 if wrap.plate is None else 360.0 * ground.bleed_mm / wrap.lower_mm
    return min(turn[0] for turn in turns) - more, max(turn[1] for turn in turns) + more


def half_angle(wrap: FlatWrap, up: float, width_mm: float) -> float:
    """Return half the angle in rad that a rigid element spans on the sheet about the apex, centred at `up`."""
    return math.atan(abs(wrap.theta) * width_mm / 2.0 / wrap.turn_length(up))


def droop(wrap: FlatWrap, up: float, width_mm: float) -> float:
    """Return by how many mm the ends of a straight line lie off the level through its middle: R (1/cos - 1)."""
    half = half_angle(wrap, up, width_mm)
    # R (1/cos h - 1) = (w/2) tan(h/2) for tan h = w/(2R), which keeps its digits on a nearly straight wall.
    return width_mm / 2.0 * math.tan(half / 2.0)


def across(width_mm: float, height_mm: float, turn_deg: float) -> float:
    """Return the width of a turned box."""
    turn = math.radians(turn_deg)
    return abs(width_mm * math.cos(turn)) + abs(height_mm * math.sin(turn))


def picture_lay(ground: Ground, element: Element, asked: str, width_mm: float) -> str:
    """Return `asked`, or for auto "true" while the edge's tilt is at most 4 degrees, else "level"."""
    if asked != "auto":
        return asked
    tilt = math.degrees(half_angle(ground.wrap, centre_up(ground, element), width_mm))
    return "true" if tilt <= STEEPEST_EDGE_DEG else "level"


def text_lay(ground: Ground, element: Element, asked: str, width_mm: float) -> str:
    """Return `asked`, or for auto "true" while the droop at the ends is at most 0.5 mm, else "level"."""
    if asked != "auto":
        return asked
    return "true" if droop(ground.wrap, centre_up(ground, element), width_mm) <= DEEPEST_DROOP_MM else "level"


def box_of(width_mm: float, height_mm: float, middle: tuple[float, float] = (0.0, 0.0)) -> Path:
    """Return a box in local mm round its middle."""
    x, y = middle
    return rectangle(x - width_mm / 2.0, y - height_mm / 2.0, x + width_mm / 2.0, y + height_mm / 2.0)


def lap_motion(wrap: FlatWrap, laps: int) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Return the rigid motion (3x3) of the flat plane by whole turns to the right."""
    return wrap.carried_round(float(laps))


def visible_laps(ground: Ground, outline: Path) -> tuple[int, ...]:
    """Return the laps (-1, 0, 1) at which a shape drawn at lap 0 touches the wrap or its bleed."""
    if ground.wrap.plate is not None:  # nothing goes round
        return (0,) if touches(ground.wrap, outline, ground.bleed_mm) else ()
    return tuple(
        laps
        for laps in LAPS
        if touches(ground.wrap, outline.times(lap_motion(ground.wrap, laps)) if laps else outline, ground.bleed_mm)
    )


def lapped(wrap: FlatWrap, item: Piece, laps: int) -> Piece:
    """Return an item of lap 0 moved by whole turns."""
    if laps == 0:
        return item
    motion = lap_motion(wrap, laps)
    clips = tuple(clip.times(motion) for clip in item.clips)
    if isinstance(item, PlacedPicture):
        return replace(item, clips=clips, placement=replace(item.placement, laps=laps))
    return replace(item, clips=clips, path=item.path.times(motion))


def over_laps(ground: Ground, items: Sequence[Piece], outline: Path) -> tuple[Piece, ...]:
    """Return a copy's items at each lap where its outline shows, lap by lap; shapes that cannot show are left out."""
    border = bleed_outline(ground.wrap, ground.bleed_mm).box()
    shown = [lapped(ground.wrap, item, laps) for laps in visible_laps(ground, outline) for item in items]
    return tuple(item for item in shown if isinstance(item, PlacedPicture) or _may_mark(item, border))


def _may_mark(item: PlacedOutline, border: tuple[float, float, float, float]) -> bool:
    """Return whether an outline's box reaches into a border's box."""
    left, bottom, right, top = item.path.box()
    half = item.stroke_mm / 2.0
    across_it = left - half < border[2] and right + half > border[0]
    return across_it and bottom - half < border[3] and top + half > border[1]
