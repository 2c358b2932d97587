"""What the Sheets screen is told: plain values in mm; y counts down from the upper left corner of each sheet."""

from __future__ import annotations

from dataclasses import dataclass

Box = tuple[float, float, float, float]  # left, top, width, height
Matrix = tuple[float, float, float, float, float, float]  # as SVG's matrix(a b c d e f)


@dataclass(frozen=True)
class PieceView:
    """A design in the tray.

    Attributes:
        design, revision, title, quantity: of it; revision 0 when the design has been removed.
        width_mm, height_mm: of the box round its trim as printed.
        outline: SVG path data of its trim, flat mm as seen, y down.
        art: where the proof picture of the flat wrap lies in the same frame.
        turns: quarter turns it may lie in.
        laid: how many copies lie on the sheets.
        problems: what is wrong with it: sentences.
        notes: what gave way.
    """

    design: int
    revision: int
    title: str
    quantity: int
    width_mm: float = 0.0
    height_mm: float = 0.0
    outline: str = ""
    art: Box = (0.0, 0.0, 0.0, 0.0)
    turns: tuple[int, ...] = (0, 90, 180, 270)
    laid: int = 0
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class CopyView:
    """A copy on a sheet.

    Attributes:
        piece: place of its design in the tray.
        copy: from 0.
        box: round its trim.
        clear: round its trim and what belongs to it: bleed, half the gutter, its label.
        turn_deg: anticlockwise after mirroring.
        matrix: from the outline's frame to the sheet; it mirrors, as the print does.
        pinned: whether it was put there by hand.
    """

    piece: int
    copy: int
    box: Box
    clear: Box
    turn_deg: int
    matrix: Matrix
    pinned: bool


@dataclass(frozen=True)
class SheetLaid:
    """A sheet: its paper, what lies on it, what can be printed on, and the part that stays whole, if any."""

    paper: str
    width_mm: float
    height_mm: float
    printable: Box
    copies: tuple[CopyView, ...]
    rest: Box | None = None
    rest_words: str = ""


@dataclass(frozen=True)
class LayerView:
    """Paper under the blade: the sheet it comes from, where it lay on it, and the cut from point to point."""

    sheet: int
    box: Box
    cut: tuple[float, float, float, float]


@dataclass(frozen=True)
class StrokeView:
    """A stroke: its number, sentence, fence distance (None on a printed line), and the paper under the blade."""

    number: int
    kind: str
    words: str
    fence_mm: float | None
    length_mm: float
    layers: tuple[LayerView, ...]
    caution: str = ""


@dataclass(frozen=True)
class TrayView:
    """The tray as it lies.

    Attributes:
        pieces: as in the tray.
        sheets: in the order they are printed.
        words: how many sheets, the bound, and whether fewer are impossible; a sentence.
        bound: no layout needs fewer.
        proven: whether this is the bound.
        cost: of the paper, when its price is known.
        strokes: for the trimmer; the first 2000.
        strokes_all: how many there are.
        cut_words: the cut list's figures as a sentence.
        how: how the cut list is read, and its cautions.
        loose: which pins could not stay (their places in the tray's list).
        notes: sentences for the user.
    """

    pieces: tuple[PieceView, ...]
    sheets: tuple[SheetLaid, ...] = ()
    words: str = ""
    bound: int = 0
    proven: bool = False
    cost: float | None = None
    strokes: tuple[StrokeView, ...] = ()
    strokes_all: int = 0
    cut_words: str = ""
    how: tuple[str, ...] = ()
    loose: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()
