"""What a cut list is made of: the trimmer, strokes with their layers, scissor work, and the list itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from wrapwright.core.sheet.lay.values import Box

Side = Literal["left", "bottom", "right", "top"]
StrokeKind = Literal["margin", "part", "trim"]
Copy = tuple[int, int]  # part, copy


@dataclass(frozen=True)
class Trimmer:
    """A paper trimmer. The figures it starts with are common practice, no source.

    Attributes:
        longest_mm: the longest stroke.
        stack_mm: the thickest stack it cuts cleanly.
        paper_mm: thickness of one sheet.
        least_mm: the narrowest strip the clamp holds.
        slip_mm: how far the image may sit off on the paper (an estimate). 0 means that the paper's own edges are as
            good as cut ones.
    """

    longest_mm: float = 460.0
    stack_mm: float = 1.0
    paper_mm: float = 0.12
    least_mm: float = 20.0
    slip_mm: float = 1.5

    @property
    def layers(self) -> int:
        """How many sheets it cuts at once; at least 1."""
        return max(1, int((self.stack_mm + 1e-9) / self.paper_mm))


@dataclass(frozen=True)
class Layer:
    """One rectangle of paper under the blade.

    Attributes:
        sheet: index of the sheet it comes from.
        box: where it lay on that sheet (page mm).
        edge: the side of the box that lies against the fence; on a printed line, the side that is held.
        at_mm: the page coordinate of the cut: an x where `edge` is left or right, else a y.
    """

    sheet: int
    box: Box
    edge: Side
    at_mm: float


@dataclass(frozen=True)
class Stroke:
    """One stroke.

    Attributes:
        number: counts from 1.
        kind: "margin" on a printed line, by eye; "part" between pieces; "trim" takes waste off.
        layers: what lies under the blade, bottom to top; all of one size and cut alike.
        fence_mm: distance from the fence to the blade; None on a printed line.
        length_mm: of the cut.
        turn: what is done with the paper before it since its last stroke: "", "quarter turn left", "half turn" ...
        frees: the copies that are finished by it.
        caution: a sentence when the trimmer cannot make this stroke, else "".
    """

    number: int
    kind: StrokeKind
    layers: tuple[Layer, ...]
    fence_mm: float | None
    length_mm: float
    turn: str = ""
    frees: tuple[Copy, ...] = ()
    caution: str = ""

    @property
    def upright(self) -> bool:
        """Whether the cut runs upright on the first layer's sheet."""
        return self.layers[0].edge in ("left", "right")


@dataclass(frozen=True)
class ScissorWork:
    """What is left to scissors of one copy: along the printed line, length in centimetres, and what it is."""

    sheet: int
    part: int
    copy: int
    length_cm: float
    what: str


@dataclass(frozen=True)
class CutList:
    """The whole list.

    Attributes:
        trimmer: for which it holds.
        sheets: width and height of each sheet's paper.
        strokes: in the order of the work.
        settings: how often the fence is set.
        scissors: what is cut by hand afterwards (on sheets without a trimmer's cuts: everything).
        notes: sentences: what the trimmer cannot do, and what another order costs.
    """

    trimmer: Trimmer
    sheets: tuple[tuple[float, float], ...]
    strokes: tuple[Stroke, ...]
    settings: int = 0
    scissors: tuple[ScissorWork, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def scissors_cm(self) -> float:
        """Centimetres of scissor work in all."""
        return sum(one.length_cm for one in self.scissors)
