"""The draw list: everything on one wrap, bottom to top, in flat millimetres as seen.

Its readers are the sheet, the proof, the preview, the checks and later the lists of names; none of them
knows about elements. Items that show beyond the seam stand in the list once a visible lap.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.path import Path
from wrapwright.core.design.placement import Placement

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, eq=False)
class Item:
    """What every item carries.

    Attributes:
        element: index of the element it comes from.
        copy: index of the copy (of `at`) it belongs to.
        opacity: 0..1, its own.
        copy_opacity: 0..1, of the whole copy it belongs to: applied once to all its consecutive items together, so that
            what overlaps within a copy does not show through.
        fields: names of the fields it depends on; empty = shared by every piece.
        clips: paths (nonzero) it is limited to, all of them.
    """

    element: int
    copy: int
    opacity: float = 1.0
    copy_opacity: float = 1.0
    fields: frozenset[str] = frozenset()
    clips: tuple[Path, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedOutline(Item):
    """A shape of one colour: filled, or with stroke_mm a line of that width along the path, round joins and caps."""

    path: Path
    colour: Rgb
    stroke_mm: float = 0.0
    even_odd: bool = False


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedGradient(Item):
    """A change from `start` to `end` over the whole wrap, in linear light.

    `along` is "up" (base to rim), "round" (left end to right end) or degrees clockwise from up, measured in the
    plane of (arc at the band's middle, wall position).
    """

    start: Rgb
    end: Rgb
    along: str | float


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedPicture(Item):
    """Pixels on the wrap.

    Attributes:
        picture: id of the normalised picture.
        placement: where its centre lies and how it is bent.
        width_mm, height_mm: size of the (cropped) picture in local mm before any cut by `fit = cover`.
        crop: left, top, right, bottom as shares of the upright picture.
        flip: mirrored left to right on the element itself (the design's own wish; not the sheet's mirror).
        adjust: changes in CIELAB.
        window_mm: width, height of the part shown (fit = cover shows less than width_mm x height_mm); centred.
        mask: path in local mm, nonzero, or None.
        join_mm: width of the cross-fade at the wrap's ends (width = "wrap"), 0 = none.
        repeat: None, or (step_a, step_b, shift) in local mm, mm, repeats: the picture is a tile that fills the
            wrap, centred on the placement; rows are step_b apart, each moved by shift x step_a from the one below;
            `turn_deg` of each tile is about its own centre.
        tile_turn_deg: own turn of each tile.
    """

    picture: str
    placement: Placement
    width_mm: float
    height_mm: float
    crop: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    flip: bool = False
    adjust: Adjust = field(default_factory=Adjust)
    window_mm: tuple[float, float] = (0.0, 0.0)
    mask: Path | None = None
    join_mm: float = 0.0
    repeat: tuple[float, float, float] | None = None
    tile_turn_deg: float = 0.0


AnyItem = PlacedOutline | PlacedGradient | PlacedPicture


@dataclass(frozen=True, eq=False)
class Extent:
    """Where one copy of an element lies, for the checks, the report and the proof.

    Attributes:
        element, copy: indices as in Item.
        at_deg, up_mm: its centre as asked (angle in [0, 360), mm above the band's lower edge).
        across_mm: on a flat blank, its centre right of the middle.
        width_mm, height_mm: its visible size in local mm.
        lay: "true" or "level", the choice made.
        outline: its visible border on the flat wrap (mask included), before any cut by trim or seam.
        ink: control points' border of what really prints (glyphs, filled shapes); equals outline for pictures.
    """

    element: int
    copy: int
    at_deg: float
    up_mm: float
    width_mm: float
    height_mm: float
    lay: str
    outline: Path
    ink: Path
    across_mm: float = 0.0


@dataclass(frozen=True, eq=False)
class DrawList:
    """A frozen description of one wrap.

    Attributes:
        wrap: the flat wrap.
        bleed_mm: art beyond the trim at rim and base (0 at a handle gap).
        items: bottom to top.
        extents: one row a copy of each element, in element order.
    """

    wrap: FlatWrap
    bleed_mm: float
    items: tuple[AnyItem, ...]
    extents: tuple[Extent, ...] = ()
