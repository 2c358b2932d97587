"""What is laid on sheets, on which papers, and how it lies in the end: values that everything about sheets shares.

All lengths are true millimetres as printed: the page after mirroring, before the printer's scale is corrected. Sheet
coordinates have their origin in the lower left corner of the paper. A turn is anticlockwise, after mirroring.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Box = tuple[float, float, float, float]  # left, bottom, right, top
Ring = tuple[tuple[float, float], ...]  # a closed outline without its first point repeated, anticlockwise
Kind = Literal["rectangle", "sector", "circle", "outline"]
Way = Literal["trimmer", "free"]
SIDES = ("left", "bottom", "right", "top")


@dataclass(frozen=True)
class Shape:
    """The trim outline of a part at turn 0, its box's lower left corner at the origin.

    Attributes:
        kind: rectangle, sector (of a ring), circle or any outline.
        width_mm, height_mm: of the box round it.
        inner_mm, outer_mm: radii of a sector; else 0.
        half_deg: half a sector's angle; its axis is upright and its centre lies below the box when `centre_below`.
        centre_below: False for a sector whose arcs bulge downwards.
        ring: the outline as straight pieces, at most 0.02 mm off; empty for a rectangle.
        lean_mm: how far a sector's axis lies right of its box's middle; not 0 when an overlap stands at one end: then
            the box is the trim's own and the sector of `half_deg` either side of the axis is the least one round it.
    """

    kind: Kind
    width_mm: float
    height_mm: float
    inner_mm: float = 0.0
    outer_mm: float = 0.0
    half_deg: float = 0.0
    centre_below: bool = True
    ring: Ring = ()
    lean_mm: float = 0.0


@dataclass(frozen=True)
class Part:
    """A thing to be laid, in one or more copies.

    Attributes:
        shape: its trim.
        copies: how many; at least 1.
        turns: the quarter turns allowed.
        clear_mm: what belongs to it beyond its trim at turn 0 (left, bottom, right, top): bleed, its half of the
            gutter and the strip that holds its label. No other part's clear room overlaps it.
        bleed_mm: how far ink reaches beyond the trim (left, bottom, right, top); must lie inside the printable area.
        true: the sides of the box that must be cut to the finished trim.
        order: parts of the same order are kept together where it costs no sheet.
        name: what the cut list calls it.
        label_mm: where its label lies on a sheet for scissors or plotter: a box at turn 0, counted from the lower left
            corner of the trim's box. None: in the strip that `clear_mm` has beyond bleed and half the gutter.
        first: the piece number of its first copy where pieces are numbered through all parts; 0 where each part's
            copies are numbered from 1.
    """

    shape: Shape
    copies: int = 1
    turns: tuple[int, ...] = (0, 90, 180, 270)
    clear_mm: Box = (0.0, 0.0, 0.0, 0.0)
    bleed_mm: Box = (0.0, 0.0, 0.0, 0.0)
    true: frozenset[str] = frozenset(SIDES)
    order: str = ""
    name: str = ""
    label_mm: Box | None = None
    first: int = 0


@dataclass(frozen=True)
class Stock:
    """A paper to lay on.

    Attributes:
        paper: its name.
        width_mm, height_mm: as fed; a roll has no height.
        margins_mm: left, bottom, right, top: what the printer cannot reach.
        price: of one sheet, or of one metre of a roll, in the shop's money; None when it is not known.
        at_hand: how many sheets there are; None for as many as are wanted.
    """

    paper: str
    width_mm: float
    height_mm: float | None
    margins_mm: Box = (0.0, 0.0, 0.0, 0.0)
    price: float | None = None
    at_hand: int | None = None


@dataclass(frozen=True)
class Pin:
    """A copy that must stay where it was put by hand: sheet, lower left corner of its trim's box, turn."""

    part: int
    copy: int
    sheet: int
    x_mm: float
    y_mm: float
    turn_deg: int


@dataclass(frozen=True)
class LayRequest:
    """Everything that is asked of one laying.

    Attributes:
        parts: what is laid.
        stocks: papers that may be used, the liked ones first.
        gutter_mm: least distance between two trims.
        way: "trimmer" (every cut from edge to edge) or "free" (scissors or a plotter).
        pins: what must stay.
        seed: the same seed gives the same layout for the same number of steps.
        step_mm: what the corners of clear rooms are whole multiples of, across and along, from the paper's corner: a
            sheet's pixels, so that copies share one image.
    """

    parts: tuple[Part, ...]
    stocks: tuple[Stock, ...]
    gutter_mm: float = 0.0
    way: Way = "trimmer"
    pins: tuple[Pin, ...] = ()
    seed: int = 1
    step_mm: tuple[float, float] = (0.01, 0.01)


@dataclass(frozen=True)
class Laid:
    """One copy on a sheet: the lower left corner of its trim's box, and its turn."""

    part: int
    copy: int
    x_mm: float
    y_mm: float
    turn_deg: int


@dataclass(frozen=True)
class Cell:
    """A rectangle of a sheet and how edge-to-edge cuts divide it.

    A cell with children is divided by cuts square to `along`: "x" puts the children side by side from left to right,
    "y" on top of each other from the bottom up. The children together fill it. A cell without children holds one copy
    (part >= 0; the copy's trim and clear room lie inside it) or is waste (part < 0).
    """

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    along: Literal["", "x", "y"] = ""
    children: tuple[Cell, ...] = ()
    part: int = -1
    copy: int = -1
    turn_deg: int = 0


@dataclass(frozen=True)
class LaidSheet:
    """One sheet.

    Attributes:
        stock: index into the request's stocks.
        width_mm, height_mm: the paper; a roll's height is the length used.
        pieces: what lies on it.
        cell: the printable area and its cuts; it reaches beyond what the printer can print, on the paper still, by no
            more than the part of the pieces' clear room that holds no ink. None on a sheet for scissors or plotter.
        rest: the largest rectangle at an edge that stays whole and can be used again, or None.
    """

    stock: int
    width_mm: float
    height_mm: float
    pieces: tuple[Laid, ...]
    cell: Cell | None = None
    rest: Box | None = None


@dataclass(frozen=True)
class Layout:
    """The answer.

    Attributes:
        request: what was asked.
        sheets: in the order they are printed.
        bound: no way of laying this request needs fewer sheets (on a roll: whole millimetres).
        proven: whether the sheets (millimetres) used equal the bound; with every price known, the cost the least.
        words: the sentence that says so, with paper, margins, gutter, turns and way of cutting.
        over: indices of parts that fit no paper, with nothing of them laid.
        notes: sentences for the user.
        least_cost: no way of laying this request costs less; None where not every price is known.
    """

    request: LayRequest
    sheets: tuple[LaidSheet, ...]
    bound: int = 0
    proven: bool = False
    words: str = ""
    over: tuple[int, ...] = ()
    notes: tuple[str, ...] = field(default=())
    least_cost: float | None = None
