"""What a screen gets of a design: plain frozen values, ready to be sent.

All places are in canvas millimetres: x to the viewer's right as on the flat wrap, y DOWN (minus the flat wrap's y), so
that paths can go into an SVG as they are. Angles `at_deg` go round the blank, front 0, growing to the viewer's right.
Matrices are (a, b, c, d, e, f) as in SVG: x' = a x + c y + e, y' = b x + d y + f.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Matrix = tuple[float, float, float, float, float, float]
Box = tuple[float, float, float, float]
FrameKind = Literal["flat", "straight"]


@dataclass(frozen=True)
class FrameView:
    """The figures from which a browser finds places on the wrap (the same formulas as core/blank/flat.py).

    Attributes:
        kind: "flat" is the true flat shape (a sector on a taper); "straight" the same wall straightened, where x is the
            angle times the girth at the band's middle and y the height along the wall.
        sector: whether this frame is a sector.
        lower_mm, upper_mm: one whole turn at the band's lower and upper edge, in this frame.
        height_mm: of the band, along the wall.
        seam_deg: angle of the seam or of the handle's middle.
        overlap_mm: strip beyond the right end.
        gap_mm: bare width at the handle.
        box: x, y, width, height of the trim with its bleed.
        plate: "rectangle", "circle" or "outline" of a flat blank, whose width stands for the whole turn and whose
            middle is the front: mm right of the middle = angle / 360 x lower_mm; "" for a blank with a wall.
    """

    kind: FrameKind
    sector: bool
    lower_mm: float
    upper_mm: float
    height_mm: float
    seam_deg: float
    overlap_mm: float
    gap_mm: float
    box: Box
    plate: str = ""


@dataclass(frozen=True)
class LineView:
    """A named line on the wrap.

    Attributes:
        kind: side (front, right, back, left), seam, handle (an edge of its gap), trim, bleed, safe, keepout, middle.
        name: as shown: "Front", "Seam", "Handle, drinker's side", a keep-out's reason ...
        at_deg: angle, or None for a line that goes round.
        d: SVG path in canvas mm.
    """

    kind: str
    name: str
    at_deg: float | None
    d: str


@dataclass(frozen=True)
class ShapeView:
    """A shape of one colour in the copy's art frame; `fill` or `stroke` is "" when there is none."""

    d: str
    fill: str
    stroke: str
    stroke_mm: float
    even_odd: bool
    opacity: float


@dataclass(frozen=True)
class SpriteView:
    """Pixels with alpha, drawn over `box` (x, y, width, height) of the copy's art frame."""

    url: str
    box: Box


@dataclass(frozen=True)
class CopyView:
    """One copy of an element, in the order of drawing.

    Attributes:
        key: "ELEMENT.COPY", both counted from 0.
        element, copy: the same as numbers; `element` is the index in the document's list.
        name, kind: of the element.
        at_deg, up_mm: its centre: angle, and mm above the band's lower edge.
        across_mm: on a flat blank, mm right of the middle; `at_deg` says the same as a share of the width.
        turn_deg: own turn, clockwise as seen.
        width_mm, height_mm: its visible size.
        lay: "true" or "level".
        fixed: it goes all round and cannot be moved.
        matrix: its art frame -> canvas. Of a rigid copy the art frame is its own millimetres (origin at its centre,
            y down), so that a move only changes the matrix; of a bent one it is the canvas itself.
        rigid: see `matrix`.
        border: SVG path of its visible border in the art frame.
        shapes: outlines in the art frame, bottom to top; empty when there is a sprite.
        sprite: pixels, or None.
        laps: whole turns at which it shows: 0, and 1 or -1 where it goes on beyond an end or in the overlap.
        ppi: pixels per inch it prints with at the worst point, None for outlines.
        spoken: for a screen reader: "Crest, front, 46 millimetres up".
    """

    key: str
    element: int
    copy: int
    name: str
    kind: str
    at_deg: float
    up_mm: float
    turn_deg: float
    width_mm: float
    height_mm: float
    lay: str
    fixed: bool
    matrix: Matrix
    rigid: bool
    border: str
    shapes: tuple[ShapeView, ...]
    sprite: SpriteView | None
    laps: tuple[int, ...]
    ppi: float | None
    spoken: str
    across_mm: float = 0.0


@dataclass(frozen=True)
class SolidView:
    """The blank in space.

    Attributes:
        wall: (height_mm, radius_mm, wall_mm) from base to rim: axial height, radius, position along the wall.
        band_from_mm, band_height_mm: the band along the wall.
        handle: (at_deg, gap_mm) or None.
        coating: "#rrggbb".
        read_deg: angle that one far eye can read round the front, whole window.
    """

    wall: tuple[tuple[float, float, float], ...]
    band_from_mm: float
    band_height_mm: float
    handle: tuple[float, float] | None
    coating: str
    read_deg: float


@dataclass(frozen=True)
class ProofView:
    """The picture of the whole wrap in this frame: `url`, and the canvas box it covers."""

    url: str
    box: Box
    width_px: int
    height_px: int


@dataclass(frozen=True)
class ProblemView:
    """Why a document cannot be drawn, or a part of it; `where` as the screen calls it; `element` an index or None."""

    message: str
    remedy: str
    where: str
    element: int | None


@dataclass(frozen=True)
class WrapFigures:
    """The measured figures shown beside the wrap, mm."""

    girth_top_mm: float
    girth_bottom_mm: float
    wall_mm: float
    width_mm: float
    height_mm: float
    overlap_mm: float
    girth_error_mm: float
    opposite_error_mm: float
    misfit_mm: float


@dataclass(frozen=True)
class Drawn:
    """A document as a screen shows it; when it cannot be drawn only `problems` is filled.

    Attributes:
        frame, figures, solid, proof: None when the blank itself cannot be read.
        lines: named lines, in the order of drawing.
        copies: bottom to top.
        remarks: sentences about what was read or changed.
        problems: why it, or a part of it, cannot be drawn.
    """

    frame: FrameView | None
    figures: WrapFigures | None
    solid: SolidView | None
    proof: ProofView | None
    lines: tuple[LineView, ...]
    copies: tuple[CopyView, ...]
    remarks: tuple[str, ...]
    problems: tuple[ProblemView, ...]


@dataclass(frozen=True)
class FindingView:
    """One finding of the checks; `element` is an index in the document's list or None."""

    rule: str
    severity: str
    message: str
    element: int | None
    name: str
    accepted: bool


@dataclass(frozen=True)
class LiveChecks:
    """What the checks say of one revision."""

    revision: int
    findings: tuple[FindingView, ...]
    notes: tuple[str, ...]
